package geo

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/geo/flat"
	"waterward/geo/flat/flattest"
)

// Lengths in this file are in feet; lines have the water on their left.

func shoreLine(xy ...float64) []orb.Point {
	var out []orb.Point
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, orb.Point{xy[i], xy[i+1]})
	}
	return out
}

var (
	straight = shoreLine(-900, 0, 900, 0)
	c16      = shoreLine(-300, 0, 200, 0, 200, 16, -300, 16)
	c87      = shoreLine(0, 400, 0, 0, 87, 0, 87, 400)
	c90      = shoreLine(0, 400, 0, 0, 90, 0, 90, 400)
	acute    = shoreLine(424.26, 424.26, 0, 0, 600, 0)
	bentAway = shoreLine(0, 370, 50, 86.6, 0, 0, 1200, 0)
	slip     = shoreLine(-800, 0, 0, 0, 0, -400, 20, -400, 20, 0, 800, 0)
	groin    = shoreLine(-800, 0, -2, 0, -2, 15, 2, 15, 2, 0, 800, 0)
	spike    = shoreLine(-800, 0, 20, 0, 20.05, 7, 20.1, 0, 800, 0)
)

// acuteAt is a corner of so many degrees.
func acuteAt(degrees float64) []orb.Point {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return shoreLine(1200*c, 1200*s, 0, 0, 1200, 0)
}

// leaningOver is a corner of so many degrees whose upper wall is 60 ft up at x = 0.
func leaningOver(degrees float64) []orb.Point {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return shoreLine(900*c, 60+900*s, -60*c/s, 0, 900, 0)
}

func barMidway(degrees float64) float64 {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return (60*c + 2*s) / (1 + c)
}

// mouth is a creek mouth so wide in an open shore.
func mouth(wide float64) [][]orb.Point {
	return [][]orb.Point{shoreLine(-800, 0, 0, 0, 0, -900), shoreLine(wide, -900, wide, 0, 800, 0)}
}

// groins is an open shore with five groins 4 ft wide and 60 ft long, 100 ft apart.
func groins() []orb.Point {
	out := shoreLine(-800, 0)
	for x := -200.0; x <= 200; x += 100 {
		out = append(out, shoreLine(x, 0, x, 60, x+4, 60, x+4, 0)...)
	}
	return append(out, shoreLine(800, 0)...)
}

// roundHead is c87 with a half circle for a head.
func roundHead() []orb.Point {
	out := shoreLine(0, 400)
	for i := range 361 {
		s, c := math.Sincos(math.Pi * float64(i) / 360)
		out = append(out, orb.Point{43.5 - 43.5*c, -43.5 * s})
	}
	return append(out, orb.Point{87, 400})
}

// none stands for a number that the table does not give.
var none = math.NaN()

// bankCase is a row of the check table; numbers that are NaN are not given.
type bankCase struct {
	number         int
	shore          [][]orb.Point
	fp             *Footprint
	far, near      float64
	bank           float64
	low            float64 // farthest
	across         float64
	general        float64 // farthest
	generalBank    float64
	even, isApart  bool
	width          float64
	island, noLeap bool
}

func roundsFeet(diameter float64, centres ...orb.Point) *Footprint {
	var parts []Element
	for _, c := range inFeet(centres...) {
		e := Element{Lines: [][]orb.Point{{c, c}}, Discs: true, Length: diameter * ft, Areas: []orb.Polygon{disc(c, diameter/2*ft)}}
		e.settle()
		parts = append(parts, e)
	}
	return &Footprint{Elements: parts, Links: spanningTree(parts)}
}

// apartFeet is a footprint of rectangles, each an element.
func apartFeet(corners ...[4]float64) *Footprint {
	var parts []Element
	for _, c := range corners {
		e := Element{Areas: []orb.Polygon{flattest.Box(c[0]*ft, c[1]*ft, c[2]*ft, c[3]*ft)}}
		e.settle()
		parts = append(parts, e)
	}
	parts = connect(parts)
	return &Footprint{Elements: parts, Links: spanningTree(parts)}
}

