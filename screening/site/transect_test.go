package site

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/rules"
	"waterward/screening/job"
)

// TestTransect: where cuts enter and leave structures that stand over a shore along y = 0.
// Worked by hand, in feet. A rectangle turned by 30 degrees is cut at its far corner over 8 /
// cos 30 = 9.24; a cut at the end of one that is not turned runs from side to side, not along
// its end; of two discs one behind the other both are cut; and what lies on land is not.
func TestTransect(t *testing.T) {
	drawn := crs.NewPlane(orb.Point{-74.6, 30})
	degrees := func(x, y float64) orb.Point { return drawn.Inverse(orb.Point{x * job.Foot, y * job.Foot}) }
	rectangle := func(turned, wide, high float64, x, y float64) orb.Polygon {
		sin, cos := math.Sincos(turned * math.Pi / 180)
		var ring orb.Ring
		for _, c := range [5][2]float64{{0, 0}, {wide, 0}, {wide, high}, {0, high}, {0, 0}} {
			ring = append(ring, degrees(x+c[0]*cos-c[1]*sin, y+c[0]*sin+c[1]*cos))
		}
		return orb.Polygon{ring}
	}
	sin, cos := math.Sincos(math.Pi / 6)
	for name, c := range map[string]struct {
		of      orb.Geometry
		across  float64
		toe     orb.Point
		in, out float64
		oblique float64
		others  int
	}{
		"square":  {rectangle(0, 60, 8, 0, 20), 0, orb.Point{0, 28}, 20, 28, 1, 0},
		"turned":  {rectangle(30, 60, 8, 0, 20), 0, orb.Point{60*cos - 8*sin, 20 + 60*sin + 8*cos}, 20 + 60*sin + 8*cos - 8/cos, 20 + 60*sin + 8*cos, 1 / cos, 0},
		"discs":   {orb.MultiPoint{degrees(0, 5), degrees(0, 15)}, 4, orb.Point{0, 17}, 13, 17, 1, 1},
		"on land": {rectangle(0, 60, 8, 0, -28), 0, orb.Point{0, -20}, 0, 0, 0, 0},
	} {
		fp, err := geo.NewFootprint(c.of, 0, c.across*job.Foot)
		require.NoError(t, err, name)
		at := func(x, y float64) orb.Point { return fp.Plane.Forward(degrees(x, y)) }
		s := &Site{
			Footprint: fp, Values: map[string]rules.Value{"mhw_farthest": {Number: c.toe[1] * job.Foot}},
			witnesses: []witness{{measure: "mhw_farthest", line: []orb.Point{at(c.toe[0], c.toe[1]), at(c.toe[0], 0)}}},
		}
		cut, why := s.Transect()
		if name == "on land" {
			require.Equal(t, "it lies landward of mean high water", why)
			continue
		}
		require.Empty(t, why, name)
		require.InDelta(t, c.in, cut.In/job.Foot, 0.05, name) // the cut stands up to an inch aside
		require.InDelta(t, c.out, cut.Out/job.Foot, 0.05, name)
		require.InDelta(t, c.oblique, cut.Oblique, 0.01, name)
		require.Len(t, cut.Others, c.others, name)
		for _, o := range cut.Others {
			require.InDelta(t, 3, o.In/job.Foot, 0.01)
			require.InDelta(t, 7, o.Out/job.Foot, 0.01)
		}
	}
}
