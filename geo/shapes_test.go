package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/geo/flat/flattest"
)

// ft is a length in feet, in metres.
const ft = crs.MetresPerFoot

// site is where shapes drawn in feet are placed on the earth.
var site = crs.NewPlane(orb.Point{-82.63, 27.76})

// onSite turns positions in feet east and north of the site into degrees.
func onSite(line []orb.Point) []orb.Point {
	out := make([]orb.Point, len(line))
	for i, p := range line {
		out[i] = site.Inverse(orb.Point{p[0] * ft, p[1] * ft})
	}
	return out
}

func siteArea(polygons ...orb.Polygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, polygon := range polygons {
		var rings orb.Polygon
		for _, ring := range polygon {
			rings = append(rings, onSite(ring))
		}
		out = append(out, rings)
	}
	return out
}

// inFeet scales a line drawn in feet to the metres of the plane.
func inFeet(line ...orb.Point) []orb.Point {
	out := make([]orb.Point, len(line))
	for i, p := range line {
		out[i] = orb.Point{p[0] * ft, p[1] * ft}
	}
	return out
}

// boxFeet is a footprint that is one rectangle drawn in feet.
func boxFeet(x0, y0, x1, y1 float64) *Footprint {
	return drawn([]orb.Polygon{flattest.Box(x0*ft, y0*ft, x1*ft, y1*ft)})
}

func requireFeet(t *testing.T, want, metres float64, why string) {
	t.Helper()
	require.InDelta(t, want, metres/ft, 0.001001, why)
}
