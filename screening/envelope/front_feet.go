package envelope

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/flat"
)

// frontFeet adds up what of a front lies behind a structure.
type frontFeet struct {
	base     geo.Baseline
	stations *geo.Stationing
	last     place // the foot before
	covered  [][2]float64
}

// place is a place of the shore, with its station on the front.
type place struct {
	at      orb.Point
	station float64
	on, any bool // whether it is on the front, and whether there is one
}

func newFrontFeet(h *shore) *frontFeet {
	return &frontFeet{base: geo.NewBaseline(h.line), stations: geo.NewStationing(h.line)}
}

// add takes the foot of a cross-section. What lies between two that follow one another is
// covered; not the long way round an island.
func (f *frontFeet) add(foot orb.Point, begins bool) {
	now := place{at: foot, any: true}
	now.station, now.on = f.stations.Of(foot)
	if f.last.any && !begins {
		switch {
		case now.on && f.last.on:
			if math.Abs(now.station-f.last.station) <= f.base.Length()/2 {
				f.cover(f.last.station, now.station)
			}
		case now.on:
			f.toEnd(now, f.last.at)
		case f.last.on:
			f.toEnd(f.last, foot)
		}
	}
	f.last = now
}

// toEnd covers what lies between a place on the front and the end of it that the way to a
// place beyond passes.
func (f *frontFeet) toEnd(from place, beyond orb.Point) {
	for _, station := range []float64{0, f.base.Length()} {
		end := f.base.At(station)
		if flat.Distance(from.at, end)+flat.Distance(end, beyond) <= flat.Distance(from.at, beyond)+fitEnd {
			f.cover(from.station, station)
			return
		}
	}
}

func (f *frontFeet) cover(a, b float64) {
	f.covered = append(f.covered, [2]float64{math.Min(a, b), math.Max(a, b)})
}

// sums are how much of the front is covered, and its longest piece.
func (f *frontFeet) sums() (sum, longest float64) {
	slices.SortFunc(f.covered, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	from, to := 0.0, 0.0
	take := func() {
		sum, longest = sum+to-from, math.Max(longest, to-from)
	}
	for _, c := range f.covered {
		if c[0] > to {
			take()
			from = c[0]
		}
		to = math.Max(to, c[1])
	}
	take()
	return sum, longest
}
