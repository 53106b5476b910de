package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// TestStripThatDoublesBack: a line of 10 m drawn to and fro a thousand times covers what it
// covers drawn thrice, a strip with round ends: 10 m by 2 m and a circle of 1 m, worked by
// hand. Its length is all that was drawn.
func TestStripThatDoublesBack(t *testing.T) {
	var line orb.LineString
	for i := range 1000 {
		line = append(line, site.Inverse(orb.Point{10 * float64(i%2), 0}))
	}
	fp, err := NewFootprint(line, 2, 0)
	require.NoError(t, err)
	require.Len(t, fp.Elements, 1)
	require.InDelta(t, 20+math.Pi, fp.Area, 0.001)
	require.InDelta(t, 9990, fp.Length(), 0.001)
	require.InDelta(t, 12, fp.Bound.Max[0]-fp.Bound.Min[0], 1e-6)
}

// TestZigzagStrip: a zigzag whose strokes lie 5 cm apart and are 1 m wide leaves no water
// between them: 100 m by 10 m, and its two long sides bulge by half the width (worked by
// hand, to the scallops between its hair-pins).
func TestZigzagStrip(t *testing.T) {
	var line orb.LineString
	for i := range 2001 {
		line = append(line, site.Inverse(orb.Point{float64(i) / 20, 10 * float64(i%2)}))
	}
	fp, err := NewFootprint(line, 1, 0)
	require.NoError(t, err)
	require.Len(t, fp.Elements[0].Areas, 1)
	require.InDelta(t, 101*11, fp.Area, 2)
	require.InDelta(t, 11, fp.Bound.Max[1]-fp.Bound.Min[1], 0.001)
}

// TestBudget: what a structure has too much of is said in numbers; at the limit it is built.
func TestBudget(t *testing.T) {
	line := func(n int) orb.LineString {
		var out orb.LineString
		for i := range n {
			out = append(out, site.Inverse(orb.Point{float64(i) / 50, 0}))
		}
		return out
	}
	points := func(n int) orb.MultiPoint {
		var out orb.MultiPoint
		for i := range n {
			out = append(out, site.Inverse(orb.Point{float64(i), 0}))
		}
		return out
	}
	lines := func(n int) orb.MultiLineString {
		var out orb.MultiLineString
		for range n {
			out = append(out, line(10))
		}
		return out
	}
	for _, c := range []struct {
		name            string
		g               orb.Geometry
		width, diameter float64
		says            string
	}{
		{"vertices", line(10_000), 1, 0, ""},
		{"a vertex more", line(10_001), 1, 0, "it has 10,001 vertices, more than the 10,000 that a structure may have"},
		{"parts", points(2000), 0, 0.5, ""},
		{"a part more", points(2001), 0, 0.5, "it has 2,001 parts, more than the 2,000 that a structure may have"},
		{"parts over one another", points(2000), 0, 2001, "edges in its outline, more than the 400,000 that a structure may have"},
		// Each of 500 lies over the 499 others: 500 times 499 halves.
		{"parts beside one another", lines(500), 1, 0, "it has 124,750 pairs of parts that lie over or beside one another, more than the 100,000 that a structure may have"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := NewFootprint(c.g, c.width, c.diameter)
			if c.says == "" {
				require.NoError(t, err)
				return
			}
			var excess *ExcessError
			require.ErrorAs(t, err, &excess)
			require.ErrorContains(t, err, c.says)
		})
	}
}
