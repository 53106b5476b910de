package site

import (
	"fmt"

	"waterward/rules"
	"waterward/screening/job"
)

// otherShore is shore near the site that is no part of the mean high water line.
type otherShore struct {
	off  float64 // metres from the footprint
	what string
	far  bool // so far waterward of the line that it is a shore across too
}

const (
	// landOff is how far waterward of mean high water, in metres (5 ft), land of the
	// shoreline layer must lie for the two to contradict each other: surveys of them seldom
	// meet (common practice, no source).
	landOff = 5 * job.Foot
	// landAcross is from where on, in metres (30 ft), it is land on the other side of water
	// (common practice, no source).
	landAcross = 30 * job.Foot
)

// otherShores are what the job leaves out of the mean high water line although it is
// shore, a second survey of the shore landward of the first, and land of the shoreline
// layer in what the line says is water.
func (s *Site) otherShores() []otherShore {
	var out []otherShore
	high := s.Layers.Layer("high_water")
	if high.Shore.Lines != nil {
		if near := s.Near(high.Shore.Lines); !near.Empty() {
			r := s.Footprint.Nearest(near)
			out = append(out, otherShore{r.Distance, fmt.Sprintf("shore of another kind (%.40q), which the job leaves out of the mean high water line, lies %s off", high.Shore.Kinds[near.Item(r.Foot)], job.FeetText(r.Distance)), true})
		}
	}
	if s.Bank != nil {
		if first, second, twice := s.Faced.Twice(s.Footprint, landAcross); twice {
			out = append(out, otherShore{0, fmt.Sprintf("two mean high water lines run along this shore, %s and behind it %s", high.Items[first].Label, high.Items[second].Label), false})
		}
	}
	l := s.Layers.Layer("shoreline")
	if l == nil || s.Faced.Empty() {
		return out
	}
	if s.Footprint.OnAreas(l.Geo) {
		return append(out, otherShore{0, "by the shoreline layer it stands on land, and by the mean high water line in the water", true})
	}
	outlines := s.Near(l.Geo).OnlyItems(func(item int) bool { return l.Geo.Items[item].Area != nil })
	for _, within := range []float64{landOff, landAcross} {
		inWater := outlines.WaterwardOf(s.Faced, within, false)
		if inWater.Empty() {
			break
		}
		if r := s.Footprint.Nearest(inWater); r.Distance <= s.Radius { // of what lies farther no more is looked at than its near side
			out = append(out, otherShore{r.Distance, fmt.Sprintf("land of the shoreline layer (%s), of which no mean high water line is mapped, lies %s off", l.Items[inWater.Item(r.Foot)].Label, job.FeetText(r.Distance)), within == landAcross})
		}
	}
	return out
}

// besideOtherShore makes what hangs on the shore unknown where other shore lies
// nearer than the mean high water line does to any part of the structure, and what hangs
// on the width of the water where it lies nearer than the shore across.
func (s *Site) besideOtherShore() {
	for _, o := range s.otherShores() {
		why := Unknown("%s: see which of them the authority measures from", o.what)
		if far := s.Values["mhw_farthest"]; far.Unknown == "" && o.off <= far.Number {
			s.SetAll(why, ofBank...)
			s.Bank, s.Low, s.Occupied = nil, nil, nil
		}
		if width := s.Values["waterway_width"]; o.far && width.Unknown == "" && (width.Bound == rules.MoreThan || o.off < width.Number) {
			s.Values["waterway_width"], s.Values["waterway_share"] = why, why
		}
	}
}
