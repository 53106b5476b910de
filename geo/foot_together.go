package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/flat"
)

// Apart returns the clear width, in metres, between the footprint and another drawing, 0
// if they touch or overlap. It fails if that one is no structure.
func (fp *Footprint) Apart(other Part) (float64, error) {
	if err := sizeOf(other.Geometry, other.Width, other.Diameter); err != nil {
		return 0, err
	}
	if err := budget([]Part{other}); err != nil {
		return 0, err
	}
	// Elements are made in a plane; which of them are known is kept apart.
	elements, err := (&Footprint{Plane: fp.Plane}).elements(other)
	if err != nil {
		return 0, err
	}
	least := math.Inf(1)
	for i := range fp.Elements {
		for k := range elements {
			if fp.Elements[i].gapAtLeast(&elements[k]) < least {
				least = math.Min(least, clearWidth(&fp.Elements[i], &elements[k], least).Width)
			}
		}
	}
	return least, nil
}

// SurelyWithin reports whether another footprint lies nearer than so many metres, if that
// shows from a place of each; it may lie so near where it does not.
func (fp *Footprint) SurelyWithin(metres float64, other *Footprint) bool {
	there := fp.Plane.Forward(other.Plane.Inverse(other.Elements[0].parts[0][0]))
	return flat.Distance(fp.Elements[0].parts[0][0], there)+touching < metres
}

// ToArea returns the least distance of the footprint to an area drawn in its plane, 0 if
// they touch.
func (fp *Footprint) ToArea(ring orb.Ring) float64 {
	outline := NewLines(ring)
	inside := func(at orb.Point) bool { return planar.RingContains(ring, at) }
	for i := range fp.Elements {
		if inside(fp.Elements[i].centre) {
			return 0
		}
	}
	return fp.Nearest(outline).Distance
}

// sameShore is how near to one another, in metres (a hundredth of a foot), two stretches
// lie that run along the same shore: both are taken from the same line.
const sameShore = 0.003

// LengthTogether is the length of several stretches of shore, metres, of which what two
// of them run along counts once.
func LengthTogether(stretches ...[]orb.Point) float64 {
	total := 0.0
	var before []flat.Edge
	for _, points := range stretches {
		var own []flat.Edge
		for i := 1; i < len(points); i++ {
			e := flat.Edge{A: points[i-1], B: points[i]}
			own = append(own, e)
			total += lengthBeside(e, before)
		}
		before = append(before, own...)
	}
	return total
}

// lengthBeside is how much of an edge runs along none of others.
func lengthBeside(e flat.Edge, others []flat.Edge) float64 {
	length := flat.Distance(e.A, e.B)
	var taken [][2]float64 // shares of it
	for _, o := range others {
		p, from := flat.Project(e.A, e.B, o.A)
		q, to := flat.Project(e.A, e.B, o.B)
		// Where the other goes on past an end, its own foot there is what lies beside.
		back, _ := flat.Project(o.A, o.B, p)
		ahead, _ := flat.Project(o.A, o.B, q)
		if flat.Distance(p, back) <= sameShore && flat.Distance(q, ahead) <= sameShore && from != to {
			taken = append(taken, [2]float64{math.Min(from, to), math.Max(from, to)})
		}
	}
	slices.SortFunc(taken, func(a, b [2]float64) int { return slices.Compare(a[:], b[:]) })
	left, at := 1.0, 0.0
	for _, t := range taken {
		if t[1] > at {
			left -= t[1] - math.Max(at, t[0])
			at = t[1]
		}
	}
	return left * length
}
