package geo

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/area"
	"waterward/geo/flat"
)

// TestOneShoreStaysOne: shore that turns round a structure, or that a structure
// stands on both sides of, is one bank. Worked by hand.
func TestOneShoreStaysOne(t *testing.T) {
	cove := []orb.Point{{-600, 0}}
	for i := 0; i <= 60; i++ { // a half circle of radius 100 ft, cut into the land
		s, c := math.Sincos(math.Pi * float64(i) / 60)
		cove = append(cove, orb.Point{-100 * c, -100 * s})
	}
	cove = append(cove, orb.Point{600, 0})
	ring := orb.Ring{}
	for i := range 61 { // 3 to 9 ft off all along
		s, c := math.Sincos(math.Pi * (0.1 + 0.8*float64(i)/60))
		ring = append(ring, orb.Point{-91 * c * ft, -91 * s * ft})
	}
	for i := 60; i >= 0; i-- {
		s, c := math.Sincos(math.Pi * (0.1 + 0.8*float64(i)/60))
		ring = append(ring, orb.Point{-97 * c * ft, -97 * s * ft})
	}
	ring = append(ring, ring[0])
	for _, c := range []struct {
		name       string
		shore      []orb.Point // feet, water on the left
		fp         *Footprint
		far, least float64
	}{
		{"both sides of an island", clockwise(0, 0, 400, 100), feetBoxes([4]float64{100, 103, 160, 109}, [4]float64{100, -40, 160, -34}), 40, 3},
		{"both sides of a spit", []orb.Point{{-300, 0}, {0, 0}, {0, -200}, {30, -200}, {30, 0}, {400, 0}}, nil, 0, 0},
		{"all along a cove", cove, drawn([]orb.Polygon{{ring}}), 9, 3},
	} {
		fp, shore := c.fp, c.shore
		if fp == nil { // the spit points north, 30 ft wide, water on both its sides
			shore = []orb.Point{{-300, -400}, {0, -400}, {0, 0}, {30, 0}, {30, -400}, {400, -400}}
			fp = feetBoxes([4]float64{-9, -150, -3, -90}, [4]float64{69, -150, 75, -90})
			c.far, c.least = 45, 3
		}
		bank := HomeBank(fp, NewLines(inFeet(shore...)))
		require.InDelta(t, c.far, bank.Farthest(fp).High.Distance/ft, 0.02, c.name)
		require.InDelta(t, c.least, bank.Nearest(fp).High.Distance/ft, 0.15, c.name) // chords of the cove
	}
}

// TestFarBankOfAnyShape: no part of the far bank may count as the home bank,
// whichever way it runs: a point reaching in, a side canal, a zigzag. The home
// bank is y = 0. Worked by hand.
func TestFarBankOfAnyShape(t *testing.T) {
	home := []orb.Point{{-600, 0}, {600, 0}}
	zigzag := []orb.Point{}
	for x := 600.0; x >= -600; x -= 20 {
		zigzag = append(zigzag, orb.Point{x, 16}, orb.Point{x - 10, 26})
	}
	for name, c := range map[string]struct {
		far []orb.Point
		fp  *Footprint
		d   float64
	}{
		"a point":      {[]orb.Point{{-90, 200}, {-90, 14}, {-100, 14}, {-100, 200}}, feetBoxes([4]float64{-98, 0.5, -92, 12}), 12},
		"a side canal": {[]orb.Point{{600, 16}, {0, 16}, {0, 200}, {-20, 200}, {-20, 16}, {-600, 16}}, feetBoxes([4]float64{-30, 1, 10, 12}), 12},
		"a zigzag":     {zigzag, feetBoxes([4]float64{-15, 0.5, 15, 13}), 13},
	} {
		bank := HomeBank(c.fp, NewLines(inFeet(home...), inFeet(c.far...)))
		require.InDelta(t, c.d, bank.Farthest(c.fp).High.Distance/ft, 0.002, name)
		_, nearer := bank.OtherShoreNearer()
		require.True(t, nearer, name)
	}
}

// TestOpeningsInAWall: a slip or a creek mouth in an open shore does not end the
// bank, however deep it is: the structure is farthest from it midway across.
// Worked by hand.
func TestOpeningsInAWall(t *testing.T) {
	fp := feetBoxes([4]float64{-100, 6, 100, 12})
	for name, c := range map[string]struct {
		shore [][]orb.Point
		want  float64
	}{
		"a slip":        {[][]orb.Point{{{-800, 0}, {0, 0}, {0, -18}, {20, -18}, {20, 0}, {800, 0}}}, math.Hypot(10, 12)},
		"a deep slip":   {[][]orb.Point{{{-800, 0}, {0, 0}, {0, -40}, {20, -40}, {20, 0}, {800, 0}}}, math.Hypot(10, 12)},
		"a creek mouth": {[][]orb.Point{{{-800, 0}, {0, 0}, {0, -900}}, {{30, -900}, {30, 0}, {800, 0}}}, math.Hypot(15, 12)},
	} {
		for i := range c.shore {
			c.shore[i] = inFeet(c.shore[i]...)
		}
		bank := HomeBank(fp, NewLines(c.shore...))
		require.InDelta(t, c.want, bank.Farthest(fp).High.Distance/ft, 0.002, name)
	}
}

