package geo

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Apart returns the clear width, in metres, between the footprint and another drawing, 0
// if they touch or overlap. It fails if that one is no structure.
func (fp *Footprint) Apart(other Part) (float64, error) {
	if err := sizeOf(other.Geometry, other.Width, other.Diameter); err != nil {
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
				least = math.Min(least, clearWidth(&fp.Elements[i], &elements[k]).Width)
			}
		}
	}
	return least, nil
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
	var before []ringEdge
	for _, points := range stretches {
		var own []ringEdge
		for i := 1; i < len(points); i++ {
			e := ringEdge{points[i-1], points[i]}
			own = append(own, e)
			total += e.lengthBeside(before)
		}
		before = append(before, own...)
	}
	return total
}

// lengthBeside is how much of an edge runs along none of others.
func (e ringEdge) lengthBeside(others []ringEdge) float64 {
	length := distance(e.a, e.b)
	var taken [][2]float64 // shares of it
	for _, o := range others {
		p, from := project(e.a, e.b, o.a)
		q, to := project(e.a, e.b, o.b)
		// Where the other goes on past an end, its own foot there is what lies beside.
		back, _ := project(o.a, o.b, p)
		ahead, _ := project(o.a, o.b, q)
		if distance(p, back) <= sameShore && distance(q, ahead) <= sameShore && from != to {
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
