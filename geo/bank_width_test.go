package geo

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

func TestWidthAcross(t *testing.T) {
	near := inFeet(orb.Point{-500, 0}, orb.Point{500, 0})
	fp := boxFeet(0, 2, 100, 10)
	for _, c := range []struct {
		name string
		far  []orb.Point
		want float64
	}{
		{"parallel", inFeet(orb.Point{500, 90}, orb.Point{-500, 90}), 90},
		{"narrowing", inFeet(orb.Point{200, 60}, orb.Point{-200, 140}), 80}, // at x = 100
		{"a point of the far shore", inFeet(orb.Point{300, 90}, orb.Point{50, 40}, orb.Point{-300, 90}), 40},
		{"a point not abreast", inFeet(orb.Point{500, 90}, orb.Point{160, 90}, orb.Point{150, 20}, orb.Point{140, 90}, orb.Point{-500, 90}), 90},
	} {
		bank := HomeBank(fp, NewLines(near, c.far))
		requireFeet(t, c.want, widthOf(bank), c.name)
	}
	bank := HomeBank(fp, NewLines(near))
	require.Greater(t, widthOf(bank), 1e9, "open water")
}

// TestWidthBeyondCorners: the water is as wide as to the shore across at a corner of the
// shore, along the steepest way from it through the structure; off the tip of a groin as
// from the beach, as a groin does not ask; as before a headland of the same line; and open
// before the mouth of a slip, however long its walls are. Worked by hand.
func TestWidthBeyondCorners(t *testing.T) {
	lines := func(shores ...[]orb.Point) *Lines {
		for i := range shores {
			shores[i] = inFeet(shores[i]...)
		}
		return NewLines(shores...)
	}
	for _, c := range []struct {
		name  string
		shore *Lines
		fp    *Footprint
		want  float64 // 0: open
	}{
		{"off a square corner", lines([]orb.Point{{-500, 0}, {0, 0}, {0, -500}}, []orb.Point{{500, 60}, {-500, 60}}), boxFeet(3, 3, 13, 13), 60 * math.Sqrt(3*3+13*13) / 13},
		{"off the tip of a groin", lines([]orb.Point{{-500, 0}, {-1.5, 0}, {-1.5, 60}, {1.5, 60}, {1.5, 0}, {500, 0}}, []orb.Point{{500, 150}, {-500, 150}}), boxFeet(-1.4, 66, 1.4, 76), 150},
		{"before a headland across a creek", lines([]orb.Point{{-500, 0}, {600, 0}, {600, 130}, {23, 130}, {0, 80}, {-23, 130}, {-500, 130}}), boxFeet(-20, 5, 20, 45), 80},
		{"off a blunt corner, a far point beside the ways through the samples", lines([]orb.Point{{-1200, -300}, {0, 0}, {1200, 0}}, []orb.Point{{1200, 300}, {-5, 64}, {-1200, 500}}), boxFeet(-30, 25, 40, 35), math.Hypot(5, 64)},
		{"off a blunt corner, a box that ends before the corner's last way", lines([]orb.Point{{-1200, -300}, {0, 0}, {1200, 0}}, []orb.Point{{1200, 300}, {-5, 64}, {-1200, 500}}), boxFeet(-5, 25, 40, 30), math.Hypot(5, 64)},
		{"off a corner so blunt that no step ends before it", lines([]orb.Point{{-1200, -20}, {0, 0}, {1200, 0}}, []orb.Point{{1200, 300}, {0, 64}, {-0.5, 61}, {-1, 64}, {-1200, 500}}), boxFeet(-30.3, 25, 40, 35), math.Hypot(0.5, 61)},
		{"before a slip", lines([]orb.Point{{-900, 0}, {-20, 0}, {-20, -60}, {20, -60}, {20, 0}, {900, 0}}), boxFeet(-60, 15, 60, 25), 0},
		{"before a long slip", lines([]orb.Point{{-900, 0}, {-20, 0}, {-20, -300}, {20, -300}, {20, 0}, {900, 0}}), boxFeet(-60, 15, 60, 25), 0},
	} {
		bank := HomeBank(c.fp, c.shore)
		width := widthOf(bank)
		if c.want == 0 {
			require.True(t, math.IsInf(width, 1), "%s: %g ft", c.name, width/ft)
			continue
		}
		requireFeet(t, c.want, width, c.name)
	}
}

