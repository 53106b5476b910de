package field

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/paulmach/orb/simplify"
)

const (
	// strings keep within so many metres (0.5 ft) of the outline between corners: less than
	// a mound's foot can be told on the bottom (common practice, no source).
	stringWithin = 0.1524
	// loosest is what that may grow to for an outline of many corners, metres (4 ft).
	loosest = 8 * stringWithin
	// mostCorners are named of one outline.
	mostCorners = 24
	// SamePlace is how near, in metres (0.02 ft), two places are one: positions are written no
	// finer.
	SamePlace = 0.006
)

// Corner is a place of an outline or of a line, in the plane, with a name unlike any other
// of it: the compass point in which it lies from the middle, with a number where two or more
// lie in one, in their order along the outline.
type Corner struct {
	Name string
	At   orb.Point
	End  bool // of a line
}

// CornersOf are the corners of an outline, clockwise from north, and how far off it straight
// strings from one to the next are, in metres. Of one with more corners than are named the
// outermost are, and the second is NaN.
func CornersOf(outline []orb.Polygon) ([]Corner, float64) {
	var rings [][]orb.Point
	bound := orb.MultiPolygon(outline).Bound()
	for _, polygon := range outline {
		for i, ring := range polygon {
			rings = append(rings, startedOutermost(ring, i == 0, bound.Center()))
		}
	}
	corners, off := chosen(rings, true)
	half := orb.Point{(bound.Max[0] - bound.Min[0]) / 2, (bound.Max[1] - bound.Min[1]) / 2}
	if len(rings) == 1 {
		begin := 0
		for i := range corners {
			if bearing(corners[i].At, bound.Center(), half) < bearing(corners[begin].At, bound.Center(), half) {
				begin = i
			}
		}
		corners = slices.Concat(corners[begin:], corners[:begin])
	}
	named(corners, bound.Center(), half)
	return corners, off
}

// EndsOf are the ends of lines that have any, and with bends the places between at which
// they bend, and how far off the lines straight strings from one to the next are, as of
// [CornersOf].
func EndsOf(lines [][]orb.Point, bends bool) ([]Corner, float64) {
	var bound orb.Bound
	var drawn [][]orb.Point
	for i, line := range lines {
		if b := orb.LineString(line).Bound(); i == 0 {
			bound = b
		} else {
			bound = bound.Union(b)
		}
		switch first, last := line[0], line[len(line)-1]; {
		case bends:
			drawn = append(drawn, line)
		case first != last:
			drawn = append(drawn, []orb.Point{first, last})
		}
	}
	corners, off := chosen(drawn, false)
	named(corners, bound.Center(), orb.Point{1, 1})
	return corners, off
}

// startedOutermost is a ring, clockwise if it is a shell, from the place that lies farthest
// from a middle: a corner of it whatever strings leave out.
func startedOutermost(ring orb.Ring, shell bool, middle orb.Point) []orb.Point {
	open := slices.Clone(ring[:len(ring)-1])
	if (ring.Orientation() == orb.CW) != shell {
		slices.Reverse(open)
	}
	first := 0
	for i, p := range open {
		if planar.Distance(p, middle) > planar.Distance(open[first], middle)+SamePlace {
			first = i
		}
	}
	turned := slices.Concat(open[first:], open[:first])
	return append(turned, turned[0])
}

// chosen are the vertices that strings need to keep within what they may, or the outermost.
func chosen(lines [][]orb.Point, closed bool) ([]Corner, float64) {
	var corners []Corner
	for within := stringWithin; within <= loosest; within *= 2 {
		corners = nil
		var strings orb.MultiLineString
		for _, line := range lines {
			kept := simplify.DouglasPeucker(within).LineString(slices.Clone(line))
			strings = append(strings, kept)
			if closed {
				kept = kept[1:]
			}
			for i, p := range kept {
				corners = append(corners, Corner{At: p, End: !closed && (i == 0 || i == len(kept)-1)})
			}
		}
		if len(corners) > mostCorners {
			continue
		}
		off := 0.0
		for i, line := range lines {
			for _, p := range line {
				off = math.Max(off, planar.DistanceFrom(strings[i], p))
			}
		}
		return apart(corners), off
	}
	var outermost []Corner
	for k := range mostCorners {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / mostCorners)
		far := corners[0]
		for _, c := range corners {
			if (c.At[0]-far.At[0])*sin+(c.At[1]-far.At[1])*cos > SamePlace {
				far = c
			}
		}
		outermost = append(outermost, far)
	}
	return apart(outermost), math.NaN()
}

// apart leaves out what lies where another does.
func apart(corners []Corner) []Corner {
	var made []Corner
	for _, c := range corners {
		if !slices.ContainsFunc(made, func(o Corner) bool { return planar.Distance(o.At, c.At) < SamePlace }) {
			made = append(made, c)
		}
	}
	return made
}

var compass = [...]string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}

// bearing is the bearing from a middle, clockwise from north in parts of the compass, 0 to
// 8; of a place in a box so wide and high as if that were square, so that the corners of a
// long box are its NE, SE, SW and NW.
func bearing(at, middle, half orb.Point) float64 {
	if half[0] < SamePlace || half[1] < SamePlace {
		half = orb.Point{1, 1}
	}
	b := math.Atan2((at[0]-middle[0])/half[0], (at[1]-middle[1])/half[1]) * 4 / math.Pi
	return math.Mod(b+8, 8)
}

func named(corners []Corner, middle, half orb.Point) {
	of := map[string][]int{}
	for i, c := range corners {
		name := compass[int(math.Round(bearing(c.At, middle, half)))%8]
		of[name] = append(of[name], i)
	}
	for name, all := range of {
		for n, i := range all {
			if corners[i].Name = name; len(all) > 1 {
				corners[i].Name = fmt.Sprint(name, n+1)
			}
		}
	}
}
