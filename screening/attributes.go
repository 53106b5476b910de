package screening

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
)

// attributes are what is known of a feature of a layer besides its place.
type attributes struct {
	label   string  // what the feature is called in the outputs
	shift   float64 // datum mismatch stated for the layer, and the grain of its file
	*stated         // shared by features in a row that state the same, as most do
}

// stated is what the features of layers may state. NaN is unstated.
type stated struct {
	accuracy  float64
	datum     crs.Datum
	elevation float64
	levelled  float64 // accuracy of elevation, NaN if not stated
	refused   string  // why an elevation stated is not believed
	width     float64
	side      int
	reach     string // of a channel
	date      string // of the survey
	drawnHere bool   // this tool has constructed it: nobody has surveyed it
}

// halfWidth is half the width of a centreline, 0 if none is stated.
func (s *stated) halfWidth() float64 {
	if math.IsNaN(s.width) {
		return 0
	}
	return s.width / 2
}

// same reports whether two features state the same.
func (s *stated) same(o *stated) bool {
	return sameNumber(s.accuracy, o.accuracy) && sameNumber(s.elevation, o.elevation) && sameNumber(s.levelled, o.levelled) && sameNumber(s.width, o.width) &&
		s.refused == o.refused && s.datum == o.datum && s.side == o.side && s.reach == o.reach && s.date == o.date && s.drawnHere == o.drawnHere
}

// sameNumber takes unstated for the same as unstated.
func sameNumber(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

// reject records why a feature cannot be used.
func (l *layer) reject(b *geo.LayerBuilder, f *geojson.Feature, file, wrong, remedy string) {
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
func (l *layer) add(b *geo.LayerBuilder, f *geojson.Feature, file string, kind layerKind) {
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
		lines := linesOf(g)
		if !kind.lines {
			reject("it is a line where areas are expected", "draw it as a polygon")
			return
		}
		if slices.ContainsFunc(lines, isPoint) {
			reject("a line of it has all its positions in one place", "draw it whole")
			return
		}
		if a.width > l.widest { // not so if unstated
			l.widest = a.width
		}
		if l.pass(b, f, file) {
			return
		}
		b.AddLine(lines...)
	case orb.Polygon, orb.MultiPolygon:
		if !kind.areas {
			reject("it is an area where lines are expected", "give its outline as a line")
			return
		}
		area, err := l.valid(f, file, areaOf(g))
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
	a.shift += coarseness(f)
	if a.refused != "" {
		a.refused = fmt.Sprintf("%s: %s: %s", file, place(f.Number, f.ID), a.refused)
		l.refused = append(l.refused, a.refused)
	}
	if n := len(l.items); n > 0 && l.items[n-1].same(a.stated) {
		a.stated = l.items[n-1].stated
	}
	l.items = append(l.items, a)
}

// pass leaves out a usable feature that lies beyond the reach of every proposal.
func (l *layer) pass(b *geo.LayerBuilder, f *geojson.Feature, file string) bool {
	l.usable++
	l.grain = math.Max(l.grain, coarseness(f))
	bound := f.Bound()
	if l.places == nil || l.places.Meet(bound) {
		return false
	}
	if l.places.Meet(swap(bound)) {
		l.suspects = append(l.suspects, geo.Defect{Where: swap(bound), Known: true, Err: &geojson.FeatureError{
			File: file, Number: f.Number, ID: f.ID, Wrong: "it lies beside a proposal only with latitude and longitude swapped",
			Remedy: "put longitude first in every position",
		}})
	}
	b.Pass(bound)
	return true
}

func isPoint(line orb.LineString) bool {
	return !slices.ContainsFunc(line, func(p orb.Point) bool { return p != line[0] })
}

func (l *layer) attributes(f *geojson.Feature) (attributes, error) {
	a := attributes{label: f.ID, shift: l.source.DatumShift.Metres, stated: &stated{
		accuracy: l.source.Accuracy.OrNaN(), datum: f.CRS().Datum, elevation: math.NaN(), levelled: math.NaN(), width: math.NaN(),
	}}
	fields := l.source.Properties
	words := map[string]string{}
	for _, name := range []string{"id", "side", "reach", "name", "date"} {
		text, err := fields.text(f, name)
		if err != nil {
			return a, err
		}
		words[name] = strings.TrimSpace(text)
	}
	if _, mapped := fields["id"]; mapped && words["id"] != "" {
		a.label = words["id"]
	}
	a.reach, a.date, a.drawnHere = words["reach"], l.source.Date, f.Text("made_by") == madeBy
	if _, mapped := fields["date"]; mapped && words["date"] != "" {
		a.date = words["date"]
		if t, ok := parseDate(a.date); ok {
			if a.date = t.Format(time.DateOnly); t.After(l.day) && !l.day.IsZero() {
				return a, fmt.Errorf("its date is %s, after the decision date %s", a.date, day(l.day))
			}
		}
	}
	if a.label == "" {
		a.label = "#" + strconv.Itoa(f.Number)
	}
	for _, p := range []struct {
		name string
		into *float64
	}{{"accuracy_ft", &a.accuracy}, {"elevation_ft", &a.elevation}, {"elevation_accuracy_ft", &a.levelled}, {"width_ft", &a.width}} {
		value, ok, err := fields.number(f, p.name)
		if err != nil {
			return a, err
		}
		within := positive
		if p.name == "elevation_ft" {
			within = elevations
		}
		switch wrong := within.refuses(p.name, value); {
		case !ok:
		case wrong == nil:
			*p.into = value
		case p.name == "elevation_ft": // the line itself is where it is
			a.refused = wrong.Error()
		default:
			return a, wrong
		}
		if p.name == "width_ft" && a.width == 0 { // no channel is; nobody has filled it in
			a.width = math.NaN()
		}
	}
	switch side := words["side"]; side {
	case "":
	case "water_left":
		a.side = 1
	case "water_right":
		a.side = -1
	default:
		return a, fmt.Errorf("side is %.40q, not water_left or water_right", side)
	}
	if l.name == "parcels" {
		key, err := fields.text(f, "parcel_id")
		if l.source.Key != "" {
			if key = f.Text(spelled(f, l.source.Key)); len(key) > geojson.LongestText {
				return a, fmt.Errorf("%s is %d bytes long, where a parcel's number is expected", l.source.Key, len(key))
			}
		}
		if err != nil {
			return a, err
		}
		if key != "" {
			a.label = key
		}
	}
	if strings.HasPrefix(l.name, "areas.") {
		if words["name"] != "" {
			a.label = words["name"]
		}
	}
	return a, nil
}

// madeBy is how candidates that the tool has drawn say so. They lie where they are drawn,
// so that their accuracy_ft of 0 is what it says: in what others write it is a number that
// nobody has filled in.
const madeBy = "waterward envelope"
