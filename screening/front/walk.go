package front

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/flat"
)

// walk is a chunk with some more of its strand before and after, in the plane.
type walk struct {
	*frontage
	c           *chunk
	edges       []int // of the strand
	base        geo.Baseline
	first, last float64 // stations between which the chunk itself lies
	starts      bool    // the strand starts here
	ends        bool
	places      []shorePlace
	known       map[float64][]claim
	around      []*surroundings // of each edge
}

// shorePlace is a place of an edge.
type shorePlace struct {
	edge    int
	station float64
}

// walk finds what of a chunk parcels front, and where that cannot be told.
func (f *frontage) walk(c *chunk) (found [2][]stretch) {
	length := c.stations[len(c.stations)-1]
	if c.water == 0 {
		found[1] = []stretch{{owner: owner{-1, f.layers.Layer("high_water").Title + ": " + c.why}, to: length}}
		return found
	}
	w := f.newWalk(c)
	found = [2][]stretch{w.fronts(), w.doubts()}
	for _, all := range found {
		for i, s := range all { // so that neighbouring chunks meet exactly
			all[i].from = s.from - w.first
			if all[i].to = s.to - w.first; s.to == w.last {
				all[i].to = length
			}
		}
	}
	return found
}

func (f *frontage) newWalk(c *chunk) *walk {
	points, closed := f.shore.Strand(c.strand)
	n := len(points) - 1
	wrapped := func(i int) int { return i }
	if closed {
		wrapped = func(i int) int { return ((i % n) + n) % n }
	}
	forward := func(i int) orb.Point { return c.plane.Forward(points[wrapped(i)]) }
	// reach is the vertex so far on, or the end, or once round.
	reach := func(from, step, end int) int {
		to, sum := from, 0.0
		for at := forward(from); sum < chunkMargin && to != end; {
			to += step
			next := forward(to)
			sum += flat.Distance(at, next)
			at = next
		}
		return to
	}
	low, high := 0, n
	if closed {
		low, high = c.from-n, c.to+n
	}
	low, high = reach(c.from, -1, low), reach(c.to, 1, high)
	w := &walk{
		frontage: f, c: c, known: map[float64][]claim{}, around: make([]*surroundings, high-low),
		starts: !closed && low == 0, ends: !closed && high == n,
	}
	var line []orb.Point
	for i := low; i <= high; i++ {
		line = append(line, forward(i))
		w.edges = append(w.edges, wrapped(i))
	}
	w.base = geo.NewBaseline(line)
	for edge := range high - low {
		from, to := w.base.Station(edge, 0), w.base.Length()
		if edge+1 < high-low {
			to = w.base.Station(edge+1, 0)
		}
		if low+edge == c.from {
			w.first = from
		}
		if low+edge+1 == c.to {
			w.last = to
		}
		steps := math.Ceil((to - from) / frontStep)
		for k := 0.0; k < steps; k++ {
			w.places = append(w.places, shorePlace{edge, from + k/steps*(to-from)})
		}
	}
	w.places = append(w.places, shorePlace{high - low - 1, w.base.Length()})
	return w
}

// fronts finds what of the chunk parcels front.
func (w *walk) fronts() []stretch {
	claimants := func(p shorePlace) []owner {
		var out []owner
		for _, c := range w.claims(p) {
			out = append(out, owner{parcel: c.parcel})
		}
		return out
	}
	var within []stretch
	cuts := []float64{w.first, w.last}
	for _, s := range w.along(w.places, claimants) {
		s = w.carried(s)
		within = append(within, s)
		for _, end := range []float64{s.from, s.to} {
			if w.first < end && end < w.last {
				cuts = append(cuts, end)
			}
		}
	}
	slices.Sort(cuts)
	var out []stretch
	for i := 1; i < len(cuts); i++ {
		from, to := cuts[i-1], cuts[i]
		var rivals []int
		for _, s := range within {
			if from < to && s.from <= from && to <= s.to {
				rivals = append(rivals, s.parcel)
			}
		}
		if len(rivals) == 1 {
			out = append(out, stretch{owner: owner{parcel: rivals[0]}, from: from, to: to})
		} else if len(rivals) > 1 {
			out = append(out, w.along(w.between(from, to), func(p shorePlace) []owner { return w.nearest(p, rivals) })...)
		}
	}
	out = joined(out)
	for i, s := range out {
		for _, p := range w.between(s.from, s.to) {
			if c, ok := w.claim(p, s.parcel); ok {
				out[i].gap = max(out[i].gap, c.gap)
			}
		}
	}
	return out
}