func ringFeet(xy ...float64) *Footprint {
	ring := orb.Ring(inFeet(shoreLine(xy...)...))
	ring = append(ring, ring[0])
	if ring.Orientation() == orb.CW {
		ring.Reverse()
	}
	return drawn([]orb.Polygon{{ring}})
}

// bankTable are cases worked out independently of this package: what each gives follows
// from the definition of the home bank and the positions alone.
func bankTable() []bankCase {
	one := func(lines ...[]orb.Point) [][]orb.Point { return lines }
	open := func(n int, shore [][]orb.Point, fp *Footprint, far, near, bank float64) bankCase {
		return bankCase{number: n, shore: shore, fp: fp, far: far, near: near, bank: bank, low: none, across: none, general: none, generalBank: none, width: none}
	}
	with := func(c bankCase, change func(*bankCase)) bankCase {
		change(&c)
		return c
	}
	low := func(d float64) func(*bankCase) { return func(c *bankCase) { c.low = d } }
	plain := func(c *bankCase) { c.noLeap = true }
	return []bankCase{
		with(open(1, one(straight), boxFeet(10, 5, 60, 12), 12, 5, 50), plain),
		with(open(2, one(c16), boxFeet(40, 1, 60, 12), 12, 1, 20), func(c *bankCase) { c.low, c.width = 8, 16 }),
		with(open(2, one(c16[:2], c16[2:]), boxFeet(40, 1, 60, 12), 12, 1, 20), func(c *bankCase) { c.low, c.width = 8, 16 }),
		with(open(3, one(c16), boxFeet(40, 4, 60, 15), 12, 1, 20), low(8)),
		with(open(4, one(c16), boxFeet(40, 1, 60, 7), 7, 1, 20), plain),
		with(open(5, one(c16), boxFeet(40, 1, 42, 14), 14, 1, 2), low(8)),
		with(open(6, one(c16), boxFeet(188, 4, 199, 12), 12, 1, none), func(c *bankCase) { c.low, c.even = 8, true }),
		with(open(7, one(c16), boxFeet(95, 1, 195, 12), 12, 1, 117), low(8)),
		with(open(8, one(c16), roundsFeet(3, orb.Point{50, 2.6}, orb.Point{50, 6.2}, orb.Point{50, 9.8}), 11.3, 1.1, 3), func(c *bankCase) { c.low, c.isApart = 7.7, true }),
		with(open(9, one(c16), feetBoxes([4]float64{45, 1, 55, 9}, [4]float64{0, 9, 100, 12}), 15, 4, 100), low(8)),
		with(open(10, one(c87), boxFeet(20, 6, 34, 150), 34, 6, 184), func(c *bankCase) { c.width, c.noLeap = 87, true }),
		with(open(11, one(c87), boxFeet(33, 20, 48, 150), 48, 20, 198), low(43.5)),
		with(open(12, one(c87), boxFeet(36, 11, 46, 59), 46, 11, 105), low(43.5)),
		with(open(13, one(roundHead()), boxFeet(20, 10, 67, 100), 67, none, none), func(c *bankCase) { c.low, c.even = 43.5, true }),
		with(open(14, one(c90), ringFeet(3, 3, 87, 3, 87, 150, 81, 150, 81, 9, 9, 9, 9, 150, 3, 150), 9, 3, 390), plain),
		// Of the eastern piece what is nearer to the head than to the western wall has its
		// foot there, as in 11.
		with(open(15, one(c90), apartFeet([4]float64{3, 50, 9, 150}, [4]float64{81, 50, 87, 150}), 87, 3, 150+87), func(c *bankCase) { c.low, c.even, c.isApart = 9, true, true }),
		open(16, one(straight, clockwise(45, 14, 55, 24)), boxFeet(0, 5, 100, 12), 12, 5, 100),
		open(17, one(straight, clockwise(30, 5, 60, 15)), boxFeet(0, 20, 100, 25), 25, 20, 100),
		with(open(18, one(straight, clockwise(0, 300, 60, 360)), boxFeet(10, 280, 40, 294), 20, 6, 30), func(c *bankCase) { c.island = true }),
		with(open(19, one(straight, clockwise(3, 29, 5, 31)), roundsFeet(3, orb.Point{0, 30}), 31.5, 28.5, 3), low(4.5)),
		with(open(20, one(shoreLine(0, 0, 100, 0, 100, 100)), drawn(nil, inFeet(orb.Point{40, 20}, orb.Point{95, 75})), 40, 5, 135), func(c *bankCase) { c.across = 40 + 10*math.Sqrt(32) + 15; c.noLeap = true }),
		with(open(21, one(acute), boxFeet(60, 2, 100, 22), 22, 2, 40), plain),
		open(22, one(acute), boxFeet(60, 2, 100, 34), 34, 2, 40),
		with(open(23, one(slip), boxFeet(-100, 6, 100, 12), math.Hypot(10, 12), 6, 1000), func(c *bankCase) { c.across = 200 }),
		with(open(24, one(slip), boxFeet(4, -30, 17, -10), 16, 3, 20), low(10)),
		with(open(25, mouth(30), boxFeet(-100, 6, 100, 12), math.Hypot(15, 12), 6, 170), func(*bankCase) {}),
		open(26, mouth(60), boxFeet(-100, 6, 160, 12), math.Hypot(30, 12), 6, 200),
		with(open(27, one(groin), boxFeet(-40, 2, -3, 9.5), 9.5, 1, 47.5), func(c *bankCase) { c.generalBank = 37 }),
		with(open(28, one(groin), boxFeet(-60, 20, 60, 26), 26, 5, 150), func(c *bankCase) {
			x := math.Sqrt(20*20 - 5*5) // off the tip the foot jumps from the beach
			c.across, c.generalBank = 2*(58-x)+2*math.Hypot(x, 15)+4, 120
		}),
		with(open(29, one(groins()), boxFeet(10, 20, 94, 26), 26, 6, 148), func(c *bankCase) { c.generalBank = 84 }),
		with(open(30, one(groins()), boxFeet(10, 52, 94, 58), 58, 6, 148), func(c *bankCase) { c.low, c.even = 48, true }),
		with(open(31, one(groins()), boxFeet(-150, 65, 150, 71), math.Hypot(48, 11), 5, 660), func(c *bankCase) { c.general, c.generalBank = 71, 300 }),
		open(32, one(shoreLine(-300, -400, 0, -400, 0, 0, 30, 0, 30, -400, 400, -400)), apartFeet([4]float64{-9, -150, -3, -90}, [4]float64{69, -150, 75, -90}), 45, 3, 330),
		open(33, one(clockwise(0, 0, 400, 100)), apartFeet([4]float64{100, 103, 160, 109}, [4]float64{100, -40, 160, -34}), 40, 3, 420),
		open(34, one(straight, shoreLine(-90, 200, -90, 14, -100, 14, -100, 200)), boxFeet(-98, .5, -92, 12), 12, .5, 6),
		open(35, one(straight, shoreLine(900, 16, 30, 16), shoreLine(20, 16, -900, 16)), boxFeet(0, 1, 50, 12), 12, 1, 50),
		open(36, one(shoreLine(-300, 0, 100, 0, 100, -300), shoreLine(130, -300, 130, 30, -300, 30)), ringFeet(60, 4, 104, 4, 104, -40, 122, -40, 122, 22, 60, 22), math.Hypot(22, 22), 4, 80),
		with(open(37, one(spike), boxFeet(18, 9, 22, 14), math.Hypot(2.05, 7), 2, 0), func(c *bankCase) { c.general = 14 }),
		// By an independent oracle, dense sampling, to 0.01 ft: the upper wall of a corner is
		// x sin - y cos off, the midway line in it x tan of half the corner above the lower.
		with(open(38, one(acuteAt(45)), boxFeet(60, 5, 80, 55), 75/math.Sqrt2, none, none), low(80*math.Tan(math.Pi/8))),
		with(open(39, one(acuteAt(45)), boxFeet(70, 5, 80, 60), 75/math.Sqrt2, none, none), low(80*math.Tan(math.Pi/8))),
		with(open(40, one(acuteAt(45)), boxFeet(80, 5, 81, 70), 76/math.Sqrt2, none, none), low(81*math.Tan(math.Pi/8))),
		with(open(41, one(acuteAt(60)), boxFeet(60, 5, 80, 80), 40*math.Sqrt(3)-2.5, none, none), low(80/math.Sqrt(3))),
		with(open(42, one(acuteAt(67.8)), roundsFeet(4, orb.Point{75, 18}, orb.Point{75, 30}, orb.Point{43, 78}), none, none, none), func(c *bankCase) { c.isApart = true }),
		// Of pieces on both sides of the middle of a canal 62 % lie on one, in two pieces
		// that are linked only through the third.
		with(open(43, one(shoreLine(-400, 0, 400, 0), shoreLine(400, 28, -400, 28)), apartFeet([4]float64{0, 10, 4, 14.4}, [4]float64{8, 17, 12, 21.5}, [4]float64{16, 3, 20, 7}), 21.5, 3, 20), low(14)),
		// A bar 6 ft off a wall and 9 ft off another that leans over it, 60 ft apart at the
		// bar. By an independent oracle, dense sampling, to 0.01 ft: its near lower corner is
		// 54 cos + 2 sin off the upper wall, the midway line (60 cos + 2 sin)/(1 + cos) up.
		with(open(46, one(leaningOver(20)), boxFeet(0, 6, 2, 51), 51, none, none), low(barMidway(20))),
		with(open(47, one(leaningOver(30)), boxFeet(0, 6, 2, 51), none, none, none), func(c *bankCase) { c.low, c.even = barMidway(30), true }),
		with(open(48, one(leaningOver(40)), boxFeet(0, 6, 2, 51), 42.6520, none, none), low(barMidway(40))),
		with(open(49, one(leaningOver(45)), boxFeet(0, 6, 2, 51), 56/math.Sqrt2, none, none), low(barMidway(45))),
		with(open(50, one(leaningOver(50)), boxFeet(0, 6, 2, 51), 36.2426, none, none), low(barMidway(50))),
		// Past its first 100 ft the upper wall leans back, its corner (50, 86.6) faces the
		// lower wall where x is less than 117: where (x-50)^2 + (86.6-y)^2 = y^2 the ways are
		// 105 degrees apart. Worked by hand.
		with(open(44, one(bentAway), boxFeet(60, 5, 110, 85), 85, none, 50), low((60*60+86.6*86.6)/(2*86.6))),
		with(open(45, one(bentAway), boxFeet(60, 5, 130, 85), 85, none, 70), low((80*80+86.6*86.6)/(2*86.6))),
	}
}

