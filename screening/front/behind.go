package front

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// behind looks why parcels near the shore front none of it.
type behind struct {
	*frontage
	lots    *layers.Layer
	strands []strand
}

// strand is one of the shore, with the fronts along it.
type strand struct {
	chunks   []*chunk
	stations []float64 // of its vertices
	fronts   []*Front  // by station
	reach    []float64 // how far any of the fronts up to each leads
}

func (s *strand) add(f *Front) {
	reach := f.To
	if n := len(s.reach); n > 0 {
		reach = math.Max(reach, s.reach[n-1])
	}
	s.fronts, s.reach = append(s.fronts, f), append(s.reach, reach)
}

// water is on which side of an edge the water lies, as a chunk has it.
func (s *strand) water(edge int) int {
	i := sort.Search(len(s.chunks), func(i int) bool { return s.chunks[i].to > edge })
	return s.chunks[i].water
}

// at are the fronts at a station, those that only end there too.
func (s *strand) at(station float64) []*Front {
	var out []*Front
	within := func(station float64) {
		i := sort.Search(len(s.fronts), func(i int) bool { return s.fronts[i].From > station+cornerRounding })
		for i--; i >= 0 && s.reach[i] >= station-cornerRounding; i-- {
			if s.fronts[i].To >= station-cornerRounding {
				out = append(out, s.fronts[i])
			}
		}
	}
	within(station)
	within(station + s.stations[len(s.stations)-1]) // over the seam
	slices.Reverse(out)
	return out
}

// found is a parcel without a front, and what lies before it.
type found struct {
	Without
	before int     // the parcel that does, -1 if none does
	depth  float64 // metres of it on the way from the shore
}

// within is how far from mean high water, in metres, a parcel that fronts none is told of.
func (b *behind) within() float64 { return math.Max(nearShore, b.tolerance) }

// look looks why a parcel fronts no shore; nil if it lies farther off than is told of.
func (b *behind) look(parcel int) *found {
	it := b.parcels.Items[parcel]
	near := b.within()
	plane, window := crs.NewPlane(it.Bound.Center()), crs.Window(it.Bound, near)
	shore := b.shore.Near(plane, window)
	if shore.Empty() {
		return nil
	}
	fp, err := geo.NewFootprint(it.Area, 0, 0)
	if err != nil {
		return &found{Without{parcel, math.NaN(), "how far it lies from mean high water cannot be told: " + err.Error()}, -1, 0}
	}
	to := fp.Nearest(shore)
	if to.Distance > near {
		return nil
	}
	out := &found{Without{Parcel: parcel, Gap: to.Distance}, -1, 0}
	out.Why = b.why(out, plane, shore, to)
	return out
}

// why says why a parcel does not front the shore where that is nearest.
func (b *behind) why(of *found, plane *crs.Plane, near *geo.Lines, to geo.Reach) string {
	n, edge, share := near.PlaceOf(to.Foot)
	s := &b.strands[n]
	fronts := s.at(s.stations[edge] + share*(s.stations[edge+1]-s.stations[edge]))
	for _, f := range fronts {
		if f.Why != "" {
			return "who fronts the shore there cannot be told: " + f.Why
		}
	}
	shore := geo.Shore{Near: near, Strand: n, Water: s.water(edge)}
	if to.Distance <= equallyNear {
		if b.afloat(of.Parcel, plane, shore, edge, to.Foot.At) {
			return "lies on the water side of the shore there"
		}
		return "meets the shore along less than " + feet(frontStep) + " there, too little to be found as a front"
	}
	window := crs.Window(orb.MultiPoint{plane.Inverse(to.At), plane.Inverse(to.Foot.At)}.Bound(), to.Distance+besideShore)
	outlines := b.parcels.Near(plane, window)
	own := outlines.OnlyItems(func(item int) bool { return item == of.Parcel })
	if len(shore.Behind(edge, to.Foot.At, own, to.Distance+equallyNear)) == 0 {
		return "lies across water, or in it"
	}
	if of.before, of.depth = b.between(of.Parcel, plane, outlines, to); of.before >= 0 {
		return "lies behind parcel " + b.lots.Distinct(of.before) + " (whose strip is " + feet(of.depth) + " deep there)"
	}
	if to.Distance > b.tolerance {
		return "ends " + feet(to.Distance) + " from mean high water, farther than the tolerance of " + job.FeetText(b.tolerance)
	}
	for _, f := range fronts {
		if f.Parcel >= 0 {
			return "the shore there is nearer to parcel " + b.lots.Distinct(f.Parcel)
		}
	}
	return "its side lines, carried on to the shore, leave it none"
}

// afloat reports whether a parcel lies on the water side of the shore where it meets that:
// of the places just round there all that it holds do, and some do.
func (b *behind) afloat(parcel int, plane *crs.Plane, shore geo.Shore, edge int, at orb.Point) bool {
	landward, waterward := shore.Beside(edge, at, besideShore)
	out := orb.Point{waterward[0] - landward[0], waterward[1] - landward[1]}
	held := false
	for k := 0.5; k < askedRound; k++ {
		sin, cos := math.Sincos(2 * math.Pi * k / askedRound)
		if !b.holds(parcel, plane, orb.Point{at[0] + besideShore*cos, at[1] + besideShore*sin}) {
			continue
		}
		if held = cos*out[0]+sin*out[1] > 0; !held {
			return false
		}
	}
	return held
}

// askedRound is at how many places round a point it is asked which side a parcel lies on:
// some lie within any corner of more than 23 degrees.
const askedRound = 16

func (b *behind) holds(parcel int, plane *crs.Plane, at orb.Point) bool {
	return slices.Contains(b.parcels.AreasAt(plane.Inverse(at)), parcel)
}

// between is the parcel nearest to the shore on the straight way from there to another
// parcel, and how much of the way it holds; -1 if none does. The way to a corner can run
// along a side line: it is looked at on the side on which the parcel lies.
func (b *behind) between(parcel int, plane *crs.Plane, outlines *geo.Lines, to geo.Reach) (before int, depth float64) {
	aside := flat.LeftNormal(to.Foot.At, to.At, besideShore)
	inland := flat.At(to.Foot.At, to.At, 0, to.Distance, to.Distance+besideShore)
	left := b.holds(parcel, plane, orb.Point{inland[0] + aside[0], inland[1] + aside[1]})
	right := b.holds(parcel, plane, orb.Point{inland[0] - aside[0], inland[1] - aside[1]})
	switch {
	case left == right:
		aside = orb.Point{}
	case right:
		aside = orb.Point{-aside[0], -aside[1]}
	}
	met := append(append([]float64{0}, outlines.Met(to.Foot.At, to.At)...), 1)
	before = -1
	for i := 1; i < len(met); i++ {
		length := (met[i] - met[i-1]) * to.Distance
		if length <= equallyNear {
			continue
		}
		at := flat.At(to.Foot.At, to.At, 0, 1, (met[i-1]+met[i])/2)
		holders := b.parcels.AreasAt(plane.Inverse(orb.Point{at[0] + aside[0], at[1] + aside[1]}))
		for _, holder := range holders {
			if before < 0 && holder != parcel {
				before = holder
			}
		}
		if slices.Contains(holders, before) {
			depth += length
		}
	}
	return before, depth
}
