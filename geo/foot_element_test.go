package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
	"waterward/geo/crs"
)

// Two boxes of 40 m by 10 m that share 10 m of their length come to one outline of 70 m by
// 10 m: worked by hand.
func TestOutlineOfPartsThatOverlap(t *testing.T) {
	plane := crs.NewPlane(orb.Point{-74.6, 30})
	box := func(x0, x1 float64) orb.Polygon {
		var ring orb.Ring
		for _, p := range []orb.Point{{x0, 0}, {x1, 0}, {x1, 10}, {x0, 10}, {x0, 0}} {
			ring = append(ring, plane.Inverse(p))
		}
		return orb.Polygon{ring}
	}
	fp, err := NewFootprint(orb.MultiPolygon{box(0, 40), box(30, 70)}, 0, 0)
	require.NoError(t, err)
	require.Len(t, fp.Elements, 1)
	outline := fp.Elements[0].Outline()
	require.Len(t, outline, 1)
	require.Len(t, outline[0], 1)
	require.InDelta(t, 700, area.Of(outline), 0.01)
	require.InDelta(t, 160, area.Perimeter(outline[0]), 0.01)
	line, err := NewFootprint(orb.LineString{{-74.6, 30}, {-74.5999, 30}}, 0, 0)
	require.NoError(t, err)
	require.Empty(t, line.Elements[0].Outline(), "it has no width")
}
