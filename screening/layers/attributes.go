package layers

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/job"
)

// Attributes are what is known of a feature of a layer besides its place.
type Attributes struct {
	Label   string   // what the feature is called in the outputs
	Carried []string // the properties that the job has it carry, in its order
	Shift   float64  // datum mismatch stated for the layer, and the grain of its file
	*Stated          // shared by features in a row that state the same, as most do
}

// Stated is what the features of layers may state. NaN is unstated.
type Stated struct {
	Accuracy  float64
	Datum     crs.Datum
	Elevation float64
	Levelled  float64 // accuracy of elevation, NaN if not stated
	Refused   string  // why an elevation stated is not believed
	Width     float64
	Side      int
	Reach     string // of a channel
	Date      string // of the survey
	DrawnHere bool   // this tool has constructed it: nobody has surveyed it
}

// HalfWidth is half the width of a centreline, 0 if none is stated.
func (s *Stated) HalfWidth() float64 {
	if math.IsNaN(s.Width) {
		return 0
	}
	return s.Width / 2
}

// Same reports whether two features state the same.
func (s *Stated) Same(o *Stated) bool {
	return sameNumber(s.Accuracy, o.Accuracy) && sameNumber(s.Elevation, o.Elevation) && sameNumber(s.Levelled, o.Levelled) && sameNumber(s.Width, o.Width) &&
		s.Refused == o.Refused && s.Datum == o.Datum && s.Side == o.Side && s.Reach == o.Reach && s.Date == o.Date && s.DrawnHere == o.DrawnHere
}

