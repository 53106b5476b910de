package site

import (
	"waterward/rules"
	"waterward/screening/layers"
)

// MissingLayer is the layer that a demand needs and the job does not give; empty
// if there is none.
func MissingLayer(m *layers.Set, d *rules.Demand) string {
	for _, in := range d.Inputs() {
		if r := RecordOf(in.Ref.Measure); r.Layer != "" && m.Under(rules.Value{Layer: r.Layer}) == nil {
			return r.Layer
		}
	}
	return ""
}