// TestWidthOffTheTipOfAGroin: off the tip of a leaning groin the water is as wide as from
// the beach to the far bank, 254 ft: a groin does not ask. By hand.
func TestWidthOffTheTipOfAGroin(t *testing.T) {
	shore := inFeet(orb.Point{-900, 0}, orb.Point{4.9, 0}, orb.Point{-16.5, 97.5}, orb.Point{-14.3, 98}, orb.Point{7.1, 0}, orb.Point{900, 0})
	far := inFeet(orb.Point{900, 254}, orb.Point{-900, 254})
	for _, fp := range []*Footprint{
		boxFeet(-23.5, 115.9, 67.7, 125.4),
		boxFeet(-32, 110, -7, 118), // all of it nearest to one corner of the tip
	} {
		bank := HomeBank(fp, NewLines(shore, far))
		requireFeet(t, 254, widthOf(bank), "from the beach")
	}
}

// TestWidthBesideASteppedShore: where the shore is open, its own next step is no far bank,
// however a structure's stretch ends on the riser of a step. By hand.
func TestWidthBesideASteppedShore(t *testing.T) {
	shore := NewLines(inFeet(orb.Point{-900, 0}, orb.Point{0, 0}, orb.Point{0, -14}, orb.Point{110, -14}, orb.Point{110, 0}, orb.Point{900, 0}))
	for _, fp := range []*Footprint{boxFeet(-150, 5, -3, 20), boxFeet(-150, 5, 8, 20), boxFeet(-150, 5, 20, 20)} {
		bank := HomeBank(fp, shore)
		require.True(t, math.IsInf(widthOf(bank), 1))
	}
}

// TestWidthBeforeARecess: a step back of a few hundredths to 2 ft in the shore is no canal,
// upright, leaning or over again as in a wall of sheet piles: the water is open, or as wide
// as to the far bank. By hand.
func TestWidthBeforeARecess(t *testing.T) {
	far := shoreLine(900, 90, -900, 90)
	for _, deep := range []float64{0.05, 0.1, 0.3, 0.5, 1, 2} {
		for _, wide := range []float64{4, 10, 24, 50, 59, 61, 80} {
			for _, lean := range []float64{-0.02, 0, 0.02} {
				w := wide / 2
				shore := shoreLine(-900, 0, -w+lean, 0, -w, -deep, w, -deep, w-lean, 0, 900, 0)
				b := bankOf(boxFeet(-30, 3, 30, 6.5), slices.Clone(shore))
				require.True(t, math.IsInf(widthOf(b), 1), "%g by %g ft, %g", deep, wide, lean)
				b = bankOf(boxFeet(-30, 3, 30, 6.5), shore, slices.Clone(far))
				require.InDelta(t, 90, widthOf(b)/ft, deep+1e-4, "%g by %g ft, %g", deep, wide, lean)
			}
		}
		piles := shoreLine(-900, 0)
		for x := -120.0; x <= 120; x += 12 {
			piles = append(piles, shoreLine(x-3, 0, x-3, -deep, x+3, -deep, x+3, 0)...)
		}
		b := bankOf(boxFeet(-30, 3, 30, 7), append(piles, orb.Point{900, 0}))
		require.True(t, math.IsInf(widthOf(b), 1), "piles of %g ft", deep)
	}
}

// widthOf is the width of the water across the site, in metres, rocks left out.
func widthOf(b *Bank) float64 {
	shore, _ := b.WidthAcross()
	return shore.Distance
}