// drawnWays draws shore in other ways that are of no matter: as it is, every line cut into
// two features, digitised the other way round, with vertices that are no corners, and all
// of these.
func drawnWays(shore [][]orb.Point) map[string]*Lines {
	faced := func(lines [][]orb.Point, side int) *Lines {
		for i := range lines {
			lines[i] = inFeet(lines[i]...)
		}
		out, unsettled := NewLines(lines...).FaceWater(Evidence{Stated: func(int) int { return side }})
		if len(unsettled) > 0 {
			panic(unsettled[0].Why)
		}
		return out
	}
	apply := func(change func([]orb.Point) [][]orb.Point, lines [][]orb.Point) (out [][]orb.Point) {
		for _, line := range lines {
			out = append(out, change(line)...)
		}
		return out
	}
	cut := func(line []orb.Point) [][]orb.Point {
		n := len(line) / 2
		if len(line) == 2 { // within its one edge
			m := flat.At(line[0], line[1], 0, 1, 0.517)
			return [][]orb.Point{{line[0], m}, {m, line[1]}}
		}
		return [][]orb.Point{slices.Clone(line[:n+1]), slices.Clone(line[n:])}
	}
	turn := func(line []orb.Point) [][]orb.Point {
		out := slices.Clone(line)
		slices.Reverse(out)
		return [][]orb.Point{out}
	}
	dense := func(line []orb.Point) [][]orb.Point { return [][]orb.Point{slices.Clone(cutEvery(3.3, line))} }
	same := func(line []orb.Point) [][]orb.Point { return [][]orb.Point{slices.Clone(line)} }
	return map[string]*Lines{
		"as drawn": faced(apply(same, shore), 1),
		"cut":      faced(apply(cut, shore), 1),
		"reversed": faced(apply(turn, shore), -1),
		"vertices": faced(apply(dense, shore), 1),
		"all":      faced(apply(turn, apply(cut, apply(dense, shore))), -1),
	}
}

