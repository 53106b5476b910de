package area

import (
	"cmp"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat"
)

// slowlyNoded cuts edges where they meet by looking at every two in every round, edges
// being known by their positions alone.
func slowlyNoded(edges map[flat.Edge]flanks, parity bool, snap float64) map[flat.Edge]flanks {
	var known []orb.Point
	stands := func(p orb.Point) orb.Point {
		for _, q := range known {
			if flat.Distance(p, q) <= snap {
				return q
			}
		}
		known = append(known, p)
		return p
	}
	inOrder := func() []flat.Edge {
		return slices.SortedFunc(maps.Keys(edges), func(e, f flat.Edge) int { return cmp.Or(flat.ByPosition(e.A, f.A), flat.ByPosition(e.B, f.B)) })
	}
	for moved := true; ; moved = false {
		all, found := inOrder(), moved
		next := map[flat.Edge]flanks{}
		for _, e := range all {
			var places []orb.Point
			for _, f := range all {
				switch first := cmp.Or(flat.ByPosition(e.A, f.A), flat.ByPosition(e.B, f.B)) < 0; {
				case moved || e == f: // ends are moved first
				case first:
					on, _ := flat.Meet(e, f, snap)
					places = append(places, on...)
				default:
					_, on := flat.Meet(f, e, snap)
					places = append(places, on...)
				}
			}
			found = found || len(places) > 0
			slices.SortStableFunc(places, func(p, q orb.Point) int { return cmp.Compare(e.Along(p), e.Along(q)) })
			from := stands(e.A)
			for _, p := range append(places, e.B) {
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

func drawOn(edges map[flat.Edge]flanks, a, b orb.Point, drawn flanks, parity bool) {
	if flat.ByPosition(a, b) > 0 {
		a, b, drawn = b, a, drawn.reversed()
	}
	if _, again := edges[flat.Edge{A: a, B: b}]; again && parity {
		delete(edges, flat.Edge{A: a, B: b})
	} else if a != b {
		e := edges[flat.Edge{A: a, B: b}]
		edges[flat.Edge{A: a, B: b}] = flanks{e.mark | drawn.mark, e.turn + drawn.turn}
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
		drawn := map[flat.Edge]flanks{}
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
		left := mostEdges
		got, err := set.noded(&left)
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
