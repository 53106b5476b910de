package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// sills is a footprint of strips drawn in feet in the plane, put together as
// that of a proposal is.
func sills(t require.TestingT, width float64, lines ...[]orb.Point) *Footprint {
	var parts []Element
	for _, line := range lines {
		points := inFeet(line...)
		area, err := stripArea(points, width*ft/2)
		require.NoError(t, err)
		e := Element{Areas: area, Lines: [][]orb.Point{points}, pieces: strip(points, width*ft/2)}
		for i := 1; i < len(points); i++ {
			e.Length += flat.Distance(points[i-1], points[i])
		}
		e.settle()
		parts = append(parts, e)
	}
	return assembled(parts)
}

func assembled(parts []Element) *Footprint {
	fp := &Footprint{Elements: connect(parts)}
	fp.Links = spanningTree(fp.Elements)
	return fp
}

// discsFeet is a footprint of discs, drawn in feet in the plane.
func discsFeet(diameter float64, centres ...orb.Point) *Footprint {
	var parts []Element
	for _, c := range inFeet(centres...) {
		e := Element{Areas: []orb.Polygon{disc(c, diameter*ft/2)}, Lines: [][]orb.Point{{c, c}}, Discs: true, Length: diameter * ft}
		e.settle()
		parts = append(parts, e)
	}
	return assembled(parts)
}

func polygonFeet(rings ...[]orb.Point) *Footprint {
	var polygon orb.Polygon
	for _, ring := range rings {
		polygon = append(polygon, orb.Ring(inFeet(append(ring, ring[0])...)))
	}
	return drawn([]orb.Polygon{polygon})
}

