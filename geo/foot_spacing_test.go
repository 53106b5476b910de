package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/flat/flattest"
)

// TestStaggeredSills: two sills 60 ft long in two rows, 6 ft of clear water
// between the rows, overlap by 10 ft along the bank. The passage between them is
// an opening of 6 ft. Worked by hand.
func TestStaggeredSills(t *testing.T) {
	fp := sills(t, 4, []orb.Point{{0, 22}, {60, 22}}, []orb.Point{{50, 32}, {110, 32}})
	require.Len(t, fp.Links, 1)
	requireFeet(t, 6, fp.Links[0].Width, "between the rows")
	requireFeet(t, 60, fp.LongestRun(5*ft), "an opening of 5 ft counts")
	requireFeet(t, 126, fp.LongestRun(7*ft), "one of 7 ft would")
	requireFeet(t, 63, fp.OpeningSpacing(5*ft), "from an end to the middle of the opening")
	requireFeet(t, 126, fp.OpeningSpacing(7*ft), "from end to end")
	for name, shore := range map[string]*Lines{
		"one line":               NewLines(inFeet(orb.Point{-500, 0}, orb.Point{500, 0})),
		"two that meet":          NewLines(inFeet(orb.Point{-500, 0}, orb.Point{54, 0}), inFeet(orb.Point{54, 0}, orb.Point{500, 0})),
		"two, the second before": NewLines(inFeet(orb.Point{54, 0}, orb.Point{500, 0}), inFeet(orb.Point{-500, 0}, orb.Point{54, 0})),
	} {
		overlap, on := HomeBank(fp, shore).LongestOverlap()
		requireFeet(t, 10, overlap, name)
		// Between where the second begins and where the first ends.
		var line []orb.Point
		for _, s := range on {
			line = append(line, s.Points...)
		}
		bound := orb.LineString(line).Bound()
		requireFeet(t, 50, bound.Min[0], name)
		requireFeet(t, 60, bound.Max[0], name)
		require.InDelta(t, 0, bound.Max[1]-bound.Min[1], 1e-9, name)
	}
}

// TestOpeningSpacing: worked by hand, in feet.
func TestOpeningSpacing(t *testing.T) {
	along := func(stations ...float64) *Footprint { // where sills begin and end
		var lines [][]orb.Point
		for i := 0; i < len(stations); i += 2 {
			lines = append(lines, []orb.Point{{stations[i], 0}, {stations[i+1], 0}})
		}
		return sills(t, 3, lines...)
	}
	// Three sills run away from a middle one, whose openings are 5, 6 and 8 ft.
	star := sills(t, 2, []orb.Point{{0, 0}, {60, 0}}, []orb.Point{{-45, 0}, {-5, 0}},
		[]orb.Point{{66, 0}, {76, 0}}, []orb.Point{{30, 9}, {30, 19}})
	for _, c := range []struct {
		name          string
		fp            *Footprint
		opening, want float64
	}{
		{"one sill", along(0, 95), 5, 95},
		{"an opening in the middle", along(0, 45, 50, 95), 4.999, 47.5},
		{"too narrow", along(0, 45, 50, 95), 5.001, 95},
		{"between two openings", along(0, 10, 16, 76, 84, 90), 5, 60 + 3 + 4},
		{"a narrow one within", along(0, 10, 16, 46, 49, 76, 84, 90), 5, 60 + 3 + 4},
		{"an end is farther off", along(0, 70, 76, 96), 5, 73},
		{"the two widest of three", star, 5, 60 + 4 + 3},
		{"one of three too narrow", star, 5.5, 40 + 5 + 60 + 4 + 3},
	} {
		require.InDelta(t, c.want, c.fp.OpeningSpacing(c.opening*ft)/ft, 1e-6, c.name)
	}
	var parts []Element
	for _, x := range []float64{0, 12, 23} { // openings of 2 and 1
		e := Element{Areas: []orb.Polygon{flattest.Box(x, 0, x+10, 3)}, Length: 10}
		e.settle()
		parts = append(parts, e)
	}
	for limit, want := range map[float64]float64{1: 11.5, 1.5: 22, 2: 22, 2.001: 33} {
		require.Equal(t, want, assembled(parts).OpeningSpacing(limit), "an opening of exactly the width counts: %g", limit)
	}
}

