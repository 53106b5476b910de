package screening

import (
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
)

// otherKinds are the words by which the features of shoreline products say that
// they are no line of mean high, or of mean low, water.
var otherKinds = map[string]*regexp.Regexp{
	"high_water": regexp.MustCompile(`(?i)\bapparent\b|\bcontour\b|\blimits? of (the )?data\b|\bdata limits?\b|\blow(er)? low water\b|\blow water\b|\bM?LL?W\b`),
	"low_water":  regexp.MustCompile(`(?i)\bapparent\b|\bcontour\b|\blimits? of (the )?data\b|\bdata limits?\b|\bhigh(er)? high water\b|\bhigh water\b|\bMHH?W\b`),
}

const (
	// longestKind is how long a value may be to be a class and no remark.
	longestKind = 60
	// mostCrossings is how many places are looked for where the tidal lines cross.
	mostCrossings = 10_000
	// sidesLooked is at how many features of a tidal line, evenly spread, it is
	// looked how its water side is settled.
	sidesLooked = 200
)

// remarks are properties whose values say something else than what the feature is.
var remarks = regexp.MustCompile(`(?i)name|note|comment|remark|source`)

// ofOtherKind says by which property a feature of a tidal line is a line of another
// kind; empty if none says so, or if the job chooses the features by only.
func (l *layer) ofOtherKind(f *geo.Feature) string {
	words := otherKinds[l.name]
	if words == nil || l.source.Only != nil {
		return ""
	}
	for _, m := range f.Properties() {
		var text string
		if remarks.MatchString(m.Key) || len(m.Raw) > longestKind || json.Unmarshal(m.Raw, &text) != nil {
			continue
		}
		if words.MatchString(text) {
			return fmt.Sprintf("its %.40s is %q, which is no line of %s", m.Key, text, strings.TrimSuffix(strings.TrimPrefix(l.title, "the "), " line"))
		}
	}
	return ""
}

// crossings are where the two tidal lines cross, in degrees.
func (m *mapped) crossings() []orb.Point {
	low := m.layer("low_water")
	if low == nil {
		return nil
	}
	return geo.Crossings(m.layer("high_water").geo, low.geo, mostCrossings)
}

// crossed gives notice of places near the site where the tidal lines cross.
func (s *site) crossed() {
	n := 0
	for _, p := range s.layers.crossing {
		if s.window.Contains(p) {
			n++
		}
	}
	if n > 0 {
		s.notice("the lines of mean high and of mean low water cross near here (%d times within %s); check both layers", n, feetText(s.radius))
	}
}

// upsideDown refuses tidal lines whose stated elevations are the wrong way round.
func (m *mapped) upsideDown() error {
	high, low := m.layer("high_water"), m.layer("low_water")
	if low == nil || high.source.Datum != low.source.Datum {
		return nil
	}
	least := func(l *layer, better func(a, b float64) bool) (float64, bool) {
		var out float64
		found := false
		for _, it := range l.items {
			if e := it.elevation; e == e && (!found || better(e, out)) {
				out, found = e, true
			}
		}
		return out, found
	}
	top, known := least(high, func(a, b float64) bool { return a > b })
	bottom, also := least(low, func(a, b float64) bool { return a < b })
	if known && also && top < bottom {
		return &JobError{fmt.Sprintf("%s (high_water) lies at most %s high and %s (low_water) at least %s: the two layers have changed places, or an elevation is wrong",
			strings.Join(high.source.Files, ", "), feetText(top), strings.Join(low.source.Files, ", "), feetText(bottom))}
	}
	return nil
}

// Facing says how the water side of a tidal line was settled.
type Facing struct {
	Layer   string         `json:"layer"`
	Looked  int            `json:"looked_at"`
	Settled map[string]int `json:"settled_by"`
	Not     map[string]int `json:"not_settled"` // by the reason
}

// facings looks how the water side of the tidal lines is settled.
func (m *mapped) facings(radius float64) []Facing {
	var out []Facing
	for _, name := range []string{"high_water", "low_water"} {
		l := m.layer(name)
		if l == nil {
			continue
		}
		f := Facing{Layer: name, Settled: map[string]int{}, Not: map[string]int{}}
		n := len(l.geo.Items)
		for i := range min(n, sidesLooked) {
			item := (2*i + 1) * n / (2 * min(n, sidesLooked))
			at, ok := l.geo.Middle(item)
			if !ok {
				continue
			}
			f.Looked++
			by, why := m.facingAt(name, item, at, radius)
			if why != "" {
				f.Not[why]++
			} else {
				f.Settled[by]++
			}
		}
		out = append(out, f)
	}
	return out
}

// facingAt says what settles the side of one feature of a tidal line at a place of
// it, or why nothing does.
func (m *mapped) facingAt(name string, item int, at orb.Point, radius float64) (by, why string) {
	s := &site{
		fp: &geo.Footprint{Plane: geo.NewPlane(at)}, layers: m, radius: radius,
		window: geo.Window(at.Bound(), radius), lines: map[*geo.Layer]*geo.Lines{},
	}
	l := m.layer(name)
	for _, f := range s.near(l.geo).Facings(s.waterEvidence(name)) {
		if slices.Contains(f.Lines.Items(), item) {
			return strings.Join(f.By, " and "), f.Why
		}
	}
	return "", "nothing of it is near its own middle"
}

// contradicted warns of tidal lines most of which contradict what else is known of
// where the water is: the two may have changed places.
func (m *mapped) contradicted(radius float64) []string {
	var out []string
	for _, f := range m.facings(radius) {
		for why, n := range f.Not {
			if 2*n > f.Looked && strings.Contains(why, "contradicted") {
				out = append(out, fmt.Sprintf("%s: at %d of %d features looked at, %s; are the files of high_water and low_water swapped, or is a side misstated?", f.Layer, n, f.Looked, why))
			}
		}
	}
	return out
}

// String is how often what settled the side, and why it was not settled elsewhere.
func (f Facing) String() string {
	out := "settled by nothing"
	if len(f.Settled) > 0 {
		out = "settled by " + times(f.Settled)
	}
	if len(f.Not) > 0 {
		out += "; not settled: " + times(f.Not)
	}
	return out
}

// times lists texts with how often each holds, in order.
func times(of map[string]int) string {
	var out []string
	for _, text := range slices.Sorted(maps.Keys(of)) {
		out = append(out, fmt.Sprintf("%s (%d)", text, of[text]))
	}
	return strings.Join(out, "; ")
}