// TestLandwardEdge: a shore along y = 0 with the water north of it, lengths in
// feet. Worked by hand.
func TestLandwardEdge(t *testing.T) {
	shore := [][]orb.Point{{{-1000, 0}, {1000, 0}}}
	// A headland that ends in a point at (0, 0). Off it the foot is that
	// point, and y = 28 faces it as far out as |x| = 28, where it is the root of
	// 2 times as far off.
	headland := [][]orb.Point{{{-200, -1000}, {0, 0}, {200, -1000}}}
	creek := [][]orb.Point{{{-200, 1000}, {0, 0}, {200, 1000}}}
	// The water is in the corner. Of an edge from (20, 5) to (98, 30), what lies
	// nearer to the wall does not face it: from (76.797, 23.203) on.
	corner := [][]orb.Point{{{-500, 0}, {100, 0}, {100, 500}}}
	// A rock 2 ft beside a groin, which faces it as far as 2 ft past its ends.
	rock := [][]orb.Point{{{-1000, 0}, {1000, 0}}, clockwise(-1, 39.5, 0, 40.5)}
	straight := 100 / math.Hypot(100, 20)
	const past45 = 0.05 // what facingCos lets in past 45 degrees
	for _, c := range []struct {
		name  string
		fp    *Footprint
		shore [][]orb.Point
		want  float64
		over  float64 // how much more it may be
	}{
		{"a rectangle", boxFeet(0, 28, 100, 36), shore, 28, 0},
		{"drawn clockwise", polygonFeet([]orb.Point{{0, 28}, {0, 36}, {100, 36}, {100, 28}}), shore, 28, 0},
		{"a strip", sills(t, 8, []orb.Point{{100, 32}, {0, 32}}), shore, 28, 0},
		{"oblique, from 20 to 40 ft", sills(t, 6, []orb.Point{{0, 20}, {100, 40}}), shore, 40 - 3*straight, 0},
		{"bent to the land", sills(t, 6, []orb.Point{{-100, 40}, {0, 20}, {100, 40}}), shore, 40 - 3*straight, 0},
		{"bent to the water", sills(t, 6, []orb.Point{{-100, 20}, {0, 40}, {100, 20}}), shore, 40 - 3/straight, 0},
		{"with returns to the land", polygonFeet([]orb.Point{{0, 5}, {8, 5}, {8, 28}, {92, 28}, {92, 5}, {100, 5}, {100, 36}, {0, 36}}), shore, 28, 0},
		{"a notch in the waterward edge", polygonFeet([]orb.Point{{0, 28}, {100, 28}, {100, 36}, {60, 36}, {60, 31}, {40, 31}, {40, 36}, {0, 36}}), shore, 28, 0},
		{"a notch in the landward edge", polygonFeet([]orb.Point{{0, 28}, {40, 28}, {40, 31}, {60, 31}, {60, 28}, {100, 28}, {100, 36}, {0, 36}}), shore, 31, 0},
		{"a hole does not count", polygonFeet([]orb.Point{{0, 2}, {40, 2}, {40, 42}, {0, 42}}, []orb.Point{{5, 7}, {5, 37}, {35, 37}, {35, 7}}), shore, 2, 0},
		{"a hair of an edge the wrong way round", polygonFeet([]orb.Point{{0, 28}, {100, 28}, {100, 36}, {50, 36}, {50, 35.9999}, {50.001, 35.9999}, {50.001, 35.9998}, {0, 35.9998}}), shore, 28, 0},
		{"a groin, whose end faces", boxFeet(0, 5, 8, 60), shore, 5, 0},
		{"a slanting groin, whose end faces", sills(t, 6, []orb.Point{{0, 5}, {30, 57}}), shore, 5 + 3*30/math.Hypot(30, 52), 0},
		{"a wedge, no edge of which faces", polygonFeet([]orb.Point{{0, 10}, {5, 30}, {-5, 30}}), shore, 10, 0},
		{"straddling the line", boxFeet(10, -3, 60, 9), shore, -3, 0},
		{"straddling it aslant", polygonFeet([]orb.Point{{0, -4}, {100, 6}, {100, 12}, {0, 2}}), shore, 6, 0},
		{"on land", boxFeet(10, -9, 60, -4), shore, -9, 0},
		{"its edge on the line", boxFeet(10, 0, 60, 9), shore, 0, 0},
		{"its far edge on the line", boxFeet(10, -9, 60, 0), shore, -9, 0},
		{"a headland", boxFeet(-60, 28, 60, 36), headland, 28 * math.Sqrt2, past45},
		// Within the point, both of its shores run within 12 degrees of north: the
		// sides face away from the land and the south end not enough, so what
		// counts is how deep in the land its deepest place, (0, -36), lies.
		{"on a headland", boxFeet(-3, -36, 3, -28), headland, -36 / math.Sqrt(26), 0},
		{"on land above the head of a creek", boxFeet(-60, -36, 60, -28), creek, -36, 0},
		{"in a corner", polygonFeet([]orb.Point{{20, 5}, {98, 30}, {98, 38}, {20, 13}}), corner, 5 + 25.0/78*(76.797-20), 0},
		{"a rock beside a groin", boxFeet(2, 1, 8, 61), rock, 2 * math.Sqrt2, past45},
		{"a row of discs", discsFeet(4, orb.Point{0, 20}, orb.Point{10, 24}, orb.Point{20, 23}), shore, 22, arcTolerance / ft},
		{"discs that touch", discsFeet(4, orb.Point{0, 20}, orb.Point{4, 20}, orb.Point{7, 22}), shore, 20, arcTolerance / ft},
		{"two rows of discs that touch", discsFeet(4, orb.Point{0, 20}, orb.Point{4, 20}, orb.Point{0, 24}, orb.Point{4, 24}), shore, 18, arcTolerance / ft},
		{"a disc astride the line", discsFeet(4, orb.Point{0, 1}), shore, -1, arcTolerance / ft},
		{"several elements", sills(t, 6, []orb.Point{{0, 20}, {60, 20}}, []orb.Point{{70, 24}, {120, 24}}, []orb.Point{{130, 9}, {150, 9}}), shore, 21, 0},
		{"two rows that touch", sills(t, 8, []orb.Point{{0, 24}, {60, 24}}, []orb.Point{{0, 32}, {60, 32}}), shore, 20, 0},
		{"two rows all but touching", sills(t, 8, []orb.Point{{0, 24}, {60, 24}}, []orb.Point{{0, 32.0014}, {60, 32.0015}}), shore, 20, 0},
		{"two rows that overlap", sills(t, 8, []orb.Point{{0, 24}, {60, 24}}, []orb.Point{{0, 30}, {60, 30}}), shore, 20, 0},
		{"the row behind sticks out by rounding", sills(t, 8, []orb.Point{{0, 24}, {60, 24}}, []orb.Point{{0, 32}, {60.001, 32}}), shore, 20, 0},
		{"the row behind is longer", sills(t, 8, []orb.Point{{0, 24}, {60, 24}}, []orb.Point{{0, 32}, {61, 32}}), shore, 28, 0},
		{"a line without a width", drawn(nil, inFeet(orb.Point{0, 20}, orb.Point{60, 30})), shore, 20, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			var lines [][]orb.Point
			for _, line := range c.shore {
				lines = append(lines, inFeet(line...))
			}
			shore := NewLines(lines...)
			got := c.fp.landwardEdge(shore)
			require.InDelta(t, c.want+c.over/2, got.Distance/ft, 0.001001+c.over/2)
			signed, _ := shore.Signed(got.At)
			require.InDelta(t, signed, got.Distance, 1e-9, "what it says at its witness point")
			require.InDelta(t, math.Abs(got.Distance), flat.Distance(got.At, got.Foot.At), 1e-9, "between its witness points")
		})
	}
	require.Equal(t, math.Inf(1), boxFeet(0, 28, 100, 36).landwardEdge(NewLines()).Distance, "no lines")
}