// cutEvery cuts the edges of a line into equal pieces of no more than so much.
func cutEvery(step float64, line []orb.Point) []orb.Point {
	out := line[:1:1]
	for i := 1; i < len(line); i++ {
		p, q := line[i-1], line[i]
		n := math.Ceil(flat.Distance(p, q) / step)
		for k := 1.0; k <= n; k++ {
			out = append(out, flat.At(p, q, 0, n, k))
		}
	}
	return out
}

// feetBoxes is a footprint of rectangles given by their corners in feet, one element.
func feetBoxes(corners ...[4]float64) *Footprint {
	var areas []orb.Polygon
	for _, c := range corners {
		areas = append(areas, flattest.Box(c[0]*ft, c[1]*ft, c[2]*ft, c[3]*ft))
	}
	return drawn(areas)
}

// TestBankTable: worked out independently.
func TestBankTable(t *testing.T) {
	for _, c := range bankTable() {
		for way, lines := range drawnWays(c.shore) {
			t.Run(fmt.Sprintf("%d %s", c.number, way), func(t *testing.T) {
				bank := HomeBank(c.fp, lines)
				check := func(want, metres float64, what string) {
					t.Helper()
					if want == want {
						requireFeet(t, want, metres, what)
					}
				}
				far, near, length := bank.Farthest(c.fp), bank.Nearest(c.fp), bank.Length()
				check(c.far, far.High.Distance, "farthest")
				check(c.near, near.High.Distance, "nearest")
				check(c.bank, length.Along, "bank")
				check(c.low, far.Low.Distance, "low")
				check(c.across, length.Across, "across")
				check(c.general, far.General.Distance, "general")
				check(c.generalBank, length.General, "general bank")
				width, _ := bank.WidthAcross()
				check(c.width, width.Distance, "width")
				require.Equal(t, c.even, bank.Even, "equal halves")
				require.Equal(t, c.isApart, bank.Apart, "none crosses")
				if c.noLeap {
					require.True(t, bank.plain(), "no other shore")
				}
				require.Equal(t, c.island, bank.Island && c.number != 33)
				require.False(t, bank.Unmapped())
			})
		}
	}
}

