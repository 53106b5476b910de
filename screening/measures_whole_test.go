package screening

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/geo/geojson"
	"waterward/rules"
)

// TestHowAStructureFollowsFromItsPlaces: a structure of two small pieces has the least, or
// the greatest, of what the pieces have, or their sum.
func TestHowAStructureFollowsFromItsPlaces(t *testing.T) {
	s := everything()
	job, err := LoadJob("job.yaml", strings.NewReader(layersOf(s, "")))
	require.NoError(t, err)
	layers, err := (&loader{files: s, log: &inputLog{}}).layers(job)
	require.NoError(t, err)
	of := func(kind, coordinates string) *site {
		f, err := geojson.ReadFeature("here", []byte(`{"type":"Feature","properties":{},"geometry":{"type":"`+kind+`","coordinates":`+coordinates+`}}`), nil)
		require.NoError(t, err)
		p := newProposal(f, ProposalsSource{File: "here"})
		require.NoError(t, p.err)
		return newSite(p, layers, nil, 1000*foot)
	}
	piece := func(x, y float64) string {
		_, rest, _ := strings.Cut(rectangle("", x, y, x+2, y+2), `"coordinates":`)
		return strings.TrimSuffix(rest, "}}")
	}
	told := map[string]bool{}
	for _, pair := range [][2][2]float64{{{-80, 12}, {-40, 40}}, {{-80, 2}, {30, 65}}, {{-60, 70}, {-20, 70}}} {
		a, b := piece(pair[0][0], pair[0][1]), piece(pair[1][0], pair[1][1])
		one, other, both := of("Polygon", a), of("Polygon", b), of("MultiPolygon", "["+a+","+b+"]")
		for _, r := range measureRecords {
			v, w, whole := one.values[r.name], other.values[r.name], both.values[r.name]
			if !r.place || v.Unknown+w.Unknown+whole.Unknown != "" || v.Bound+w.Bound != rules.Exact || math.Abs(v.Number-w.Number) < 0.1 {
				continue
			}
			is := alike
			switch low, high := math.Min(v.Number, w.Number), math.Max(v.Number, w.Number); {
			case math.Abs(whole.Number-low) < 0.01:
				is = least
			case math.Abs(whole.Number-high) < 0.01, math.Abs(whole.Number-low-high) < 0.01:
				is = greatest
			}
			require.Equal(t, r.whole, is, "%s is %v, of %v and %v", r.name, whole.Number, v.Number, w.Number)
			told[r.name] = true
		}
	}
	for _, r := range measureRecords {
		switch {
		case r.name == "in_area" || r.name == "channel_reach": // words and names
		case r.name == "waterway_width": // the least across what it occupies; the share follows
			require.Equal(t, least, r.whole)
		case r.name == "waterway_share":
			require.Equal(t, greatest, r.whole)
		case r.place:
			require.True(t, told[r.name], r.name)
		}
	}
}