// TestEndsNeverFace: a rectangle 8 ft wide, 28 ft off a straight shore, is 28 ft
// off by its landward edge however slightly it is tilted and wherever the shore
// has vertices. Tilted about its western landward corner it reaches 28 ft and
// 100 ft times the sine. Worked by hand.
func TestEndsNeverFace(t *testing.T) {
	var dense []orb.Point
	for x := -1000.0; x <= 1000; x += 2.5 {
		dense = append(dense, orb.Point{x, 1e-9 * math.Sin(x)}) // as if rounded
	}
	for name, shore := range map[string]*Lines{
		"two vertices": NewLines(inFeet(orb.Point{-1000, 0}, orb.Point{1000, 0})),
		"many":         NewLines(inFeet(dense...)),
	} {
		for _, tilt := range []float64{0, 1e-12, 1e-9, 1e-7, 1e-5, 1e-3, 0.01, 0.05} {
			for _, sign := range []float64{1, -1} {
				s, c := math.Sincos(sign * tilt)
				var ring []orb.Point
				for _, p := range []orb.Point{{0, 0}, {100, 0}, {100, 8}, {0, 8}} {
					ring = append(ring, orb.Point{p[0]*c - p[1]*s, 28 + p[0]*s + p[1]*c})
				}
				got := polygonFeet(ring).landwardEdge(shore)
				require.InDelta(t, 28+math.Max(0, 100*s), got.Distance/ft, 0.001001, "%s, tilt %g", name, sign*tilt)
			}
		}
	}
}

// TestEdgesAtTheLimit: the lower sides of a square that stands on its corner
// face the shore at 45 degrees, and count though their positions are rounded to
// 9 decimals of a degree; turned by one degree, one of them does not. Worked by
// hand.
func TestEdgesAtTheLimit(t *testing.T) {
	round := func(line []orb.Point) orb.Ring {
		for i, p := range line {
			line[i] = orb.Point{math.Round(p[0]*1e9) / 1e9, math.Round(p[1]*1e9) / 1e9}
		}
		return append(line, line[0])
	}
	for _, turn := range []float64{0, 1} {
		ring := []orb.Point{}
		for i := range 4 { // from the lowest corner, 20 ft a side
			s, c := math.Sincos(math.Pi*(float64(i)-1)/2 + turn*crs.PerDegree)
			r := 20 / math.Sqrt2
			ring = append(ring, orb.Point{r * c, 10 + r + r*s})
		}
		fp, err := NewFootprint(orb.Polygon{round(onSite(ring))}, 0, 0)
		require.NoError(t, err)
		var shore []orb.Point
		for _, p := range onSite([]orb.Point{{-500, 0}, {500, 0}}) {
			shore = append(shore, fp.Plane.Forward(p))
		}
		// Turned, its eastern lower side rises by 46 degrees and its western
		// one by 44.
		want := 10 + 20/math.Sqrt2
		if turn > 0 {
			want = ring[3][1]
		}
		require.InDelta(t, want, fp.landwardEdge(NewLines(shore)).Distance/ft, 0.002, "turned by %g degrees", turn)
	}
}

// TestLandwardEdgeAgainstSamples walks the outlines at small steps. What faces
// the line is told by how fast the signed distance falls straight out of the
// outline, and the side of a point by whether a ray from it crosses the shore.
func TestLandwardEdgeAgainstSamples(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fp := drawStructure(t)
		shore, left := drawWholeShore(t)
		got := fp.landwardEdge(NewLines(shore))
		low, high := math.Inf(-1), math.Inf(-1)
		for i := range fp.Elements {
			single := &Footprint{Elements: fp.Elements[i : i+1]}
			l, h := sampledEdge(&fp.Elements[i], shore, left, single.Least(NewLines(shore)).Distance, got.At)
			low, high = math.Max(low, l), math.Max(high, h)
		}
		require.GreaterOrEqual(t, got.Distance, low-2*tolerance)
		require.LessOrEqual(t, got.Distance, high+facingStep)
		require.InDelta(t, math.Abs(got.Distance), flat.Distance(got.At, got.Foot.At), 1e-9, "between its witness points")
		if got.Distance != 0 {
			signed, _ := NewLines(shore).Signed(got.At)
			require.InDelta(t, got.Distance, signed, 1e-6, "at %v", got.At)
		}
	})
}

