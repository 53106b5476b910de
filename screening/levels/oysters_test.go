package levels

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked by hand: three clumps 111, 222 and 333 m north of the site.
func TestLivingOysters(t *testing.T) {
	clumps, err := ReadClumps([]byte("date,lon,lat,top_ft,bottom_ft,datum\n2025-05-01,-82,28.03,9,8,MLLW\n2025-05-01,-82,28.001,2,1,MLLW\n2025-06-01,-82,28.002,1,-0.5,NAVD\n"))
	require.NoError(t, err)
	s := &Station{ID: "1", Datums: map[Datum]float64{MLLW: 0, NAVD88: Feet.Metres(2)}}
	l, err := LivingNear(Place{-82, 28}, clumps, s, MLLW)
	require.NoError(t, err)
	require.Equal(t, 2, l.Count)
	require.InDelta(t, 2.5, Feet.from(l.Top), 1e-9) // 2 ft, and 1 ft above NAVD88 which is 3 ft above MLLW
	require.InDelta(t, 1.25, Feet.from(l.Bottom), 1e-9)
	require.InDelta(t, 111.2, l.Nearest, 0.1)
	require.InDelta(t, 222.4, l.Farthest, 0.1)
	require.Equal(t, []string{"2025-05-01", "2025-06-01"}, l.Dates)
	require.False(t, l.Disagrees(Feet.Metres(3), Feet.Metres(0.75)))
	require.True(t, l.Disagrees(Feet.Metres(3.001), Feet.Metres(1.25)))
	require.True(t, l.Disagrees(Feet.Metres(2.5), Feet.Metres(0.749)))

	l, err = LivingNear(Place{-82, 28}, append(clumps, clumps[1], clumps[1], clumps[2], clumps[2]), s, MLLW)
	require.NoError(t, err)
	require.Equal(t, clumpsAsked, l.Count)
	require.InDelta(t, (3*2+2*3)/5.0, Feet.from(l.Top), 1e-9) // the three nearest, and two of the next
	l, err = LivingNear(Place{-82, 28.05}, clumps, s, MLLW)   // 2,200 m from the nearest
	require.NoError(t, err)
	require.Nil(t, l)
	_, err = LivingNear(Place{-82, 28}, clumps, &Station{ID: "1", Datums: map[Datum]float64{MLLW: 0}}, MLLW)
	require.ErrorContains(t, err, "line 4: station 1 has no tie to NAVD88")
}

func TestOystersRefused(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "no header"},
		{"lon,lat,top,bottom,datum\n-82,28,2,1,MLLW\n", "line 2: no unit is stated"},
		{"lon,lat,top_ft,bottom_ft,unit,datum\n-82,28,2,1,m,MLLW\n", "line 2: top_ft stands beside the unit m"},
		{"lon,lat,top_ft,top_m,bottom_ft,datum\n-82,28,2,0.6,1,MLLW\n", "line 2: top_ft and top_m are both given"},
		{"lon,lat,top_ft,bottom_ft\n-82,28,2,1\n", "line 2: no vertical datum"},
		{"lat,top_ft,bottom_ft,datum\n28,2,1,MLLW\n", `line 2: lon: "" is not a number`},
		{"lon,lon,top_ft,bottom_ft,datum\n", "lon is there twice"},
		{"lon,lat,top_ft,bottom_ft,datum\n", "no rows"},
		{"lon,lat,top,bottom,unit,datum\n-82,28,2,1,,MLLW\n", "line 2: no unit"},
		{"lon,lat,top_ft,bottom_ft,datum\n-82,28,2,1,\n", "line 2: no vertical datum"},
		{"lon,lat,top_ft,bottom_ft,datum\n-82,28,2,1,LAT\n", `"LAT" is not a datum`},
		{"lon,lat,top_ft,bottom_ft,datum\n-82,28,,1,MLLW\n", "line 2: top is missing"},
		{"lon,lat,top_ft,bottom_ft,datum\n-82,28,1,2,MLLW\n", "line 2: the top is not above the bottom"},
		{"lon,lat,top_ft,bottom_ft,datum\n28,-282,2,1,MLLW\n", "no place"},
		{"lon,lat,top_ft,bottom_ft,datum\n28\n", "not a table"},
	} {
		_, err := ReadClumps([]byte(c.text))
		require.ErrorContains(t, err, c.says, c.text)
	}
	require.ErrorContains(t, Clump{Label: "a"}.check(), "the elevations have no datum")
	require.ErrorContains(t, Clump{Label: "a", Datum: MSL, Top: math.NaN()}.check(), "both needed")
}