// TestWidthIsMeasuredAcross: not along the shore beside a groin, and not to the
// structure's own walls. Worked by hand.
func TestWidthIsMeasuredAcross(t *testing.T) {
	groin := NewLines(
		inFeet([]orb.Point{{-800, 0}, {-2, 0}, {-2, 15}, {2, 15}, {2, 0}, {800, 0}}...),
		inFeet([]orb.Point{{800, 48}, {-800, 48}}...))
	fp := feetBoxes([4]float64{-40, 2, -3, 9.5})
	bank := HomeBank(fp, groin)
	width := widthOf(bank) / ft
	require.LessOrEqual(t, width, 48.001)
	require.Greater(t, width, 35.0, "somewhat less, square to the stretch as a whole")

	open := NewLines(inFeet([]orb.Point{{-800, 0}, {-2, 0}, {-2, 20}, {2, 20}, {2, 0}, {800, 0}}...))
	fp = feetBoxes([4]float64{-60, 25, 60, 30})
	bank = HomeBank(fp, open)
	require.True(t, math.IsInf(widthOf(bank), 1), "open water")
}

// TestLowWaterOfTheFarBank: where the own low water line is not mapped, that of
// the far bank does not stand in for it.
func TestLowWaterOfTheFarBank(t *testing.T) {
	fp := feetBoxes([4]float64{0, 32, 40, 37})
	bank := HomeBank(fp, NewLines(inFeet([]orb.Point{{-800, 0}, {800, 0}}...), inFeet([]orb.Point{{800, 80}, {-800, 80}}...)))
	require.Nil(t, bank.Along(NewLines(inFeet([]orb.Point{{800, 50}, {-800, 50}}...))))
}

// TestWindingCreeks: in creeks 16 ft wide that wind at random, a structure that
// follows its own bank and reaches 11 ft into the water must never read less
// than the distance from that bank alone, which samples of it give.
func TestWindingCreeks(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	over, total := 0, 0
	for range 600 {
		south, north := creek(r)
		if south == nil {
			continue
		}
		first := 60 + r.IntN(80)
		count := 3 + r.IntN(8)
		footprint := alongBank(south, first, count, 1*ft, 11*ft)
		if area.Check(orb.MultiPolygon{footprint}) != nil {
			continue // folded over itself in a tight bend
		}
		fp := drawn([]orb.Polygon{footprint})
		own := NewLines(south)
		want := fp.FarthestUnsigned(own).Distance
		whole := append(append([]orb.Point{}, south...), north...)
		for _, lines := range []*Lines{NewLines(south, north), NewLines(whole)} {
			got := fp.Farthest(HomeBank(fp, lines).Lines).Distance
			require.GreaterOrEqual(t, got, want-2*tolerance, "%d lines", len(lines.ByItem()))
			total++
			if got > want+2*tolerance {
				over++
			}
		}
	}
	require.Greater(t, total, 200)
	require.Less(t, over, total/20, "and seldom more")
}

// creek returns the two banks of a winding creek, each with the water on its
// left; nil if a bend is so tight that a bank folds over.
func creek(r *rand.Rand) (south, north []orb.Point) {
	var amplitude, wave, phase [3]float64
	for i := range amplitude {
		amplitude[i], wave[i], phase[i] = (8+25*r.Float64())*ft/float64(i+1), (14+14*r.Float64())*ft/float64(i+1), 6.3*r.Float64()
	}
	centre := func(x float64) orb.Point {
		y := 0.0
		for i := range amplitude {
			y += amplitude[i] * math.Sin(x/wave[i]/2+phase[i])
		}
		return orb.Point{x, y}
	}
	for x := -600 * ft; x <= 600*ft; x += 3 * ft {
		n := flat.LeftNormal(centre(x-0.01), centre(x+0.01), 8*ft)
		p := centre(x)
		if k := len(south); k > 0 {
			along := flat.LeftNormal(centre(x-3*ft), p, 1) // a quarter turn from the way the creek runs
			for _, edge := range [][2]orb.Point{{south[k-1], {p[0] - n[0], p[1] - n[1]}}, {north[0], {p[0] + n[0], p[1] + n[1]}}} {
				if along[1]*(edge[1][0]-edge[0][0])-along[0]*(edge[1][1]-edge[0][1]) <= 0 {
					return nil, nil
				}
			}
		}
		south = append(south, orb.Point{p[0] - n[0], p[1] - n[1]})
		north = append([]orb.Point{{p[0] + n[0], p[1] + n[1]}}, north...)
	}
	return south, north
}

// alongBank is an area between two distances off a bank, beside some of its
// edges.
func alongBank(bank []orb.Point, first, count int, from, to float64) orb.Polygon {
	var near, far orb.Ring
	for i := first; i < first+count; i++ {
		n := flat.LeftNormal(bank[i-1], bank[i+1], 1)
		near = append(near, orb.Point{bank[i][0] + from*n[0], bank[i][1] + from*n[1]})
		far = append(orb.Ring{{bank[i][0] + to*n[0], bank[i][1] + to*n[1]}}, far...)
	}
	ring := append(near, far...)
	return orb.Polygon{append(ring, ring[0])}
}
