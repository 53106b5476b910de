package geo

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
)

const (
	// arcTolerance is how far inside a true arc its chords may lie, in metres
	// (0.0003 ft): a thirtieth of what every distance must be right within.
	arcTolerance = 0.0001
	// touching is the clear width, in metres, below which two parts are one
	// connected element: drawings made to 9 decimals of a degree leave parts
	// meant to touch up to 0.0004 ft apart.
	touching = 0.0005
	// maxExtent is the greatest extent of one proposal, in metres: that within
	// which a plane keeps its accuracy.
	maxExtent = 20000
)

// Footprint is what a proposal covers on the bottom, in the plane of its site.
type Footprint struct {
	Plane    *Plane
	Elements []Element
	Area     float64   // square metres, overlaps counted once
	Bound    orb.Bound // in the plane
	Links    []Link    // the least clear widths that join all elements, one fewer than there are
	// Incomplete says why the footprint is not known: a line without a width or
	// a point without a diameter has a place but covers nothing. Elements then
	// hold lines or points only.
	Incomplete string
}

// Element is one connected piece of a footprint.
type Element struct {
	Areas  []orb.Polygon // in the plane, for areas and overlay; empty if the footprint is incomplete
	Lines  [][]orb.Point // what was drawn, if lines or points
	Length float64       // metres
	Discs  bool          // drawn as points with a diameter

	// pieces are what distances are taken from. They may overlap: the exact
	// rectangles and wedges of a strip, whose union no overlay gets right
	// where edges coincide but for rounding. Otherwise they are the areas.
	pieces    []orb.Polygon
	triangles []triangle
	centre    orb.Point
	radius    float64 // of the circle round centre that holds the element
}

// Link is the opening between two neighbouring elements.
type Link struct {
	A, B     int
	Width    float64   // clear width, metres
	From, To orb.Point // where it is least, in the plane
}

// NewFootprint builds the footprint of a proposal. width (for lines) and
// diameter (for points) are in metres, 0 if not stated. A line of a width is a
// strip of half that width each side, flat at its ends and round on the outside
// of bends.
func NewFootprint(g orb.Geometry, width, diameter float64) (*Footprint, error) {
	if err := sizeOf(g, width, diameter); err != nil {
		return nil, err
	}
	fp := &Footprint{Plane: NewPlane(g.Bound().Center())}
	var parts []Element
	var err error
	switch g := g.(type) {
	case orb.Point:
		parts = fp.points(orb.MultiPoint{g}, diameter)
	case orb.MultiPoint:
		parts = fp.points(g, diameter)
	case orb.LineString:
		parts = fp.lines(orb.MultiLineString{g}, width)
	case orb.MultiLineString:
		parts = fp.lines(g, width)
	case orb.Polygon:
		parts, err = fp.polygons(orb.MultiPolygon{g})
	case orb.MultiPolygon:
		parts, err = fp.polygons(g)
	default:
		err = fmt.Errorf("a %s cannot be a structure", g.GeoJSONType())
	}
	if err != nil {
		return nil, err
	}
	if len(parts) == 0 {
		return nil, fmt.Errorf("all its positions are the same; there is nothing to measure")
	}
	for i := range parts {
		if len(parts[i].Areas) == 0 && fp.Incomplete == "" {
			line := parts[i].Lines[0]
			parts[i].pieces = strip(line, width/2)
			if parts[i].Areas, err = stripArea(line, width/2); err != nil {
				return nil, err
			}
		}
		// A valid area in degrees can become invalid only by the smallest of
		// rounding, but overlay must never see one.
		if err := CheckArea(parts[i].Areas); err != nil {
			return nil, err
		}
		parts[i].settle()
	}
	fp.Elements = connect(parts)
	fp.Links = spanningTree(fp.Elements)
	return fp, fp.measure()
}

// sizeOf refuses what can only be a slip: beyond the size the plane is made for,
// or too small to draw.
func sizeOf(g orb.Geometry, width, diameter float64) error {
	b := g.Bound()
	across := math.Max((b.Max[0]-b.Min[0])*math.Cos(b.Center()[1]*degree), b.Max[1]-b.Min[1]) * metresPerDegree
	if across = math.Max(across, math.Max(width, diameter)); across > maxExtent {
		return fmt.Errorf("it is %.0f km across, which no one structure is (a shape across the antimeridian cannot be used)", across/1000)
	}
	if g.Dimensions() == 0 && diameter > 0 && diameter < touching {
		return fmt.Errorf("its diameter is next to nothing")
	}
	return nil
}

func (fp *Footprint) measure() error {
	var all []orb.Polygon
	for i, e := range fp.Elements {
		all = append(all, e.Areas...)
		b := e.bound()
		if i == 0 {
			fp.Bound = b
		} else {
			fp.Bound = fp.Bound.Union(b)
		}
	}
	if fp.Incomplete != "" {
		return nil
	}
	joined, err := union(all)
	fp.Area = areaOf(joined)
	return err
}

