package geo

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/crs"
	"waterward/geo/flat"
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
	Plane    *crs.Plane
	Elements []Element
	Area     float64   // square metres, overlaps counted once
	Bound    orb.Bound // in the plane
	Links    []Link    // the least clear widths that join all elements, one fewer than there are
	// Incomplete says why the footprint is not known: a line without a width or
	// a point without a diameter has a place but covers nothing. Elements then
	// hold lines or points only.
	Incomplete string

	runs *runs // nil if made otherwise than by NewFootprint
}

// Link is the opening between two neighbouring elements.
type Link struct {
	A, B     int
	Width    float64   // clear width, metres
	From, To orb.Point // where it is least, in the plane
}

// Part is one drawing of a structure: of lines the width is stated, of points the
// diameter, in metres, 0 if not.
type Part struct {
	Geometry        orb.Geometry // degrees
	Width, Diameter float64
}

// NewFootprint builds the footprint of a proposal. width (for lines) and
// diameter (for points) are in metres, 0 if not stated. A line of a width is a
// strip of half that width each side, flat at its ends and round on the outside
// of bends.
func NewFootprint(g orb.Geometry, width, diameter float64) (*Footprint, error) {
	return NewFootprintOf(Part{g, width, diameter})
}

// NewFootprintOf builds the footprint of one structure drawn in parts.
func NewFootprintOf(drawn ...Part) (*Footprint, error) {
	bound := drawn[0].Geometry.Bound()
	for _, d := range drawn {
		if err := sizeOf(d.Geometry, d.Width, d.Diameter); err != nil {
			return nil, err
		}
		bound = bound.Union(d.Geometry.Bound())
	}
	if err := budget(drawn); err != nil {
		return nil, err
	}
	fp := &Footprint{Plane: crs.NewPlane(bound.Center())}
	var parts []Element
	for i, d := range drawn {
		elements, err := fp.elements(d)
		if err != nil {
			return nil, err
		}
		for k := range elements {
			elements[k].of = []int{i}
		}
		parts = append(parts, elements...)
	}
	if err := overlying(parts); err != nil {
		return nil, err
	}
	fp.Elements = connect(parts)
	fp.Links = spanningTree(fp.Elements)
	fp.runs = newRuns(fp.Elements, fp.Links)
	return fp, fp.measure()
}

// elements are those of one drawing.
func (fp *Footprint) elements(d Part) ([]Element, error) {
	var parts []Element
	var err error
	switch g := d.Geometry.(type) {
	case orb.Point:
		parts = fp.points(orb.MultiPoint{g}, d.Diameter)
	case orb.MultiPoint:
		parts = fp.points(g, d.Diameter)
	case orb.LineString:
		parts = fp.lines(orb.MultiLineString{g}, d.Width)
	case orb.MultiLineString:
		parts = fp.lines(g, d.Width)
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
			pieces := strip(line, d.Width/2)
			if doublesBack(line, d.Width/2) {
				if parts[i].Areas, err = area.Union(pieces); err != nil {
					return nil, err
				}
				if n := edgesIn(parts[i].Areas); n > mostJoined {
					return nil, &ExcessError{"edges in the outline of its strip", n, mostJoined}
				}
				parts[i].settle()
				continue
			}
			parts[i].pieces = pieces
			if parts[i].Areas, err = stripArea(line, d.Width/2); err != nil {
				return nil, err
			}
		}
		// A valid area in degrees can become invalid only by the smallest of
		// rounding, but overlay must never see one. A disc is drawn in the plane.
		if !parts[i].Discs {
			if err := area.Check(parts[i].Areas); err != nil {
				return nil, err
			}
		}
		parts[i].settle()
	}
	return parts, nil
}

// Perimeter is the length of the outlines of all elements, metres.
func (fp *Footprint) Perimeter() float64 {
	sum := 0.0
	for _, e := range fp.Elements {
		for _, polygon := range e.Areas {
			sum += area.Perimeter(polygon)
		}
	}
	return sum
}

// Edges is how many edges there are to measure from, of parts that overlap those of each.
func (fp *Footprint) Edges() int {
	edges := 0
	for i := range fp.Elements {
		fp.Elements[i].outline(func(_, _ orb.Point) { edges++ })
	}
	return edges
}

// sizeOf refuses what can only be a slip: beyond the size the plane is made for,
// or too small to draw.
func sizeOf(g orb.Geometry, width, diameter float64) error {
	b := g.Bound()
	across := math.Max((b.Max[0]-b.Min[0])*math.Cos(b.Center()[1]*crs.PerDegree), b.Max[1]-b.Min[1]) * crs.MetresPerDegree
	if across = math.Max(across, math.Max(width, diameter)); across > maxExtent {
		return fmt.Errorf("it is %.0f km across, which no one structure is (a shape across the antimeridian cannot be used)", across/1000)
	}
	switch {
	case g.Dimensions() == 0 && diameter > 0 && diameter < touching:
		return fmt.Errorf("its diameter is next to nothing")
	case g.Dimensions() == 1 && width > 0 && width < touching:
		return fmt.Errorf("its width is next to nothing")
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
	joined, err := area.Union(all)
	fp.Area = area.Of(joined)
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
		points := fp.Plane.ForwardAll(line)
		length := 0.0
		for i := 1; i < len(points); i++ {
			length += flat.Distance(points[i-1], points[i])
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

func (fp *Footprint) polygons(shape orb.MultiPolygon) ([]Element, error) {
	var out []Element
	for _, polygon := range shape { // parts may overlap, as long as each is valid
		if err := area.Check(orb.MultiPolygon{polygon}); err != nil {
			return nil, err
		}
	}
	for _, polygon := range fp.Plane.ForwardArea(shape) {
		out = append(out, Element{Areas: []orb.Polygon{polygon}, Length: stripLength(polygon)})
	}
	return out, nil
}

// stripLength is the length of the strip of the same area and perimeter; a shape rounder
// than any strip takes the root as 0.
func stripLength(polygon orb.Polygon) float64 {
	a, half := area.Of([]orb.Polygon{polygon}), area.Perimeter(polygon)/2
	return (half + math.Sqrt(math.Max(0, half*half-4*a))) / 2
}

// StripWidth is the width in metres of the strip of the same area and perimeter as an area
// of the plane (see [Element.Length]), of several parts that of the widest.
func StripWidth(parts []orb.Polygon) float64 {
	widest := 0.0
	for _, p := range parts {
		if length := stripLength(p); length > 0 {
			widest = math.Max(widest, area.Of([]orb.Polygon{p})/length)
		}
	}
	return widest
}