// carried cuts a stretch back to where the side lines of its parcel meet the shore,
// but no farther than to what the parcel holds.
func (w *walk) carried(s stretch) stretch {
	places := w.between(s.from, s.to)
	firstHeld, lastHeld := s.to, s.from
	for _, h := range w.along(places, func(p shorePlace) []owner {
		if c, ok := w.claim(p, s.parcel); ok && c.gap == 0 {
			return []owner{s.owner}
		}
		return nil
	}) {
		firstHeld, lastHeld = min(firstHeld, h.from), max(lastHeld, h.to)
	}
	// Side lines that meet before the shore leave what the parcel's ends are nearest to.
	// A side line can meet the shore just where it begins to be held.
	out := s
	for _, reach := range []float64{2 * w.tolerance, 0} {
		if c, ok := w.claim(places[0], s.parcel); ok && c.gap > 0 && (s.from > 0 || w.starts) {
			out.from = min(firstHeld, w.base.Carried(c.outlines, c.foot, s.from, min(firstHeld+cornerRounding, s.to), reach))
		}
		if c, ok := w.claim(places[len(places)-1], s.parcel); ok && c.gap > 0 && (s.to < w.base.Length() || w.ends) {
			out.to = max(lastHeld, w.base.Carried(c.outlines, c.foot, max(lastHeld-cornerRounding, s.from), s.to, reach))
		}
		if out.from < out.to {
			break
		}
	}
	return out
}

// nearest are those of some parcels that are nearest to a place.
func (w *walk) nearest(p shorePlace, rivals []int) []owner {
	least := math.Inf(1)
	claims := slices.DeleteFunc(slices.Clone(w.claims(p)), func(c claim) bool { return !slices.Contains(rivals, c.parcel) })
	for _, c := range claims {
		least = min(least, c.gap)
	}
	var out []owner
	for _, c := range claims {
		if c.gap == least || least > 0 && c.gap <= least+equallyNear {
			out = append(out, owner{parcel: c.parcel})
		}
	}
	return out
}

// doubts finds where it cannot be told that nobody fronts.
func (w *walk) doubts() []stretch {
	points, _ := w.shore.Strand(w.c.strand)
	if w.parcels.DefectNear(crs.Window(orb.MultiPoint(points[w.c.from:w.c.to+1]).Bound(), w.tolerance)) == nil {
		return nil
	}
	return w.along(w.between(w.first, w.last), func(p shorePlace) []owner {
		at := w.c.plane.Inverse(w.base.At(p.station))
		d := w.parcels.DefectNear(crs.Window(at.Bound(), w.tolerance))
		if d == nil {
			return nil
		}
		return []owner{{-1, "a parcel near here cannot be used: " + d.Err.Error()}}
	})
}

// along finds the stretches between the first and the last of some places over which
// each owner holds.
func (w *walk) along(places []shorePlace, holds func(shorePlace) []owner) []stretch {
	var out []stretch
	open := map[owner]float64{}
	var before []owner
	for i, p := range places {
		now := holds(p)
		for _, o := range now {
			if !slices.Contains(before, o) {
				open[o] = p.station
				if i > 0 {
					open[o] = w.turn(p, places[i-1], o, holds)
				}
			}
		}
		for _, o := range before {
			if !slices.Contains(now, o) {
				out = append(out, stretch{owner: o, from: open[o], to: w.turn(places[i-1], p, o, holds)})
			}
		}
		before = now
	}
	for _, o := range before {
		out = append(out, stretch{owner: o, from: open[o], to: places[len(places)-1].station})
	}
	return joined(out)
}

// turn is how far an owner holds from one place towards another.
func (w *walk) turn(in, out shorePlace, o owner, holds func(shorePlace) []owner) float64 {
	edge := min(in.edge, out.edge) // a vertex belongs to the edge behind it
	yes, no := in.station, out.station
	for math.Abs(yes-no) > frontEnd {
		middle := (yes + no) / 2
		if slices.Contains(holds(shorePlace{edge, middle}), o) {
			yes = middle
		} else {
			no = middle
		}
	}
	return yes
}

// between are the places from one station to another.
func (w *walk) between(from, to float64) []shorePlace {
	first, last := w.index(from), w.index(to)
	out := append([]shorePlace{{w.places[first].edge, from}}, w.places[first+1:last+1]...)
	return append(out, shorePlace{w.places[last].edge, to})
}

// index is that of the last place at or before a station.
func (w *walk) index(station float64) int {
	i, exact := slices.BinarySearchFunc(w.places, station, func(p shorePlace, s float64) int { return cmp.Compare(p.station, s) })
	if exact {
		return i
	}
	return max(0, i-1)
}
