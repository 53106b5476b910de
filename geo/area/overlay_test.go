package area

import (
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestRandomAreasShareWhatBothCover: half of what each covers less what just one does, added
// up over level strips; also where the parts of an area overlap.
func TestRandomAreasShareWhatBothCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func() (parts []orb.Polygon) {
			for _, polygon := range drawDirty(t) {
				rebuilt, err := rebuild(polygon)
				require.NoError(t, err)
				parts = append(parts, rebuilt...)
			}
			return parts
		}
		a, b := draw(), draw()
		if len(a) == 0 || len(b) == 0 {
			return // it encloses nothing
		}
		want := (groundBetween(a, nil) + groundBetween(b, nil) - groundBetween(a, b)) / 2
		got, err := Shared(a, b)
		require.NoError(t, err)
		require.InDelta(t, want, got, areaSlack(slices.Concat(a, b), bySnapping))
	})
}

// TestSharedAreas: worked by hand.
func TestSharedAreas(t *testing.T) {
	square := func(x, y, side float64) orb.Polygon {
		return orb.Polygon{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}, {x, y}}}
	}
	ring := square(0, 0, 10)
	ring = append(ring, square(2, 2, 6)[0])
	comb := orb.Polygon{{{0, 0}, {9, 0}, {9, 10}, {6, 10}, {6, 2}, {3, 2}, {3, 10}, {0, 10}, {0, 0}}}
	clockwise := comb.Clone()
	clockwise[0].Reverse()
	for name, c := range map[string]struct {
		a, b []orb.Polygon
		want float64
	}{
		"corner over corner":       {[]orb.Polygon{square(0, 0, 10)}, []orb.Polygon{square(7, 8, 10)}, 3 * 2},
		"the same":                 {[]orb.Polygon{square(0, 0, 10)}, []orb.Polygon{square(0, 0, 10)}, 100},
		"beside along an edge":     {[]orb.Polygon{square(0, 0, 10)}, []orb.Polygon{square(10, 0, 10)}, 0},
		"at a corner":              {[]orb.Polygon{square(0, 0, 10)}, []orb.Polygon{square(10, 10, 10)}, 0},
		"apart":                    {[]orb.Polygon{square(0, 0, 10)}, []orb.Polygon{square(20, 0, 10)}, 0},
		"apart in one window":      {[]orb.Polygon{square(0, 0, 1), square(9, 9, 1)}, []orb.Polygon{square(9, 0, 1), square(0, 9, 1)}, 0},
		"in the hole":              {[]orb.Polygon{ring}, []orb.Polygon{square(2, 2, 6)}, 0},
		"over the hole":            {[]orb.Polygon{ring}, []orb.Polygon{square(1, 1, 8)}, 64 - 36},
		"over two teeth of a comb": {[]orb.Polygon{comb}, []orb.Polygon{square(1, 5, 20)}, 2*5 + 3*5},
		"drawn clockwise":          {[]orb.Polygon{clockwise}, []orb.Polygon{square(1, 5, 20)}, 2*5 + 3*5},
		"parts over one another":   {[]orb.Polygon{square(0, 0, 10)}, []orb.Polygon{square(5, 0, 10), square(7, 0, 10)}, 50},
		"nothing":                  {nil, []orb.Polygon{square(0, 0, 10)}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			for _, pair := range [][2][]orb.Polygon{{c.a, c.b}, {c.b, c.a}} {
				got, err := Shared(pair[0], pair[1])
				require.NoError(t, err)
				require.InDelta(t, c.want, got, 1e-9)
			}
		})
	}
}
