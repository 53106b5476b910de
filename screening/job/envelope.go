package job

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Envelope says what structure an envelope is for, and how far to look.
type Envelope struct {
	Width     Distance          `yaml:"width"`        // of the structure
	Least     Distance          `yaml:"least_length"` // worth building
	Reach     Distance          `yaml:"reach"`        // how far out from mean high water is looked
	Tolerance Distance          `yaml:"tolerance"`    // how far from the shore a parcel may end and front it
	Structure map[string]string `yaml:"structure"`    // what it states, as a proposal would
}

// The modest structure that is looked for unless the job says otherwise; common
// practice, no source.
var modest = Envelope{
	Width: Distance{6 * Foot, true}, Least: Distance{20 * Foot, true}, Reach: Distance{150 * Foot, true},
	Tolerance: Distance{ParcelTolerance, true},
	Structure: map[string]string{"kind": "sill", "material": "oyster shell", "crest_elev_ft": "-0.5", "datum": "MHW", "fill": "no"},
}

// Settled fills in what is not stated.
func (s Envelope) Settled() Envelope {
	for _, d := range []struct{ of, by *Distance }{
		{&s.Width, &modest.Width}, {&s.Least, &modest.Least}, {&s.Reach, &modest.Reach}, {&s.Tolerance, &modest.Tolerance},
	} {
		if !d.of.Stated {
			*d.of = *d.by
		}
	}
	if s.Structure == nil {
		s.Structure = modest.Structure
	}
	return s
}

// check says what of the settings cannot be.
func (s Envelope) check() error {
	for _, d := range []struct {
		name string
		of   Distance
	}{{"width", s.Width}, {"least_length", s.Least}, {"reach", s.Reach}} {
		if d.of.Metres <= 0 {
			return &Error{fmt.Sprintf("envelope: %s is a length of more than 0", d.name)}
		}
	}
	if s.Reach.Metres > mostReach {
		return &Error{fmt.Sprintf("envelope: reach is more than %s, beyond which nothing of a shore is known", FeetText(mostReach))}
	}
	if s.Tolerance.Metres > mostTolerance {
		return &Error{fmt.Sprintf("envelope: tolerance is more than %s; a parcel that ends so far from the shore does not front it", FeetText(mostTolerance))}
	}
	for _, name := range slices.Sorted(maps.Keys(s.Structure)) {
		switch {
		case slices.Contains([]string{"id", "width_ft", "diameter_ft", "accuracy_ft", "project", "site", "alternative", "started"}, name):
			return &Error{fmt.Sprintf("envelope: structure states no %s: a candidate stands alone, and is drawn by the tool", name)}
		case !slices.Contains(ProposalProperties(), name):
			return &Error{fmt.Sprintf("envelope: nothing reads a property %s of a structure; properties are %s", name, strings.Join(ProposalProperties(), ", "))}
		}
	}
	return nil
}

// mostTolerance is how far from the shore, in metres (300 ft), a parcel may end and be
// said to front it: room for the worst of parcel maps, and none for a row of lots between.
const mostTolerance = 300 * Foot

// mostReach is how far out, in metres (1,000 ft), an envelope may be looked for.
const mostReach = 1000 * Foot
