package geo

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// drawScatter returns a footprint of discs or short straight strips and, from
// plain formulas, the clear width between every two of its parts.
func drawScatter(t *rapid.T) (*Footprint, [][]float64, []float64) {
	n := rapid.IntRange(2, 7).Draw(t, "parts")
	size := flattest.Within(t, 0.5, 4, "size")
	discs := rapid.Bool().Draw(t, "discs")
	var points orb.MultiPoint
	var lines orb.MultiLineString
	var shapes []orb.Ring
	lengths := make([]float64, n)
	for i := range n {
		p := orb.Point{flattest.Within(t, 0, 40, "x"), flattest.Within(t, 0, 40, "y")}
		length, heading := flattest.Within(t, 1, 12, "length"), flattest.Within(t, 0, math.Pi, "heading")
		s, c := math.Sincos(heading)
		q := orb.Point{p[0] + length*c, p[1] + length*s}
		u := orb.Point{-s * size / 2, c * size / 2}
		points = append(points, site.Inverse(p))
		lines = append(lines, orb.LineString{site.Inverse(p), site.Inverse(q)})
		lengths[i] = length
		if discs {
			shapes, lengths[i] = append(shapes, orb.Ring{p}), size
			continue
		}
		shapes = append(shapes, orb.Ring{
			{p[0] - u[0], p[1] - u[1]}, {q[0] - u[0], q[1] - u[1]},
			{q[0] + u[0], q[1] + u[1]}, {p[0] + u[0], p[1] + u[1]}, {p[0] - u[0], p[1] - u[1]},
		})
	}
	var g orb.Geometry = lines
	if discs {
		g = points
	}
	widths := make([][]float64, n)
	for i := range n {
		widths[i] = make([]float64, n)
		for j := range n {
			widths[i][j] = clear(shapes[i], shapes[j], size, discs)
		}
	}
	fp, err := NewFootprint(g, size, size)
	if err != nil {
		t.Fatalf("a valid structure is refused: %v", err)
	}
	return fp, widths, lengths
}

func clear(a, b orb.Ring, diameter float64, discs bool) float64 {
	if discs {
		return math.Max(0, flat.Distance(a[0], b[0])-diameter)
	}
	if flattest.EvenOdd(a[0], b) || flattest.EvenOdd(b[0], a) {
		return 0
	}
	least := math.Inf(1)
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			least = math.Min(least, gap(a[i-1], a[i], b[j-1], b[j]))
		}
	}
	return least
}

// join joins parts by openings narrower than limit, narrowest first (Kruskal),
// and returns for each part its group, and the openings taken.
func join(widths [][]float64, limit float64) ([]int, [][3]float64) {
	var pairs [][3]float64
	group := make([]int, len(widths))
	for i := range widths {
		group[i] = i
		for j := range i {
			pairs = append(pairs, [3]float64{widths[i][j], float64(i), float64(j)})
		}
	}
	slices.SortFunc(pairs, func(a, b [3]float64) int { return slices.Compare(a[:], b[:]) })
	var taken [][3]float64
	for _, p := range pairs {
		a, b := group[int(p[1])], group[int(p[2])]
		if a == b || p[0] >= limit {
			continue
		}
		taken = append(taken, p)
		for i := range group {
			if group[i] == b {
				group[i] = a
			}
		}
	}
	return group, taken
}

// TestRunsAgainstEveryPair: parts that touch are one element; the openings are
// the minimum spanning tree of the clear widths; a run is a single-linkage
// cluster with the openings that join it.
func TestRunsAgainstEveryPair(t *testing.T) {
	const slack = 3 * arcTolerance // two arcs may each be drawn that much inside
	rapid.Check(t, func(t *rapid.T) {
		fp, widths, lengths := drawScatter(t)
		for i := range widths {
			for j := range i {
				if w := widths[i][j]; w > 0 && w < 3*touching {
					t.Skip("parts that all but touch may or may not be one element")
				}
			}
		}
		group, _ := join(widths, touching)
		elements := map[int]bool{}
		for _, g := range group {
			elements[g] = true
		}
		require.Len(t, fp.Elements, len(elements))
		_, all := join(widths, math.Inf(1))
		total, openings := 0.0, []float64{}
		for _, l := range lengths {
			total += l
		}
		require.InDelta(t, total, fp.Length(), 1e-6*total+1e-6)
		for _, link := range all {
			total += link[0]
			if link[0] > touching {
				openings = append(openings, link[0])
			}
		}
		require.InDelta(t, total, fp.OverallLength(), slack*float64(len(widths))+1e-6*total)
		require.Len(t, fp.Links, len(elements)-1)
		for i, link := range fp.Links {
			require.InDelta(t, openings[i], link.Width, slack, "opening %d", i)
			require.InDelta(t, link.Width, flat.Distance(link.From, link.To), 1e-9)
		}
		// Limits halfway between neighbouring openings, and beyond the ends.
		limits := []float64{touching * 1.5, 1000}
		for i := 1; i < len(openings); i++ {
			if openings[i]-openings[i-1] > 4*slack {
				limits = append(limits, (openings[i]+openings[i-1])/2)
			}
		}
		for _, limit := range limits {
			group, taken := join(widths, limit)
			run := map[int]float64{}
			for i, g := range group {
				run[g] += lengths[i]
			}
			for _, link := range taken {
				run[group[int(link[1])]] += link[0]
			}
			longest := 0.0
			for _, l := range run {
				longest = math.Max(longest, l)
			}
			require.InDelta(t, longest, fp.LongestRun(limit), slack*float64(len(widths))+1e-6*longest, "limit %g", limit)
		}
	})
}

// TestOpeningOfExactlyTheLimit counts as an opening: worked by hand.
func TestOpeningOfExactlyTheLimit(t *testing.T) {
	parts := []Element{}
	for _, x := range []float64{0, 12, 23} { // openings of 2 and 1
		e := Element{Areas: []orb.Polygon{flattest.Box(x, 0, x+10, 3)}, Length: 10}
		e.settle()
		parts = append(parts, e)
	}
	fp := &Footprint{Elements: connect(parts)}
	fp.Links = spanningTree(fp.Elements)
	for limit, want := range map[float64]float64{0.5: 10, 1: 10, 1.5: 21, 2: 21, 2.001: 33, 100: 33} {
		require.Equal(t, want, fp.LongestRun(limit), "openings of %g", limit)
	}
	require.Equal(t, 33.0, fp.OverallLength())
	require.Equal(t, []float64{1, 2}, []float64{fp.Links[0].Width, fp.Links[1].Width}, "narrowest first")
}
