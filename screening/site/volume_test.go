package site

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSection takes the section of a mound as what 100 ft more of it adds, ends
// and all: exact arithmetic of trapezoids, in feet; the cubic yards of a foot
// are the area over 27.
func TestSection(t *testing.T) {
	for _, c := range []struct{ crest, height, slope, area, cuyd float64 }{
		{4, 2, 1.5, 14, 0.51852},
		{3, 1.5, 2, 9, 0.33333},
		{6, 3, 2, 36, 1.33333},
	} {
		base := c.crest + 2*c.slope*c.height
		long, short := mound{length: 200, width: base}, mound{length: 100, width: base}
		area := (long.volume(c.height, c.slope) - short.volume(c.height, c.slope)) / 100
		require.InDelta(t, c.area, area, 1e-9)
		require.InDelta(t, c.cuyd, area/27, 5e-6)
	}
}

// TestMoundVolume: a crest of 50 by 4 ft, 2 ft high, sloped 1:1.5 all round, is
// 748 cubic feet by the prismoidal formula; averaging top and bottom would give
// 760. A cone of radius 6 and height 3 is 36 pi.
func TestMoundVolume(t *testing.T) {
	require.InDelta(t, 748, mound{length: 56, width: 10}.volume(2, 1.5), 1e-9)
	require.InDelta(t, 113.097335529, mound{width: 12, disc: true}.volume(3, 2), 1e-6)
}