// TestABasin: a canal closed far from the structure is its open one: rows 11 and 12 of the
// table, in it and in its mirror image, wherever the ring of its shore begins.
func TestABasin(t *testing.T) {
	corners := []orb.Point{{0, 400}, {0, 0}, {87, 0}, {87, 400}}
	for _, c := range []struct {
		box             [4]float64
		far, near, bank float64
	}{{[4]float64{33, 20, 48, 150}, 48, 20, 198}, {[4]float64{36, 11, 46, 59}, 46, 11, 105}} {
		for begin := range corners {
			for _, half := range []bool{false, true} { // a vertex in the middle of each wall
				for _, mirrored := range []bool{false, true} {
					var ring []orb.Point
					for i := range corners {
						p, q := corners[(begin+i)%4], corners[(begin+i+1)%4]
						if ring = append(ring, p); half {
							ring = append(ring, flat.Middle(p, q))
						}
					}
					if half { // and it begins there
						ring = append(ring[1:], ring[0])
					}
					ring = append(ring, ring[0])
					box := c.box
					if mirrored {
						box[0], box[2] = 87-box[2], 87-box[0]
					}
					fp := boxFeet(box[0], box[1], box[2], box[3])
					bank := bankOf(fp, ring)
					why := fmt.Sprint(c.box, begin, half, mirrored)
					requireFeet(t, c.far, bank.Farthest(fp).High.Distance, why)
					requireFeet(t, c.near, bank.Nearest(fp).High.Distance, why)
					requireFeet(t, c.bank, bank.Length().Along, why)
				}
			}
		}
	}
}
