package inspect

import (
	"fmt"
	"regexp"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/geojson"
	"waterward/screening/layers"
)

// FaultSeen is one kind of fault with where it first stands.
type FaultSeen struct {
	Wrong  string   `json:"wrong"`
	Remedy string   `json:"remedy"`
	Count  int      `json:"count"`
	First  []string `json:"first"`
}

const (
	// mostFaults bounds what is kept of a file: one that has more is no layer that a
	// person can overlook.
	mostFaults = 100
	// mostExamples is how many values, and places of a fault, are shown.
	mostExamples = 3
)

// check looks at a feature as a layer of any kind would. asDrawn: areas that are not
// valid are refused.
func (in *Inspection) check(f *geojson.Feature, asDrawn bool) {
	if f.Err != nil {
		in.unusable(f.Err)
		return
	}
	if shape := layers.AreaOf(f.Geometry); shape != nil {
		in.area(f, shape, asDrawn)
	}
	if slices.ContainsFunc(layers.LinesOf(f.Geometry), layers.IsPoint) {
		in.unusable(&geojson.FeatureError{Number: f.Number, ID: f.ID, Wrong: "a line of it has all its positions in one place", Remedy: "draw it whole"})
		return
	}
	in.selfMeeting(f)
}

// selfMeeting looks for lines that cross themselves, which are measured to as drawn.
func (in *Inspection) selfMeeting(f *geojson.Feature) {
	for _, line := range layers.LinesOf(f.Geometry) {
		if at, meets := area.SelfMeeting(line); meets {
			in.fault(layers.NameOf(f.Number, f.ID), fmt.Sprintf("a line of it crosses or touches itself at (%.9g, %.9g)", at[0], at[1]), "see that it is meant so")
			return
		}
	}
}

// area looks at an area as a layer would.
func (in *Inspection) area(f *geojson.Feature, shape orb.MultiPolygon, asDrawn bool) {
	wrong := area.Check(shape)
	if wrong == nil {
		return
	}
	if !asDrawn {
		rebuilt, err := area.Repair(shape)
		if err == nil {
			in.Rebuilt++
			in.fault(layers.NameOf(f.Number, f.ID), fmt.Sprintf("%v; as a layer %s", wrong, layers.RebuiltText(shape, rebuilt)), "")
			return
		}
		wrong = fmt.Errorf("%w; %w", wrong, err)
	}
	in.unusable(&geojson.FeatureError{Number: f.Number, ID: f.ID, Wrong: wrong.Error(), Remedy: "redraw it"})
}

func (in *Inspection) unusable(err *geojson.FeatureError) {
	in.Unusable++
	in.fault(layers.NameOf(err.Number, err.ID), err.Wrong, err.Remedy)
}

// figures are what tells one fault of a kind from another.
var figures = regexp.MustCompile(`[-+]?[0-9][-+0-9.e]*`)

// fault counts a fault by its kind: its words without the figures.
func (in *Inspection) fault(place, wrong, remedy string) {
	kind := figures.ReplaceAllString(wrong, "#")
	for i := range in.Faults {
		if f := &in.Faults[i]; figures.ReplaceAllString(f.Wrong, "#") == kind {
			f.Count++
			if len(f.First) < mostExamples {
				f.First = append(f.First, place)
			}
			return
		}
	}
	if len(in.Faults) < mostFaults {
		in.Faults = append(in.Faults, FaultSeen{wrong, remedy, 1, []string{place}})
	}
}
