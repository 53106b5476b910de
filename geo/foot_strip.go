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
		c := line[i+1]
		m := flat.LeftNormal(b, c, half)
		turn := flat.Turn(n, m)
		if turn > 0 { // the outside of a left turn is on the right
			n = orb.Point{-n[0], -n[1]}
		}
		if wedge := arc(b, n, turn); len(wedge) > 2 {
			wedge = append(append(orb.Ring{b}, wedge...), b)
			if turn < 0 {
				wedge.Reverse()
			}
			out = append(out, orb.Polygon{wedge})
		}
	}
	return out
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

// arc returns points on the circle round centre from spoke through turn radians.
func arc(centre, spoke orb.Point, turn float64) orb.Ring {
	radius := math.Hypot(spoke[0], spoke[1])
	if math.Abs(turn)*radius < arcTolerance {
		return nil
	}
	step := 2 * math.Acos(1-math.Min(1, arcTolerance/radius))
	n := max(2, int(math.Ceil(math.Abs(turn)/step)))
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
