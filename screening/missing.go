package screening

import "waterward/rules"

// missingLayer is the layer that a demand needs and the job does not give; empty
// if there is none.
func missingLayer(m *mapped, d *rules.Demand) string {
	for _, in := range d.Inputs() {
		if r, _ := recordOf(in.Ref.Measure); r.layer != "" && m.under(rules.Value{Layer: r.layer}) == nil {
			return r.layer
		}
	}
	return ""
}
