package site

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Facing says how the water side of a tidal line was settled.
type Facing struct {
	Layer   string         `json:"layer"`
	Looked  int            `json:"looked_at"`
	Settled map[string]int `json:"settled_by"`
	Not     map[string]int `json:"not_settled"` // by the reason
}

// FacingsOf looks how the water side of the tidal lines is settled.
func FacingsOf(m *layers.Set, radius float64) []Facing {
	var out []Facing
	for _, name := range []string{"high_water", "low_water"} {
		l := m.Layer(name)
		if l == nil {
			continue
		}
		f := Facing{Layer: name, Settled: map[string]int{}, Not: map[string]int{}}
		n := len(l.Geo.Items)
		for i := range min(n, sidesLooked) {
			item := (2*i + 1) * n / (2 * min(n, sidesLooked))
			at, ok := l.Geo.Middle(item)
			if !ok {
				continue
			}
			f.Looked++
			by, why := facingAt(m, name, item, at, radius)
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
func facingAt(m *layers.Set, name string, item int, at orb.Point, radius float64) (by, why string) {
	s := &Site{
		Footprint: &geo.Footprint{Plane: crs.NewPlane(at)}, Layers: m, Radius: radius,
		Window: crs.Window(at.Bound(), radius), Lines: map[*geo.Layer]*geo.Lines{},
	}
	l := m.Layer(name)
	for _, f := range s.Near(l.Geo).Facings(s.WaterEvidence(name)) {
		if slices.ContainsFunc(f.Lines.ByItem(), func(own geo.ItemLines) bool { return own.Item == item }) {
			return strings.Join(f.By, " and "), f.Why
		}
	}
	return "", "nothing of it is near its own middle"
}

// Contradicted warns of tidal lines most of which contradict what else is known of
// where the water is: the two may have changed places.
func Contradicted(m *layers.Set, radius float64) []string {
	var out []string
	for _, f := range FacingsOf(m, radius) {
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
	if f.Looked == 0 {
		return "no feature of it can be used, so no distance from it is known"
	}
	out := fmt.Sprintf("which side is water, at %s looked at: ", job.Count(f.Looked, "feature"))
	if len(f.Settled) > 0 {
		out += "settled by " + times(f.Settled)
	} else {
		out += "settled by nothing"
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

// sidesLooked is at how many features of a tidal line, evenly spread, it is
// looked how its water side is settled.
const sidesLooked = 200
