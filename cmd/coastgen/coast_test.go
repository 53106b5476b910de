package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// written is a coast on disk, and what is said of it.
func written(t testing.TB, of size, seed uint64) (dir, said string) {
	dir = t.TempDir()
	said, err := generate(of, seed, dir)
	require.NoError(t, err)
	return dir, said
}

func TestSeedDecidesEveryByte(t *testing.T) {
	one, _ := written(t, sizes["small"], 1)
	again, _ := written(t, sizes["small"], 1)
	two, _ := written(t, sizes["small"], 2)
	for _, name := range layerNames {
		read := func(dir string) []byte {
			text, err := os.ReadFile(filepath.Join(dir, name+".geojson"))
			require.NoError(t, err)
			return text
		}
		require.True(t, bytes.Equal(read(one), read(again)), name)
		require.False(t, bytes.Equal(read(one), read(two)), name)
	}
}

// TestDensities holds a coast to the figures that a county and a state are to have.
// Pieces of 300 km come within 7 %: they have some 400 stretches, of kinds and lengths
// by chance.
func TestDensities(t *testing.T) {
	for name, want := range map[string]struct{ km, mhw, mlw, grass, grassVertices, parcels, proposals float64 }{
		"county": {1500, 280000, 310000, 21500, 1.4e6, 57000, 5000},
		"state":  {13000, 2.5e6, 2.75e6, 165000, 10.7e6, 600000, 100000},
	} {
		of, share := sizes[name], 300/want.km
		of.km, of.proposals = 300, int(want.proposals*share)
		dir, _ := written(t, of, 3)
		near := func(want float64, layer string, got int) {
			require.InEpsilon(t, want*share, got, 0.07, "%s %s", name, layer)
		}
		near(want.mhw, "mhw", vertices(featuresOf(t, dir, "mhw")))
		near(want.mlw, "mlw", vertices(featuresOf(t, dir, "mlw")))
		grass := featuresOf(t, dir, "seagrass")
		near(want.grass, "seagrass", len(grass))
		near(want.grassVertices, "seagrass vertices", vertices(grass))
		near(want.parcels, "parcels", len(featuresOf(t, dir, "parcels")))
		require.Len(t, featuresOf(t, dir, "proposals"), of.proposals)
	}
}

func vertices(all []feature) (sum int) {
	for _, f := range all {
		for _, part := range f.shape.parts {
			for _, ring := range part {
				sum += len(ring)
			}
		}
	}
	return sum
}

func TestRunSaysOneLine(t *testing.T) {
	var said bytes.Buffer
	require.NoError(t, run([]string{"coastgen", "--km", "5", "--proposals", "7", "--out", t.TempDir()}, &said))
	require.Regexp(t, `^5 km of shore, mhw .*, proposals 7 \(\d+ vertices\)\n$`, said.String())
	require.ErrorContains(t, run([]string{"coastgen", "--size", "huge", "--out", t.TempDir()}, &said), `there is no size "huge"`)
}

// TestFar: settling puts the farthest place of an edge where it is asked, on a shore
// with a step; worked by hand.
func TestFar(t *testing.T) {
	f := site{at: point{0, 0}, along: point{1, 0}}
	// The right half of the shore lies 2 m farther in: the edge at 8 m is 10 m off there.
	shore := []point{{-50, 0}, {10, 0}, {10, -2}, {70, -2}}
	require.InDelta(t, 8, f.settle(shore, 40, 10), 1e-9)
}

// TestNoiseIsSmooth: between two draws it stays between them, and it repeats.
func TestNoiseIsSmooth(t *testing.T) {
	w := waves{7, 10, 3}
	for i := -5; i < 5; i++ {
		a, b := w.at(float64(i)*10), w.at(float64(i+1)*10)
		for x := 0.5; x < 10; x++ {
			require.GreaterOrEqual(t, w.at(float64(i)*10+x), min(a, b)-1e-12)
			require.LessOrEqual(t, w.at(float64(i)*10+x), max(a, b)+1e-12)
		}
	}
	require.NotEqual(t, w.at(0), waves{8, 10, 3}.at(0))
}

// BenchmarkScreenCounty is a whole run on the coast of a county: 5,000 proposals, 81 MB
// of layers, all outputs.
func BenchmarkScreenCounty(b *testing.B) {
	dir, _ := written(b, sizes["county"], 1)
	for b.Loop() {
		screened(b, dir)
	}
}
