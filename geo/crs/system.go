package crs

import (
	"fmt"

	"github.com/paulmach/orb"
)

// Unit is what the coordinates of a system count.
type Unit string

const (
	Degree     Unit = "degree"
	Metre      Unit = "metre"
	SurveyFoot Unit = "US survey foot" // 1200/3937 m
)

// Metres returns the length of a unit; of a degree, that of one of the equator.
func (u Unit) Metres() float64 {
	switch u {
	case SurveyFoot:
		return 1200.0 / 3937
	case Degree:
		return MetresPerDegree
	}
	return 1
}

// System is a coordinate system that layers are published in: longitude and
// latitude in degrees, or a projection in its own unit.
type System struct {
	Code  int // EPSG
	Name  string
	Datum Datum
	Unit  Unit

	area   orb.Bound  // where it is meant to be used, degrees
	reach  orb.Bound  // where a position in it may be, degrees
	plane  projection // nil if the coordinates are degrees
	origin orb.Point  // false easting and northing, in Unit
	metres float64    // in a Unit
}

// farOutside is how far, in degrees, a position may lie outside the area of use
// of its system. The projections hold good there, and a layer of a whole coast
// may run past its zone; farther out it is the system or a digit that is wrong.
const farOutside = 20

// known are all systems, those met most first where nothing else tells.
var known, byCode = func() ([]*System, map[int]*System) {
	var all []*System
	codes := map[int]*System{}
	for _, z := range append(zones, utm()...) {
		for _, g := range z.grids {
			for _, of := range g.codes {
				c := &System{
					Code: of.number, Name: fmt.Sprintf("%s, %s, %s", z.name, of.datum, g.unit),
					Datum: of.datum, Unit: g.unit,
					area: z.area, plane: z.plane, origin: orb.Point{g.easting, g.northing}, metres: g.unit.Metres(),
				}
				switch {
				case c.IsDegrees():
					c.reach = world
				case c.area.Min[0] == -180: // Web Mercator's ends where its map does
					c.reach = c.area.Pad(edge / PerDegree)
				default:
					c.reach = c.area.Pad(farOutside)
				}
				all = append(all, c)
				codes[of.number] = c
			}
		}
	}
	for alias, number := range aliases {
		codes[alias] = codes[number]
	}
	return all, codes
}()

// String names the system by its code and in words.
func (c *System) String() string { return fmt.Sprintf("EPSG:%d (%s)", c.Code, c.Name) }

// IsDegrees reports whether the coordinates are longitude and latitude.
func (c *System) IsDegrees() bool { return c.Unit == Degree }

// DegreesOn returns longitude and latitude on a datum as a system.
func DegreesOn(datum Datum) *System {
	for _, c := range known {
		if c.IsDegrees() && c.Datum == datum {
			return c
		}
	}
	return Geographic
}

// Degrees returns the longitude and latitude, on the system's datum, of
// coordinates in the system: right to 1e-9 degree. It is an error if they are
// not finite or can be no position in the system.
func (c *System) Degrees(p orb.Point) (orb.Point, error) {
	at := p
	if c.plane != nil {
		lon, lat := c.plane.inverse((p[0]-c.origin[0])*c.metres, (p[1]-c.origin[1])*c.metres)
		at = orb.Point{lon / PerDegree, lat / PerDegree}
	}
	// Written so that NaN is refused.
	if at[0] >= c.reach.Min[0] && at[0] <= c.reach.Max[0] && at[1] >= c.reach.Min[1] && at[1] <= c.reach.Max[1] {
		return at, nil
	}
	return orb.Point{}, c.noPosition(p)
}

func (c *System) noPosition(p orb.Point) error {
	b := world
	if c.plane != nil {
		b = c.bound(c.area)
	}
	return fmt.Errorf("%.10g, %.10g is no position in EPSG:%d (%s), where x runs from %.0f to %.0f and y from %.0f to %.0f; is the layer in another coordinate system?",
		p[0], p[1], c.Code, c.Name, b.Min[0], b.Max[0], b.Min[1], b.Max[1])
}

// Projected returns the coordinates in the system of a longitude and latitude on
// its datum: right to 0.1 mm within 20 degrees of its area of use, without
// meaning far from there.
func (c *System) Projected(p orb.Point) orb.Point {
	if c.plane == nil {
		return p
	}
	x, y := c.plane.forward(p[0]*PerDegree, p[1]*PerDegree)
	return orb.Point{x/c.metres + c.origin[0], y/c.metres + c.origin[1]}
}

// MeantFor reports whether a position, in degrees, lies where the system is meant to be
// used; Projected goes farther.
func (c *System) MeantFor(p orb.Point) bool { return c.area.Contains(p) }

// Reaches reports whether Projected holds good at a position in degrees.
func (c *System) Reaches(p orb.Point) bool { return c.reach.Contains(p) }

// bound returns the bound in the system of an area in degrees.
func (c *System) bound(area orb.Bound) orb.Bound {
	const steps = 16 // an edge bends, but little
	out := orb.Bound{Min: c.Projected(area.Min), Max: c.Projected(area.Min)}
	for i := range steps + 1 {
		t := float64(i) / steps
		lon, lat := area.Min[0]+t*(area.Max[0]-area.Min[0]), area.Min[1]+t*(area.Max[1]-area.Min[1])
		for _, p := range []orb.Point{{lon, area.Min[1]}, {lon, area.Max[1]}, {area.Min[0], lat}, {area.Max[0], lat}} {
			out = out.Extend(c.Projected(p))
		}
	}
	return out
}

// Geographic is what GeoJSON is in unless it says otherwise (RFC 7946, section 4).
var Geographic = byCode[4326]
