package geo

import (
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// What a structure may be made of. Designs that are built have hundreds of modules and some
// thousand vertices; within these limits one takes about two seconds and 200 MB at most, so
// that no applicant can stop a batch. Most of what is asked takes the time of sorting; the
// check of an area, the least openings and midway lines between two shores compare each
// with each, and decide the first two limits.
const (
	mostVertices = 10_000
	mostParts    = 2_000
	// mostOutline is how many edges the outlines of its parts may have: that of a disc has
	// some hundred, and so has the end of a hair-pin.
	mostOutline = 400_000
	// mostJoined is how many of them may be left of a strip that doubles back on itself: what
	// lies within it is gone, and no designer draws a hundred hair-pins.
	mostJoined = 100_000
	// mostOver is how many pairs of its parts may lie over or beside one another.
	mostOver = 100_000
)

// ExcessError says of what a structure has more than it may have.
type ExcessError struct {
	Of        string
	Has, Most int
}

func (e *ExcessError) Error() string {
	return fmt.Sprintf("it has %s %s, more than the %s that a structure may have", thousands(e.Has), e.Of, thousands(e.Most))
}

// thousands is a count as it is read: 120,000.
func thousands(n int) string {
	text := strconv.Itoa(n)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// budget refuses a structure of more parts or vertices than it may have, and one whose
// outline would come to too many edges. Long edges count as often as they are cut.
func budget(drawn []Part) error {
	parts, vertices, outline := 0, 0, 0
	for _, d := range drawn {
		lines, of := linesOf(d.Geometry)
		parts += of
		raw := vertices
		for _, line := range lines {
			raw += len(line)
		}
		if raw > mostVertices {
			return &ExcessError{"vertices", raw, mostVertices}
		}
		if parts > mostParts {
			return &ExcessError{"parts", parts, mostParts}
		}
		for _, line := range lines {
			cut := crs.Subdivide(line)
			vertices += len(cut)
			switch d.Geometry.Dimensions() {
			case 0:
				outline += arcSteps(d.Diameter/2, 2*math.Pi)
			case 1:
				outline += edgesOfStrip(cut, d.Width/2)
			default:
				outline += len(cut)
			}
		}
	}
	if vertices > mostVertices {
		return &ExcessError{"vertices, long edges cut,", vertices, mostVertices}
	}
	if outline > mostOutline {
		return &ExcessError{"edges in its outline", outline, mostOutline}
	}
	return nil
}

// linesOf are the lines, rings and points of a geometry, and of how many parts they are.
func linesOf(g orb.Geometry) (lines [][]orb.Point, parts int) {
	switch g := g.(type) {
	case orb.Point:
		lines = [][]orb.Point{{g}}
	case orb.MultiPoint:
		for i := range g {
			lines = append(lines, g[i:i+1])
		}
	case orb.LineString:
		lines = [][]orb.Point{g}
	case orb.MultiLineString:
		for _, line := range g {
			lines = append(lines, line)
		}
	case orb.Polygon:
		for _, ring := range g {
			lines = append(lines, ring)
		}
		return lines, 1
	case orb.MultiPolygon:
		for _, polygon := range g {
			rings, _ := linesOf(polygon)
			lines = append(lines, rings...)
		}
		return lines, len(g)
	}
	return lines, len(lines)
}

// edgesOfStrip is about how many edges the pieces of a strip have, the line in degrees.
func edgesOfStrip(line []orb.Point, half float64) int {
	edges := 4 * len(line)
	if half <= 0 || len(line) == 0 {
		return edges
	}
	shrink := math.Cos(line[0][1] * crs.PerDegree)
	way := func(i int) orb.Point {
		w := flat.Way(line[i-1], line[i])
		return orb.Point{w[0] * shrink, w[1]}
	}
	for i := 2; i < len(line); i++ {
		edges += arcSteps(half, flat.Turn(way(i-1), way(i)))
	}
	return edges
}

// overlying refuses parts of which too many lie over or beside one another.
func overlying(parts []Element) error {
	pairs := 0
	beside(parts, func(int, int) bool {
		pairs++
		return true
	})
	if pairs > mostOver {
		return &ExcessError{"pairs of parts that lie over or beside one another", pairs, mostOver}
	}
	return nil
}

func edgesIn(polygons []orb.Polygon) int {
	edges := 0
	for _, polygon := range polygons {
		for _, ring := range polygon {
			edges += len(ring) - 1
		}
	}
	return edges
}
