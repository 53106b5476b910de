package screening

import (
	"fmt"

	"waterward/rules"
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
	landOff = 5 * foot
	// landAcross is from where on, in metres (30 ft), it is land on the other side of water
	// (common practice, no source).
	landAcross = 30 * foot
)

// otherShores are what the job leaves out of the mean high water line although it is
// shore, a second survey of the shore landward of the first, and land of the shoreline
// layer in what the line says is water.
func (s *site) otherShores() []otherShore {
	var out []otherShore
	high := s.layers.layer("high_water")
	if high.shore.lines != nil {
		if near := s.near(high.shore.lines); !near.Empty() {
			r := s.fp.Nearest(near)
			out = append(out, otherShore{r.Distance, fmt.Sprintf("shore of another kind (%.40q), which the job leaves out of the mean high water line, lies %s off", high.shore.kinds[near.Item(r.Foot)], feetText(r.Distance)), true})
		}
	}
	if s.bank != nil {
		if first, second, twice := s.faced.Twice(s.fp, landAcross); twice {
			out = append(out, otherShore{0, fmt.Sprintf("two mean high water lines run along this shore, %s and behind it %s", high.items[first].label, high.items[second].label), false})
		}
	}
	l := s.layers.layer("shoreline")
	if l == nil || s.faced.Empty() {
		return out
	}
	if s.fp.OnAreas(l.geo) {
		return append(out, otherShore{0, "by the shoreline layer it stands on land, and by the mean high water line in the water", true})
	}
	outlines := s.near(l.geo).OnlyItems(func(item int) bool { return l.geo.Items[item].Area != nil })
	for _, within := range []float64{landOff, landAcross} {
		inWater := outlines.WaterwardOf(s.faced, within, false)
		if inWater.Empty() {
			break
		}
		if r := s.fp.Nearest(inWater); r.Distance <= s.radius { // of what lies farther no more is looked at than its near side
			out = append(out, otherShore{r.Distance, fmt.Sprintf("land of the shoreline layer (%s), of which no mean high water line is mapped, lies %s off", l.items[inWater.Item(r.Foot)].label, feetText(r.Distance)), within == landAcross})
		}
	}
	return out
}

// besideOtherShore makes what hangs on the shore unknown where other shore lies
// nearer than the mean high water line does to any part of the structure, and what hangs
// on the width of the water where it lies nearer than the shore across.
func (s *site) besideOtherShore() {
	for _, o := range s.otherShores() {
		why := unknown("%s: see which of them the authority measures from", o.what)
		if far := s.values["mhw_farthest"]; far.Unknown == "" && o.off <= far.Number {
			for _, measure := range ofBank {
				s.values[measure] = why
			}
			s.bank, s.low, s.occupied = nil, nil, nil
		}
		if width := s.values["waterway_width"]; o.far && width.Unknown == "" && (width.Bound == rules.MoreThan || o.off < width.Number) {
			s.values["waterway_width"], s.values["waterway_share"] = why, why
		}
	}
}

// ofBank are the measures that hang on which shore the structure belongs to.
var ofBank = []string{
	"mhw_farthest", "mhw_nearest", "mhw_landward_edge", "mlw_farthest", "mlw_nearest", "mlw_landward_edge",
	"bank_length", "longest_overlap",
}
