package job

import (
	"fmt"
	"slices"
	"strings"
)

// checkCarry reports what is wrong with the properties that a layer is to carry.
func (s *LayerSource) checkCarry(layer string) []string {
	if len(s.Carry) > 0 && layer != "parcels" {
		return []string{layer + ": only parcels carry properties into the outputs; take carry out"}
	}
	var wrong []string
	for i, name := range s.Carry {
		switch {
		case strings.TrimSpace(name) == "":
			wrong = append(wrong, layer+": carry names the file's properties: [SITE_ADDR, OWNER_ZIP]")
		case slices.ContainsFunc(s.Carry[:i], func(before string) bool { return strings.EqualFold(before, name) }):
			wrong = append(wrong, fmt.Sprintf("%s: carry has %s twice", layer, name))
		}
	}
	return wrong
}
