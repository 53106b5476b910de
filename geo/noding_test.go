package geo

import (
	"cmp"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// slowlyNoded cuts edges where they meet by looking at every two in every round, edges
// being known by their positions alone.
func slowlyNoded(edges map[ringEdge]flanks, parity bool, snap float64) map[ringEdge]flanks {
	var known []orb.Point
	stands := func(p orb.Point) orb.Point {
		for _, q := range known {
			if distance(p, q) <= snap {
				return q
			}
		}
		known = append(known, p)
		return p
	}
	inOrder := func() []ringEdge {
		return slices.SortedFunc(maps.Keys(edges), func(e, f ringEdge) int { return cmp.Or(byPosition(e.a, f.a), byPosition(e.b, f.b)) })
	}
	for moved := true; ; moved = false {
		all, found := inOrder(), moved
		next := map[ringEdge]flanks{}
		for _, e := range all {
			var places []orb.Point
			for _, f := range all {
				switch first := cmp.Or(byPosition(e.a, f.a), byPosition(e.b, f.b)) < 0; {
				case moved || e == f: // ends are moved first
				case first:
					on, _ := meet(e, f, snap)
					places = append(places, on...)
				default:
					_, on := meet(f, e, snap)
					places = append(places, on...)
				}
			}
			found = found || len(places) > 0
			slices.SortStableFunc(places, func(p, q orb.Point) int { return cmp.Compare(e.along(p), e.along(q)) })
			from := stands(e.a)
			for _, p := range append(places, e.b) {
				to := stands(p)
				drawOn(next, from, to, edges[e], parity)
				from = to
			}
		}
		edges = next
		if !found {
			return edges
		}
	}
}

func drawOn(edges map[ringEdge]flanks, a, b orb.Point, drawn flanks, parity bool) {
	if byPosition(a, b) > 0 {
		a, b, drawn = b, a, drawn.reversed()
	}
	if _, again := edges[ringEdge{a, b}]; again && parity {
		delete(edges, ringEdge{a, b})
	} else if a != b {
		e := edges[ringEdge{a, b}]
		edges[ringEdge{a, b}] = flanks{e.mark | drawn.mark, e.turn + drawn.turn}
	}
}

// Lines anywhere, on a small grid and next to it in the last bits, drawn over one
// another, are cut as by looking at every two edges; edges come in order, each once.
func TestNodingCutsAsLookingAtEveryTwoEdges(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	cut := 0
	for n := range 600 {
		position := func() orb.Point {
			switch n % 3 {
			case 0:
				return orb.Point{100 * r.Float64(), 100 * r.Float64()}
			case 1:
				return orb.Point{float64(r.IntN(8)), float64(r.IntN(8))}
			}
			return orb.Point{float64(r.IntN(6)) + 1e-13*float64(r.IntN(40)), float64(r.IntN(6)) + 1e-13*float64(r.IntN(40))}
		}
		var d drawing
		drawn := map[ringEdge]flanks{}
		parity := r.IntN(2) == 0
		for range 1 + r.IntN(6) {
			var line []orb.Point
			m := flanks{mark(r.IntN(int(freshMark))), int32(r.IntN(5) - 2)}
			if parity {
				m = flanks{}
			}
			for range 2 + r.IntN(6) {
				line = append(line, position())
			}
			d.add(line, m)
			for i := 1; i < len(line); i++ {
				drawOn(drawn, line[i-1], line[i], m, parity)
			}
		}
		set := d.set(parity)
		require.Len(t, set.edges, len(drawn))
		want := slowlyNoded(drawn, parity, set.snap())
		got, err := set.noded()
		require.NoError(t, err)
		require.Len(t, got.edges, len(want))
		for i, e := range got.edges {
			m, known := want[got.line(i)]
			require.True(t, known)
			e.mark &^= freshMark
			require.Equal(t, m, e.flanks)
			if i > 0 {
				require.Negative(t, got.compare(got.edges[i-1], e))
			}
		}
		cut += len(want) - len(drawn)
	}
	require.Greater(t, cut, 10_000)
}
