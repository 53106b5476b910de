package layers

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/screening/inputs"
	"waterward/screening/job"
)

// judgeLayers settles what speaks against each layer as a whole.
func (m *Set) judgeLayers(radius float64) {
	apart := m.apart(radius)
	for _, l := range m.All() {
		// If the shore too lies beside the proposals only so, it is these that are.
		if len(m.Layer("high_water").suspects) == 0 {
			l.Geo.Defects = append(l.Geo.Defects, l.suspects...)
		}
		if l.lost > 0 {
			l.Incomplete = append(l.Incomplete, fmt.Sprintf("%s of %s cannot be used and may lie anywhere", job.Count(l.lost, "feature"), l.Title))
		}
		switch {
		case l.Usable > 0 && !slices.ContainsFunc(l.Files, func(f layerFile) bool { return !slices.Contains(apart, l.Name+": "+f.name) }):
			l.Doubt = "nothing of " + l.Title + " lies near the high water line; it may be misplaced"
		}
	}
}

// Useless says why a layer answers for no place: that it holds no feature, or none that
// can be used. One that a survey of its own found none for answers all the same, as far as
// the file says of what kinds it was a survey: by what is left out.
func (l *Layer) Useless() string {
	switch {
	case l.Usable > 0 || l.Source.None:
		return ""
	case len(l.Geo.Defects) > 0:
		return "no feature of " + l.Title + " can be used: " + l.Geo.Defects[0].Err.Error()
	case l.Surveyed != nil && len(l.Left.count) > 0:
		return ""
	}
	return "the layer of " + l.Title + " is empty, which does not say that there is none: if it was looked for, write none: true in the job"
}

// surveyedWith reports whether one survey holds features of the layer and the place: then
// the layer lies where it should, though nothing of it is near.
func (l *Layer) surveyedWith(place orb.Bound) bool {
	if l.Surveyed == nil {
		return false
	}
	survey, ok := l.Surveyed.Bound()
	own, found := l.Geo.Bound()
	return ok && found && survey.Intersects(place) && survey.Intersects(own)
}

// apart names the files, by layer, that lie nowhere near the high water line.
func (m *Set) apart(radius float64) []string {
	shore, ok := m.Layer("high_water").Geo.Bound()
	if !ok {
		return nil
	}
	window := crs.Window(shore, radius)
	var out []string
	for _, l := range m.All() {
		if l.surveyedWith(window) {
			continue
		}
		for _, file := range l.Files {
			if !file.bound.IsEmpty() && !file.bound.Intersects(window) {
				out = append(out, l.Name+": "+file.name)
			}
		}
	}
	return out
}

// oneTidalLine refuses two tidal lines that are one, whatever their files are called or
// say of them.
func (m *Set) oneTidalLine() error {
	high, low := m.Layer("high_water"), m.Layer("low_water")
	if low == nil || !geo.SameLine(low.Geo, high.Geo) {
		return nil
	}
	return &job.Error{Message: fmt.Sprintf("high_water (%s) and low_water (%s) run along the same line: give each its own", strings.Join(high.Source.Files, ", "), strings.Join(low.Source.Files, ", "))}
}

// givenTwice names files that are given as more than one layer, by what they hold: the
// same features are hardly two things, unless only tells them apart. Nothing on either is
// firm.
func (m *Set) givenTwice(log *inputs.Log) []string {
	first := map[string]*inputs.Record{}
	var out []string
	for _, r := range log.Sorted() {
		l := m.role(r.Role)
		if l == nil || l.Source.Only != nil || r.Features == 0 {
			continue
		}
		if other := first[r.SHA256]; other == nil {
			first[r.SHA256] = r
		} else if other.Role != r.Role {
			says := fmt.Sprintf("%s (%s) and %s (%s) are the same file: is one of them the wrong one?", other.Role, other.File, r.Role, r.File)
			out = append(out, says)
			l.Doubt, m.role(other.Role).Doubt = says, says
		}
	}
	return out
}

// role is the layer that a file is read for, nil if it is read for none.
func (m *Set) role(role string) *Layer {
	if area, named := strings.CutPrefix(role, "areas."); named {
		return m.area(area)
	}
	return m.Layer(role)
}

// EmptyBound holds nothing.
var EmptyBound = orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}

// Doubts are what of the layers, set against one another, may mislead.
func (m *Set) Doubts(radius float64) []string {
	var out []string
	for _, name := range m.apart(radius) {
		out = append(out, name+" lies nowhere near the high water line: is it another place, or another coordinate system?")
	}
	for _, l := range m.All() {
		if text := l.leftText(); text != "" {
			out = append(out, text)
		}
		if n := len(l.refused); n > 0 {
			out = append(out, fmt.Sprintf("%s of %s not believed (first: %s)", job.Count(n, "elevation"), l.Title, l.refused[0]))
		}
	}
	if n := len(m.Crossing); n > 0 {
		out = append(out, fmt.Sprintf("the lines of mean high and of mean low water cross in %s (first at %.6f, %.6f): check both layers", job.Count(n, "place"), m.Crossing[0][0], m.Crossing[0][1]))
	}
	if m.Tides != nil {
		out = append(out, m.Tides.notes...)
	}
	return out
}