// sameNumber takes unstated for the same as unstated.
func sameNumber(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

// reject records why a feature cannot be used.
func (l *Layer) reject(b *geo.LayerBuilder, f *geojson.Feature, file, wrong, remedy string) {
	err := f.Err
	if err == nil {
		err = &geojson.FeatureError{File: file, Number: f.Number, ID: f.ID, Wrong: wrong, Remedy: remedy}
	}
	where, known := f.Whereabouts()
	if !known {
		l.lost++
	}
	b.AddDefect(err, where, known)
}

// add puts a feature into the layer under construction, or records why it
// cannot be used.
func (l *Layer) add(b *geo.LayerBuilder, f *geojson.Feature, file string, kind LayerKind) {
	reject := func(wrong, remedy string) { l.reject(b, f, file, wrong, remedy) }
	a, err := l.attributes(f)
	switch {
	case f.Err != nil:
		reject("", "")
		return
	case err != nil:
		reject(err.Error(), "correct the property")
		return
	}
	if other := l.ofOtherKind(f); other != "" {
		reject(other, "say by only, or a preset, which features of the file belong to the layer")
		return
	}
	switch g := f.Geometry.(type) {
	case orb.LineString, orb.MultiLineString:
		lines := LinesOf(g)
		if !kind.Lines {
			reject("it is a line where areas are expected", "draw it as a polygon")
			return
		}
		if slices.ContainsFunc(lines, IsPoint) {
			reject("a line of it has all its positions in one place", "draw it whole")
			return
		}
		if a.Width > l.Widest { // not so if unstated
			l.Widest = a.Width
		}
		if l.pass(b, f, file) {
			return
		}
		b.AddLine(lines...)
	case orb.Polygon, orb.MultiPolygon:
		if !kind.Areas {
			reject("it is an area where lines are expected", "give its outline as a line")
			return
		}
		area, err := l.valid(f, file, AreaOf(g))
		if err != nil {
			reject(err.Error(), "redraw the ring so that it does not cross itself, with holes inside and parts apart")
			return
		}
		if l.pass(b, f, file) {
			return
		}
		b.AddArea(area)
	default:
		reject("it is a point", "draw a line or an area")
		return
	}
	a.Shift += Coarseness(f)
	if a.Refused != "" {
		a.Refused = fmt.Sprintf("%s: %s: %s", file, NameOf(f.Number, f.ID), a.Refused)
		l.refused = append(l.refused, a.Refused)
	}
	if n := len(l.Items); n > 0 && l.Items[n-1].Same(a.Stated) {
		a.Stated = l.Items[n-1].Stated
	}
	l.Items = append(l.Items, a)
}

// pass leaves out a usable feature that lies beyond the reach of every proposal.
func (l *Layer) pass(b *geo.LayerBuilder, f *geojson.Feature, file string) bool {
	l.Usable++
	l.Grain = math.Max(l.Grain, Coarseness(f))
	bound := f.Bound()
	if l.places == nil || l.places.Meet(bound) {
		return false
	}
	if l.places.Meet(Swap(bound)) {
		l.suspects = append(l.suspects, geo.Defect{Where: Swap(bound), Known: true, Err: &geojson.FeatureError{
			File: file, Number: f.Number, ID: f.ID, Wrong: "it lies beside a proposal only with latitude and longitude swapped",
			Remedy: "put longitude first in every position",
		}})
	}
	b.Pass(bound)
	return true
}

func IsPoint(line orb.LineString) bool {
	return !slices.ContainsFunc(line, func(p orb.Point) bool { return p != line[0] })
}

func (l *Layer) attributes(f *geojson.Feature) (Attributes, error) {
	a := Attributes{Label: f.ID, Shift: l.Source.DatumShift.Metres, Stated: &Stated{
		Accuracy: l.Source.Accuracy.OrNaN(), Datum: f.CRS().Datum, Elevation: math.NaN(), Levelled: math.NaN(), Width: math.NaN(),
	}}
	fields := l.Source.Properties
	words := map[string]string{}
	for _, name := range []string{"id", "side", "reach", "name", "date"} {
		text, err := fields.Text(f, name)
		if err != nil {
			return a, err
		}
		words[name] = strings.TrimSpace(text)
	}
	if _, mapped := fields["id"]; mapped && words["id"] != "" {
		a.Label = words["id"]
	}
	a.Reach, a.Date, a.DrawnHere = words["reach"], l.Source.Date, f.Text("made_by") == MadeBy
	if _, mapped := fields["date"]; mapped && words["date"] != "" {
		a.Date = words["date"]
		if t, ok := job.ParseDate(a.Date); ok {
			if a.Date = t.Format(time.DateOnly); t.After(l.day) && !l.day.IsZero() {
				return a, fmt.Errorf("its date is %s, after the decision date %s", a.Date, job.DayText(l.day))
			}
		}
	}
	if a.Label == "" {
		a.Label = "#" + strconv.Itoa(f.Number)
	}
	for _, p := range []struct {
		name string
		into *float64
	}{{"accuracy_ft", &a.Accuracy}, {"elevation_ft", &a.Elevation}, {"elevation_accuracy_ft", &a.Levelled}, {"width_ft", &a.Width}} {
		value, ok, err := fields.Number(f, p.name)
		if err != nil {
			return a, err
		}
		within := job.Positive
		if p.name == "elevation_ft" {
			within = job.Elevations
		}
		switch wrong := within.Refuses(p.name, value); {
		case !ok:
		case wrong == nil:
			*p.into = value
		case p.name == "elevation_ft": // the line itself is where it is
			a.Refused = wrong.Error()
		default:
			return a, wrong
		}
		if p.name == "width_ft" && a.Width == 0 { // no channel is; nobody has filled it in
			a.Width = math.NaN()
		}
	}
	switch side := words["side"]; side {
	case "":
	case "water_left":
		a.Side = 1
	case "water_right":
		a.Side = -1
	default:
		return a, fmt.Errorf("side is %.40q, not water_left or water_right", side)
	}
	if l.Name == "parcels" {
		key, err := fields.Text(f, "parcel_id")
		if l.Source.Key != "" {
			if key = f.Text(job.Spelled(f, l.Source.Key)); len(key) > geojson.LongestText {
				return a, fmt.Errorf("%s is %d bytes long, where a parcel's number is expected", l.Source.Key, len(key))
			}
		}
		if err != nil {
			return a, err
		}
		if key != "" {
			a.Label = key
		}
		a.Carried = l.carried(f)
	}
	if strings.HasPrefix(l.Name, "areas.") {
		if words["name"] != "" {
			a.Label = words["name"]
		}
	}
	return a, nil
}

// MadeBy is how candidates that the tool has drawn say so. They lie where they are drawn,
// so that their accuracy_ft of 0 is what it says: in what others write it is a number that
// nobody has filled in.
const MadeBy = "waterward envelope"
