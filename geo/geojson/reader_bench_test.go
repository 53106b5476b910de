package geojson

import (
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// drawnCollection is the text of a layer of n features: areas, lines or points of so
// many positions with so many decimals, and five properties each.
func drawnCollection(n int, kind string, positions, decimals int) string {
	random := rand.New(rand.NewPCG(1, 2))
	var b strings.Builder
	b.WriteString(`{"type":"FeatureCollection","name":"drawn","features":[`)
	for i := range n {
		if i > 0 {
			b.WriteString(",\n")
		}
		fmt.Fprintf(&b, `{"type":"Feature","properties":{"OBJECTID":%d,"NAME":"Bed %d","CLASS":"Continuous","SURVEYED":"2024-06-01","ACRES":%.4f},"geometry":{"type":"%s","coordinates":`,
			i, i, 10*random.Float64(), kind)
		x, y := -82+random.Float64(), 27+random.Float64()
		at := func(k int) string {
			turn := 2 * math.Pi * float64(k%(positions-1)) / float64(positions-1)
			return fmt.Sprintf("[%.*f,%.*f]", decimals, x+0.001*math.Cos(turn), decimals, y+0.001*math.Sin(turn))
		}
		if kind == "Point" {
			b.WriteString(fmt.Sprintf("[%.*f,%.*f]", decimals, x, decimals, y))
		} else {
			all := make([]string, positions)
			for k := range all {
				all[k] = at(k)
			}
			text := "[" + strings.Join(all, ",") + "]"
			if kind == "Polygon" {
				text = "[" + text + "]"
			}
			b.WriteString(text)
		}
		b.WriteString("}}")
	}
	b.WriteString("]}\n")
	return b.String()
}

func BenchmarkReader(b *testing.B) {
	for _, c := range []struct {
		name, kind                    string
		features, positions, decimals int
		lent                          bool
	}{
		{"areas", "Polygon", 5000, 65, 7, false},
		{"areas, lent", "Polygon", 5000, 65, 7, true},
		{"areas of 15 decimals", "Polygon", 5000, 65, 15, false},
		{"one long line", "LineString", 1, 500_000, 7, false},
		{"lines", "LineString", 5000, 40, 7, false},
		{"points", "Point", 50_000, 1, 7, false},
	} {
		b.Run(c.name, func(b *testing.B) {
			text := drawnCollection(c.features, c.kind, c.positions+1, c.decimals)
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				r, err := NewReader("drawn", strings.NewReader(text))
				require.NoError(b, err)
				if c.lent {
					r.Lend()
				}
				n := 0
				for f, err := r.Next(); err != io.EOF; f, err = r.Next() {
					require.NoError(b, err)
					if f.Err != nil {
						b.Fatal(f.Err)
					}
					n++
				}
				require.Equal(b, c.features, n)
			}
		})
	}
}
