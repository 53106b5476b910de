package site

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/sketchtest"
)

// TestHowAStructureFollowsFromItsPlaces: a structure of two small pieces has the least, or
// the greatest, of what the pieces have, or their sum.
func TestHowAStructureFollowsFromItsPlaces(t *testing.T) {
	s := sketchtest.Everything()
	j, err := job.Load("job.yaml", strings.NewReader(sketchtest.LayersOf(s, "")))
	require.NoError(t, err)
	mapped, err := (&layers.Loader{Files: s, Log: &inputs.Log{}}).Load(j)
	require.NoError(t, err)
	of := func(kind, coordinates string) *Site {
		f, err := geojson.ReadFeature("here", []byte(`{"type":"Feature","properties":{},"geometry":{"type":"`+kind+`","coordinates":`+coordinates+`}}`), nil)
		require.NoError(t, err)
		p := NewProposal(Alone(f, "here"))
		require.NoError(t, p.Err)
		return New(p, mapped, nil, 1000*job.Foot)
	}
	piece := func(x, y float64) string {
		_, rest, _ := strings.Cut(sketchtest.Rectangle("", x, y, x+2, y+2), `"coordinates":`)
		return strings.TrimSuffix(rest, "}}")
	}
	told := map[string]bool{}
	for _, pair := range [][2][2]float64{{{-80, 12}, {-40, 40}}, {{-80, 2}, {30, 65}}, {{-60, 70}, {-20, 70}}} {
		a, b := piece(pair[0][0], pair[0][1]), piece(pair[1][0], pair[1][1])
		one, other, both := of("Polygon", a), of("Polygon", b), of("MultiPolygon", "["+a+","+b+"]")
		for _, r := range records {
			v, w, whole := one.Values[r.Name], other.Values[r.Name], both.Values[r.Name]
			if !r.place || v.Unknown+w.Unknown+whole.Unknown != "" || v.Bound+w.Bound != rules.Exact || math.Abs(v.Number-w.Number) < 0.1 {
				continue
			}
			is := alike
			switch low, high := math.Min(v.Number, w.Number), math.Max(v.Number, w.Number); {
			case math.Abs(whole.Number-low) < 0.01:
				is = Least
			case math.Abs(whole.Number-high) < 0.01, math.Abs(whole.Number-low-high) < 0.01:
				is = Greatest
			}
			require.Equal(t, r.Whole, is, "%s is %v, of %v and %v", r.Name, whole.Number, v.Number, w.Number)
			told[r.Name] = true
		}
	}
	for _, r := range records {
		switch {
		case r.Name == "in_area" || r.Name == "channel_reach": // words and names
		case r.Name == "waterway_width": // the least across what it occupies; the share follows
			require.Equal(t, Least, r.Whole)
		case r.Name == "waterway_share":
			require.Equal(t, Greatest, r.Whole)
		case r.place:
			require.True(t, told[r.Name], r.Name)
		}
	}
}
