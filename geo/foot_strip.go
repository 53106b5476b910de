package geo

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"

	"waterward/geo/area"
	"waterward/geo/flat"
)

// strip returns the pieces of a strip round a line: a rectangle for each edge
// and a round wedge on the outside of each bend.
func strip(line []orb.Point, half float64) []orb.Polygon {
	var out []orb.Polygon
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		n := flat.LeftNormal(a, b, half)
		out = append(out, orb.Polygon{{
			{a[0] - n[0], a[1] - n[1]}, {b[0] - n[0], b[1] - n[1]},
			{b[0] + n[0], b[1] + n[1]}, {a[0] + n[0], a[1] + n[1]}, {a[0] - n[0], a[1] - n[1]},
		}})
		if i+1 == len(line) {
			break
		}
		if bend, turn := bendOf(a, b, line[i+1], half); len(bend) > 2 {
			wedge := append(append(orb.Ring{b}, bend...), b)
			if turn < 0 {
				wedge.Reverse()
			}
			out = append(out, orb.Polygon{wedge})
		}
	}
	return out
}

// bendOf is the arc on the outside of a bend of a strip, and by how many radians that turns.
func bendOf(a, b, c orb.Point, half float64) (orb.Ring, float64) {
	n := flat.LeftNormal(a, b, half)
	turn := flat.Turn(n, flat.LeftNormal(b, c, half))
	if turn > 0 { // the outside of a left turn is on the right
		n = orb.Point{-n[0], -n[1]}
	}
	return arc(b, n, turn), turn
}

// stripArea returns a strip as one valid area: a buffer, whose outline is within
// 0.02 % of the half width where the line bends and exact where it does not.
func stripArea(line []orb.Point, half float64) (orb.MultiPolygon, error) {
	buffer, err := geom.Buffer(area.ToLineString(line).AsGeometry(), half,
		geom.BufferEndCapFlat(), geom.BufferQuadSegments(64), geom.BufferSimplifyFactor(0))
	if err != nil {
		return nil, fmt.Errorf("its strip cannot be drawn: %w", err)
	}
	return area.FromGeometry(buffer), nil
}

// meetingFew and meetingEach are in how many places, in all and for each piece of the
// outline, a strip may come upon itself that a buffer is still drawn: more than any that is
// built has: along a plain strip each piece comes upon three others.
const meetingFew, meetingEach = 1_000, 5

// arcsFew and arcsEach are how many chords its bends may be drawn in, in all and for each
// piece of the outline: hair-pins have a hundred.
const arcsFew, arcsEach = 20_000, 5

// doublesBack reports whether the outline of a strip comes upon itself so often that a
// buffer would take minutes: it is then the union of its pieces.
func doublesBack(line []orb.Point, half float64) bool {
	var outline []flat.Box
	arcs := 0
	for i := 1; i < len(line); i++ {
		a, b, n := line[i-1], line[i], flat.LeftNormal(line[i-1], line[i], half)
		for _, way := range [2]float64{1, -1} {
			outline = append(outline, flat.Edge{
				A: orb.Point{a[0] + way*n[0], a[1] + way*n[1]}, B: orb.Point{b[0] + way*n[0], b[1] + way*n[1]},
			}.Box(0))
		}
		if i+1 < len(line) {
			if bend, _ := bendOf(a, b, line[i+1], half); len(bend) > 0 {
				outline = append(outline, flat.BoxOf(bend.Bound()))
				arcs += len(bend)
			}
		}
	}
	if arcs > arcsFew+arcsEach*len(outline) {
		return true
	}
	left := meetingFew + meetingEach*len(outline)
	index := flat.NewIndex(len(outline), func(i int) flat.Box { return outline[i] })
	for i := range outline {
		if !index.Search(outline[i], func(j int) bool {
			if j > i {
				left--
			}
			return left >= 0
		}) {
			return true
		}
	}
	return false
}

// arcSteps is how many chords an arc is drawn in.
func arcSteps(radius, turn float64) int {
	step := 2 * math.Acos(1-math.Min(1, arcTolerance/radius))
	return max(2, int(math.Ceil(math.Abs(turn)/step)))
}

// arc returns points on the circle round centre from spoke through turn radians.
func arc(centre, spoke orb.Point, turn float64) orb.Ring {
	radius := math.Hypot(spoke[0], spoke[1])
	if math.Abs(turn)*radius < arcTolerance {
		return nil
	}
	n := arcSteps(radius, turn)
	out := make(orb.Ring, 0, n+1)
	for i := range n + 1 {
		s := flat.Turned(spoke, turn*float64(i)/float64(n))
		out = append(out, orb.Point{centre[0] + s[0], centre[1] + s[1]})
	}
	return out
}

func disc(centre orb.Point, radius float64) orb.Polygon {
	ring := arc(centre, orb.Point{radius, 0}, 2*math.Pi)
	ring[len(ring)-1] = ring[0]
	return orb.Polygon{ring}
}