func (fp *Footprint) points(points orb.MultiPoint, diameter float64) []Element {
	var out []Element
	for _, p := range points {
		at := fp.Plane.Forward(p)
		e := Element{Lines: [][]orb.Point{{at, at}}, Discs: true, Length: diameter}
		if diameter > 0 {
			e.Areas = []orb.Polygon{disc(at, diameter/2)}
		}
		out = append(out, e)
	}
	if diameter <= 0 {
		fp.Incomplete = "a point without a diameter covers nothing; state diameter_ft"
	}
	return out
}

func (fp *Footprint) lines(lines orb.MultiLineString, width float64) []Element {
	var out []Element
	for _, line := range lines {
		points := fp.Plane.forwardAll(line)
		length := 0.0
		for i := 1; i < len(points); i++ {
			length += distance(points[i-1], points[i])
		}
		if length > 0 {
			out = append(out, Element{Lines: [][]orb.Point{points}, Length: length})
		}
	}
	if width <= 0 {
		fp.Incomplete = "a line without a width has a place but no footprint; state width_ft"
	}
	return out
}

func (fp *Footprint) polygons(area orb.MultiPolygon) ([]Element, error) {
	var out []Element
	for _, polygon := range area { // parts may overlap, as long as each is valid
		if err := CheckArea(orb.MultiPolygon{polygon}); err != nil {
			return nil, err
		}
	}
	for _, polygon := range fp.Plane.forwardArea(area) {
		a, half := areaOf([]orb.Polygon{polygon}), perimeter(polygon)/2
		// The length of the strip of the same area and perimeter; a shape
		// rounder than any strip takes the root as 0.
		length := (half + math.Sqrt(math.Max(0, half*half-4*a))) / 2
		out = append(out, Element{Areas: []orb.Polygon{polygon}, Length: length})
	}
	return out, nil
}

// settle cuts the element into triangles and puts a circle round it.
func (e *Element) settle() {
	if e.pieces == nil {
		e.pieces = e.Areas
	}
	e.triangles = nil
	for _, polygon := range e.pieces {
		e.triangles = append(e.triangles, triangulate(polygon)...)
	}
	if len(e.pieces) == 0 {
		for _, line := range e.Lines {
			e.triangles = append(e.triangles, lineTriangles(line)...)
		}
	}
	e.centre = e.bound().Center()
	e.radius = 0
	e.eachVertex(func(p orb.Point) { e.radius = math.Max(e.radius, distance(e.centre, p)) })
}

func (e *Element) bound() orb.Bound {
	if len(e.pieces) > 0 {
		return orb.MultiPolygon(e.pieces).Bound()
	}
	b := orb.LineString(e.Lines[0]).Bound()
	for _, line := range e.Lines[1:] {
		b = b.Union(orb.LineString(line).Bound())
	}
	return b
}

// outline visits the edges of the element's pieces.
func (e *Element) outline(visit func(a, b orb.Point)) {
	for _, polygon := range e.pieces {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				visit(ring[i-1], ring[i])
			}
		}
	}
	if len(e.pieces) == 0 {
		for _, line := range e.Lines {
			for i := 1; i < len(line); i++ {
				visit(line[i-1], line[i])
			}
		}
	}
}

func (e *Element) eachVertex(visit func(orb.Point)) {
	e.outline(func(a, b orb.Point) { visit(a); visit(b) })
}

// strip returns the pieces of a strip round a line: a rectangle for each edge
// and a round wedge on the outside of each bend.
func strip(line []orb.Point, half float64) []orb.Polygon {
	var out []orb.Polygon
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		n := leftNormal(a, b, half)
		out = append(out, orb.Polygon{{
			{a[0] - n[0], a[1] - n[1]}, {b[0] - n[0], b[1] - n[1]},
			{b[0] + n[0], b[1] + n[1]}, {a[0] + n[0], a[1] + n[1]}, {a[0] - n[0], a[1] - n[1]},
		}})
		if i+1 == len(line) {
			break
		}
		c := line[i+1]
		m := leftNormal(b, c, half)
		turn := math.Atan2(n[0]*m[1]-n[1]*m[0], n[0]*m[0]+n[1]*m[1])
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
	buffer, err := geom.Buffer(toLineString(line).AsGeometry(), half,
		geom.BufferEndCapFlat(), geom.BufferQuadSegments(64), geom.BufferSimplifyFactor(0))
	if err != nil {
		return nil, fmt.Errorf("its strip cannot be drawn: %w", err)
	}
	return fromGeometry(buffer), nil
}

func leftNormal(a, b orb.Point, length float64) orb.Point {
	d := distance(a, b)
	return orb.Point{-(b[1] - a[1]) / d * length, (b[0] - a[0]) / d * length}
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
		s, c := math.Sincos(turn * float64(i) / float64(n))
		out = append(out, orb.Point{
			centre[0] + c*spoke[0] - s*spoke[1],
			centre[1] + s*spoke[0] + c*spoke[1],
		})
	}
	return out
}

func disc(centre orb.Point, radius float64) orb.Polygon {
	ring := arc(centre, orb.Point{radius, 0}, 2*math.Pi)
	ring[len(ring)-1] = ring[0]
	return orb.Polygon{ring}
}

// Area is the area of the element in square metres.
func (e *Element) Area() float64 { return areaOf(e.Areas) }
