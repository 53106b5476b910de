package main

import (
	"math"
	"math/rand/v2"
	"slices"
)

const foot = 0.3048

// site is a place for a structure: its frame, with s along the shore and h away from
// it, and the shore that its distances are set from.
type site struct {
	at, along point
	room      float64 // along the shore
	across    float64 // the water, 0 if open
	mhw, mlw  []point // near it
}

// place is where (s, h) lies.
func (f site) place(s, h float64) point {
	return f.at.plus(f.along.times(s)).plus(f.along.left().times(h))
}

// pick chooses a place for a structure as long as room, if the stretch has one.
func (s *stretch) pick(rng *rand.Rand, room float64) (site, bool) {
	if s.ring != nil && rng.IntN(6) == 0 && room < longestOnCrooked/2 {
		if f, ok := chord(rng, s.ring, room); ok {
			f.mhw, f.mlw = s.ring, s.low
			return f, true
		}
	}
	if s.kind == "natural" {
		if room > longestOnCrooked {
			return site{}, false
		}
		f, ok := chord(rng, s.mhw, room)
		if ok {
			f.mhw, f.mlw = near(s.mhw, f), near(s.mlw, f)
		}
		return f, ok
	}
	fit := slices.DeleteFunc(slices.Clone(s.straights), func(w straight) bool { return w.from.distance(w.to) < room+2*clearOfEnds })
	if len(fit) == 0 {
		return site{}, false
	}
	w := fit[rng.IntN(len(fit))]
	run := w.from.distance(w.to)
	f := site{along: w.to.minus(w.from).times(1 / run), across: w.width, room: run, mhw: []point{w.from, w.to}}
	f.at = w.from.plus(f.along.times(clearOfEnds + (run-room-2*clearOfEnds)*rng.Float64()))
	off := f.along.left().times(w.low)
	f.mlw = []point{w.from.plus(off), w.to.plus(off)}
	return f, true
}

// longestOnCrooked is how long a straight structure may be off a shore that is not.
const longestOnCrooked = 60.0

// clearOfEnds is how far from the ends of a wall a structure stays, in metres.
const clearOfEnds = 1.5

// chord is the frame of a piece of crooked shore as long as room, fairly straight.
func chord(rng *rand.Rand, line []point, room float64) (site, bool) {
	const tries = 40
	for range tries {
		i := rng.IntN(len(line))
		j := i + 1
		for j < len(line) && line[j].distance(line[i]) < room {
			j++
		}
		if j == len(line) {
			continue
		}
		d := line[j].distance(line[i])
		f := site{at: line[i], along: line[j].minus(line[i]).times(1 / d), room: d}
		if !slices.ContainsFunc(line[i:j], func(a point) bool { return math.Abs(a.minus(f.at).dot(f.along.left())) > 0.4+d/50 }) {
			return f, true
		}
	}
	return site{}, false
}

// near is the part of a line that a structure in the frame can be near.
func near(line []point, f site) []point {
	const margin = 60.0
	ends := []float64{f.at.x, f.place(f.room, 0).x}
	from := slices.IndexFunc(line, func(a point) bool { return a.x > slices.Min(ends)-margin })
	to := from
	for to < len(line) && line[to].x < slices.Max(ends)+margin {
		to++
	}
	return line[max(0, from-1):to]
}

// settle is the h of the waterward edge of a structure that spans from 0 to span such
// that its farthest place lies the wanted distance from a line.
func (f site) settle(line []point, span, wanted float64) float64 {
	// Between samples so many metres apart an edge is at most 0.16 ft farther off.
	const step, rounds = 0.1, 4
	h := wanted + f.at.fromLine(line)
	for range rounds {
		farthest := math.Inf(-1)
		for i, n := 0.0, math.Ceil(span/step); i <= n; i++ {
			farthest = math.Max(farthest, f.place(span*i/n, h).fromLine(line))
		}
		h += wanted - farthest
	}
	return h
}