// TestSpacingAgainstEveryPair: the run and the openings beside it from the clear
// widths between every two parts, as in TestRunsAgainstEveryPair.
func TestSpacingAgainstEveryPair(t *testing.T) {
	const slack = 3 * arcTolerance
	rapid.Check(t, func(t *rapid.T) {
		fp, widths, lengths := drawScatter(t)
		_, all := join(widths, math.Inf(1)) // narrowest first
		for i, link := range all {
			if link[0] > 0 && link[0] < 3*touching || i > 0 && link[0]-all[i-1][0] < 4*slack && link[0] > 0 {
				t.Skip("openings all but alike may be taken in either order")
			}
		}
		for i := range all {
			limit := all[i][0] + 2*slack
			group, _ := join(widths, limit)
			greatest := 0.0
			for run := range widths {
				length, first, second := 0.0, 0.0, 0.0
				for k, g := range group {
					if g == run {
						length += lengths[k]
					}
				}
				for _, link := range all {
					a, b := group[int(link[1])] == run, group[int(link[2])] == run
					switch {
					case a && b && link[0] < limit:
						length += link[0]
					case a || b:
						first, second = math.Max(first, link[0]), math.Max(second, math.Min(first, link[0]))
					}
				}
				greatest = math.Max(greatest, length+first/2+second/2)
			}
			require.InDelta(t, greatest, fp.OpeningSpacing(limit), 2*slack*float64(len(widths))+1e-6*greatest, "limit %g", limit)
		}
	})
}

// TestLongestOverlap: worked by hand, in feet.
func TestLongestOverlap(t *testing.T) {
	shore := NewLines(inFeet(orb.Point{-500, 0}, orb.Point{500, 0}))
	// The point of a right angle; both arms lie in the water.
	corner := NewLines(inFeet(orb.Point{0, 500}, orb.Point{0, 0}, orb.Point{500, 0}))
	for _, c := range []struct {
		name  string
		fp    *Footprint
		shore *Lines
		want  float64
	}{
		{"one sill", sills(t, 4, []orb.Point{{0, 20}, {60, 20}}), shore, 0},
		{"end to end", sills(t, 4, []orb.Point{{0, 20}, {60, 20}}, []orb.Point{{66, 20}, {126, 20}}), shore, 0},
		{"in two rows, clear of each other", sills(t, 4, []orb.Point{{0, 20}, {60, 20}}, []orb.Point{{62, 30}, {122, 30}}), shore, 0},
		{"one behind the other", sills(t, 4, []orb.Point{{0, 20}, {60, 20}}, []orb.Point{{10, 30}, {30, 30}}), shore, 20},
		{"the longest of two", sills(t, 4, []orb.Point{{0, 20}, {60, 20}}, []orb.Point{{50, 30}, {110, 30}}, []orb.Point{{95, 20}, {150, 20}}), shore, 15},
		// The first and the third overlap too, but are no neighbours.
		{"neighbours only", sills(t, 4, []orb.Point{{0, 20}, {60, 20}}, []orb.Point{{50, 30}, {70, 30}}, []orb.Point{{20, 40}, {68, 40}}), shore, 18},
		// Feet from (0, 40) to (30, 0) and, past the corner, from (20, 0) on.
		{"round a corner", sills(t, 2, []orb.Point{{3, 40}, {3, 4}, {30, 4}}, []orb.Point{{20, 12}, {70, 12}}), corner, 10},
	} {
		bank := HomeBank(c.fp, c.shore)
		overlap, on := bank.LongestOverlap()
		requireFeet(t, c.want, overlap, c.name)
		drawn := 0.0
		for _, s := range on {
			drawn += LengthTogether(s.Points)
		}
		requireFeet(t, c.want, drawn, c.name)
	}
}

// TestOverlapsOnAStraightBank: there the overlap is that of intervals, however
// the bank lies and wherever it has vertices.
func TestOverlapsOnAStraightBank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, c := math.Sincos(flattest.Within(t, -math.Pi, math.Pi, "heading"))
		turned := func(x, y float64) orb.Point { return orb.Point{x*c - y*s, x*s + y*c} }
		shore := []orb.Point{turned(-300, 0)}
		for x := -250.0; x < 250; x += flattest.Within(t, 1, 100, "step") {
			shore = append(shore, turned(x, 0))
		}
		shore = append(shore, turned(300, 0))
		var parts []Element
		var from, to []float64
		x, y := 0.0, 4.0
		for range rapid.IntRange(1, 5).Draw(t, "sills") {
			length := flattest.Within(t, 2, 30, "length")
			e := Element{Areas: []orb.Polygon{{{turned(x, y), turned(x+length, y), turned(x+length, y+2), turned(x, y+2), turned(x, y)}}}}
			e.settle()
			parts, from, to = append(parts, e), append(from, x), append(to, x+length)
			x += length - flattest.Within(t, -5, 20, "overlap")
			y += flattest.Within(t, 3, 5, "row")
		}
		fp := assembled(parts)
		require.Len(t, fp.Elements, len(parts))
		want := 0.0
		for _, l := range fp.Links {
			want = math.Max(want, math.Min(to[l.A], to[l.B])-math.Max(from[l.A], from[l.B]))
		}
		got, _ := HomeBank(fp, NewLines(shore)).LongestOverlap()
		require.InDelta(t, want, got, 1e-9)
	})
}
