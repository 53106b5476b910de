package screening

import (
	"fmt"
	"math"
	"strings"

	"waterward/geo"
)

// proposal is one proposed structure as its feature states it, lengths in
// metres, NaN if not stated.
type proposal struct {
	feature    *geo.Feature
	file       string
	id         string
	kind       string
	material   string
	datum      string
	crest, bed float64 // elevations above datum
	crestWidth float64
	slope      float64 // horizontal to one vertical
	accuracy   float64
	footprint  *geo.Footprint
	err        error // why it cannot be screened
}

// newProposal reads a proposal; a fault is kept in it, so that it becomes a row
// with its reason.
func newProposal(f *geo.Feature, source ProposalsSource) *proposal {
	p := &proposal{
		feature: f, file: source.File, id: f.ID, kind: f.Text("kind"), material: f.Text("material"), datum: strings.TrimSpace(f.Text("datum")),
		accuracy: source.Accuracy.OrNaN(), crest: math.NaN(), bed: math.NaN(), crestWidth: math.NaN(), slope: math.NaN(),
	}
	if p.id == "" {
		p.id = fmt.Sprintf("#%d", f.Number)
	}
	fail := func(wrong, remedy string) {
		p.err = &geo.FeatureError{File: source.File, Number: f.Number, ID: f.ID, Wrong: wrong, Remedy: remedy}
	}
	if f.Err != nil {
		p.err = f.Err
		return p
	}
	var width, diameter float64
	for _, n := range []struct {
		name     string
		into     *float64
		unit     float64
		positive bool
	}{
		{"crest_elev_ft", &p.crest, foot, false}, {"bed_elev_ft", &p.bed, foot, false},
		{"width_ft", &width, foot, true}, {"diameter_ft", &diameter, foot, true},
		{"crest_width_ft", &p.crestWidth, foot, true}, {"side_slope", &p.slope, 1, true},
		{"accuracy_ft", &p.accuracy, foot, true},
	} {
		value, ok, err := f.Number64(n.name)
		if err == nil && ok && n.positive && value < 0 {
			err = fmt.Errorf("%s is %g, which is less than nothing", n.name, value)
		}
		if err != nil {
			fail(err.Error(), "correct the property")
			return p
		}
		if ok {
			*n.into = value * n.unit
		}
	}
	fp, err := geo.NewFootprint(f.Geometry, width, diameter)
	if err != nil {
		fail(err.Error(), "redraw it: rings closed and not crossing, holes inside, parts apart")
		return p
	}
	p.footprint = fp
	return p
}