// drawWholeShore returns a shore whose sides change only on it, and what tells
// whether a point lies on its left.
func drawWholeShore(t *rapid.T) ([]orb.Point, func(orb.Point) bool) {
	var shore, ring []orb.Point
	if rapid.Bool().Draw(t, "closed") {
		shore = flattest.DrawStar(t, orb.Point{flattest.Within(t, -50, 50, "x"), flattest.Within(t, -50, 50, "y")}, 2, 60)
		ring = append(ring, shore...)
	} else {
		shore = []orb.Point{{-5000, flattest.Within(t, -30, 30, "y")}}
		x := flattest.Within(t, -80, -40, "x")
		for range rapid.IntRange(1, 25).Draw(t, "steps") {
			shore = append(shore, orb.Point{x, flattest.Within(t, -30, 30, "y")})
			x += flattest.Within(t, 0.01, 12, "step")
		}
		shore = append(shore, orb.Point{5000, flattest.Within(t, -30, 30, "y")})
		ring = append(append(ring, shore...), orb.Point{5000, 9999}, orb.Point{-5000, 9999}, shore[0])
	}
	turned := rapid.Bool().Draw(t, "turned")
	if turned {
		orb.LineString(shore).Reverse()
	}
	return shore, func(p orb.Point) bool { return flattest.EvenOdd(p, ring) != turned }
}

// sampledEdge returns bounds of an element's reach from samples a few
// centimetres apart: what surely faces the shore along a whole edge, or more of
// it than can go unseen, and what may face it, there or at the place found.
func sampledEdge(e *Element, shore []orb.Point, left func(orb.Point) bool, least float64, found orb.Point) (low, high float64) {
	const spacing, hair = 0.04, 1e-4
	if e.Discs || len(e.Areas) == 0 {
		return least, least
	}
	signed := func(p orb.Point) float64 {
		d := math.Inf(1)
		for i := 1; i < len(shore); i++ {
			d = math.Min(d, flattest.ToSegment(p, shore[i-1], shore[i]))
		}
		if !left(p) {
			d = -d
		}
		return d
	}
	sure, may := math.Inf(-1), math.Inf(-1)
	for part, polygon := range e.Areas {
		ring := polygon[0]
		turn := math.Copysign(1, shoelace(ring))
		for j := 1; j < len(ring); j++ {
			a, b := ring[j-1], ring[j]
			length := flat.Distance(a, b)
			if length < 2*touching {
				continue
			}
			out := orb.Point{turn * (b[1] - a[1]) / length, turn * (a[0] - b[0]) / length}
			falls := func(p orb.Point) (s, before, after float64) {
				s = signed(p)
				before = (s - signed(orb.Point{p[0] - hair*out[0], p[1] - hair*out[1]})) / hair
				after = (signed(orb.Point{p[0] + hair*out[0], p[1] + hair*out[1]}) - s) / hair
				if math.Min(before, after) <= -math.Cos(47*crs.PerDegree) || math.Abs(s) < 100*hair {
					may = math.Max(may, s)
				}
				return s, before, after
			}
			if flattest.ToSegment(found, a, b) < hair {
				for _, along := range []float64{-hair, hair} {
					falls(orb.Point{found[0] - turn*along*out[1], found[1] + turn*along*out[0]})
				}
			}
			run, best := 0, math.Inf(-1)
			n := int(math.Ceil(length / spacing))
			for k := range n + 1 {
				f := float64(k) / float64(n)
				p := orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])}
				s, before, after := falls(p)
				if math.Max(before, after) > -math.Cos(44*crs.PerDegree) || math.Abs(s) < 100*hair || near(p, e.Areas, part) {
					run, best = 0, math.Inf(-1)
					continue
				}
				run, best = run+1, math.Max(best, s)
				if run > n || float64(run-1)*length/float64(n) >= facingStep {
					sure = math.Max(sure, best)
				}
			}
		}
	}
	if math.IsInf(sure, -1) {
		sure = math.Min(least, may) // it may face the line nowhere
		if math.IsInf(may, -1) {
			return least, least
		}
	}
	return sure, math.Max(may, least)
}

// near reports whether p lies in or against any area but one.
func near(p orb.Point, areas []orb.Polygon, but int) bool {
	for i, polygon := range areas {
		if i == but {
			continue
		}
		if flattest.EvenOdd(p, polygon...) {
			return true
		}
		for _, ring := range polygon {
			for j := 1; j < len(ring); j++ {
				if flattest.ToSegment(p, ring[j-1], ring[j]) < 5*touching {
					return true
				}
			}
		}
	}
	return false
}
