package job

import (
	"fmt"
	"slices"
	"strings"

	"waterward/rules"
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

// NoProperty is the error of a property that the job names and no feature of some files has.
// why says what it is for; names are the properties that there are.
func NoProperty(layer, files, property, why string, names []string) *Error {
	text := fmt.Sprintf("%s: no feature of %s has the property %s, %s", layer, files, property, why)
	if near := rules.Nearest(property, names); near != "" {
		text += fmt.Sprintf(" (did you mean %s?)", near)
	}
	return &Error{text + "; there are " + strings.Join(names, ", ")}
}

// MostNames is how many different properties of a file are kept to be told; no file of
// proposals has more.
const MostNames = 200
