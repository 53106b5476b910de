package screening

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
)

// judgeLayers settles what speaks against each layer as a whole.
func (m *mapped) judgeLayers(radius float64) {
	apart := m.apart(radius)
	for _, l := range m.all() {
		// If the shore too lies beside the proposals only so, it is these that are.
		if len(m.layer("high_water").suspects) == 0 {
			l.geo.Defects = append(l.geo.Defects, l.suspects...)
		}
		if l.lost > 0 {
			l.incomplete = append(l.incomplete, fmt.Sprintf("%s of %s cannot be used and may lie anywhere", number(l.lost, "feature"), l.title))
		}
		switch {
		case l.usable > 0 && !slices.ContainsFunc(l.files, func(f layerFile) bool { return !slices.Contains(apart, l.name+": "+f.name) }):
			l.doubt = "nothing of " + l.title + " lies near the high water line; it may be misplaced"
		}
	}
}

// useless says why a layer answers for no place: that it holds no feature, or none that
// can be used. One that a survey of its own found none for answers all the same, as far as
// the file says of what kinds it was a survey: by what is left out.
func (l *layer) useless() string {
	switch {
	case l.usable > 0 || l.source.None:
		return ""
	case len(l.geo.Defects) > 0:
		return "no feature of " + l.title + " can be used: " + l.geo.Defects[0].Err.Error()
	case l.surveyed != nil && len(l.left.count) > 0:
		return ""
	}
	return "the layer of " + l.title + " is empty, which does not say that there is none: if it was looked for, write none: true in the job"
}

// surveyedWith reports whether one survey holds features of the layer and the place: then
// the layer lies where it should, though nothing of it is near.
func (l *layer) surveyedWith(place orb.Bound) bool {
	if l.surveyed == nil {
		return false
	}
	survey, ok := l.surveyed.Bound()
	own, found := l.geo.Bound()
	return ok && found && survey.Intersects(place) && survey.Intersects(own)
}

// apart names the files, by layer, that lie nowhere near the high water line.
func (m *mapped) apart(radius float64) []string {
	shore, ok := m.layer("high_water").geo.Bound()
	if !ok {
		return nil
	}
	window := crs.Window(shore, radius)
	var out []string
	for _, l := range m.all() {
		if l.surveyedWith(window) {
			continue
		}
		for _, file := range l.files {
			if !file.bound.IsEmpty() && !file.bound.Intersects(window) {
				out = append(out, l.name+": "+file.name)
			}
		}
	}
	return out
}

// oneTidalLine refuses two tidal lines that are one, whatever their files are called or
// say of them.
func (m *mapped) oneTidalLine() error {
	high, low := m.layer("high_water"), m.layer("low_water")
	if low == nil || !geo.SameLine(low.geo, high.geo) {
		return nil
	}
	return &JobError{fmt.Sprintf("high_water (%s) and low_water (%s) run along the same line: give each its own", strings.Join(high.source.Files, ", "), strings.Join(low.source.Files, ", "))}
}

// givenTwice names files that are given as more than one layer, by what they hold: the
// same features are hardly two things, unless only tells them apart. Nothing on either is
// firm.
func (m *mapped) givenTwice(log *inputLog) []string {
	first := map[string]*inputRecord{}
	var out []string
	for _, r := range log.sorted() {
		l := m.role(r.Role)
		if l == nil || l.source.Only != nil || r.Features == 0 {
			continue
		}
		if other := first[r.SHA256]; other == nil {
			first[r.SHA256] = r
		} else if other.Role != r.Role {
			says := fmt.Sprintf("%s (%s) and %s (%s) are the same file: is one of them the wrong one?", other.Role, other.File, r.Role, r.File)
			out = append(out, says)
			l.doubt, m.role(other.Role).doubt = says, says
		}
	}
	return out
}

// role is the layer that a file is read for, nil if it is read for none.
func (m *mapped) role(role string) *layer {
	if area, named := strings.CutPrefix(role, "areas."); named {
		return m.area(area)
	}
	return m.layer(role)
}

// emptyBound holds nothing.
var emptyBound = orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}

// doubts are what of the layers, set against one another, may mislead.
func (m *mapped) doubts(radius float64) []string {
	var out []string
	for _, name := range m.apart(radius) {
		out = append(out, name+" lies nowhere near the high water line: is it another place, or another coordinate system?")
	}
	for _, l := range m.all() {
		if text := l.leftText(); text != "" {
			out = append(out, text)
		}
		if n := len(l.refused); n > 0 {
			out = append(out, fmt.Sprintf("%s of %s not believed (first: %s)", number(n, "elevation"), l.title, l.refused[0]))
		}
	}
	if n := len(m.crossing); n > 0 {
		out = append(out, fmt.Sprintf("the lines of mean high and of mean low water cross in %s (first at %.6f, %.6f): check both layers", number(n, "place"), m.crossing[0][0], m.crossing[0][1]))
	}
	if m.tides != nil {
		out = append(out, m.tides.notes...)
	}
	return out
}
