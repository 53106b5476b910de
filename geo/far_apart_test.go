package geo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/crs"
	"waterward/testdata/published"
)

// TestOneLayerEightDegreesWide builds one layer with a shore at either end and
// measures a structure some 500 ft across at each. The tip of the shore is the
// foot of every reach, so the true distances are geodesics from tip to corner
// (testdata/published/far_apart.csv; for the first row
// echo "30.3 -88 30.3002 -88.0001" | GeodSolve -i -p 6).
func TestOneLayerEightDegreesWide(t *testing.T) {
	// Corners of the structure and ends of the shore, degrees from the tip;
	// at the east end all is turned by 180 degrees.
	shore := []orb.Point{{-0.003, -0.0025}, {0, 0}, {0.003, -0.0025}}
	structure := []orb.Point{{-0.0001, 0.0002}, {0.0004, 0.0006}, {-0.0004, 0.0015}, {-0.0008, 0.0009}, {-0.0001, 0.0002}}
	placed := func(line []orb.Point, tip orb.Point, turn float64) []orb.Point {
		out := make([]orb.Point, len(line))
		for i, p := range line {
			out[i] = orb.Point{tip[0] + turn*p[0], tip[1] + turn*p[1]}
		}
		return out
	}
	tips := map[string]orb.Point{"west": {-88, 30.3}, "east": {-80, 25.7}}
	turns := map[string]float64{"west": 1, "east": -1}
	var b LayerBuilder
	b.AddLine(placed(shore, tips["west"], 1))
	b.AddLine(placed(shore, tips["east"], -1))
	layer := b.Build(true)
	bound, ok := layer.Bound()
	require.True(t, ok)
	require.InDelta(t, 8, bound.Max[0]-bound.Min[0], 0.01)
	for _, row := range published.Table(t, "far_apart.csv") {
		t.Run(row["site"]+" "+row["reach"], func(t *testing.T) {
			fp, err := NewFootprint(orb.Polygon{placed(structure, tips[row["site"]], turns[row["site"]])}, 0, 0)
			require.NoError(t, err)
			degrees := orb.MultiPoint{fp.Plane.Inverse(fp.Bound.Min), fp.Plane.Inverse(fp.Bound.Max)}.Bound()
			lines := layer.Near(fp.Plane, crs.Window(degrees, 1000*ft))
			require.Len(t, lines.ByItem(), 1, "the other end is not near")
			got := fp.Least(lines)
			if row["reach"] == "farthest" {
				got = fp.Farthest(lines)
			}
			require.InDelta(t, published.Number(t, row["metres"]), got.Distance, 0.01*ft)
			require.Equal(t, row["site"], []string{"west", "east"}[lines.Item(got.Foot)])
		})
	}
}
