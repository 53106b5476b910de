package main

import (
	"math"
	"math/rand/v2"
)

// The strands, shores of about 15 km, lie 3 km apart in columns, far from any land.
const (
	originLon, originLat = -74.6, 30.0
	strandLength         = 15000.0
	strandSpacing        = 3000.0
	columnSpacing        = 18000.0
	strandsInColumn      = 40
	widestTurn           = 0.03 // of a strand from its row, in radians
	slack                = 500  // by which a coast may be shorter than asked, in metres
)

// The shore in metres. Mean low water joins from one stretch to the next at lowAtEnds.
const (
	vertexSpacing = 4.2 // along a natural shore
	wallSpacing   = 8.0 // along a wall
	lowSpacing    = 0.9 // of mean low water, for one of mean high water
	lowAtEnds     = 9.0
	lowOffWall    = 11.0 // from the innermost line of a wall
	lowInCanal    = 0.75
	lotDepth      = 30.0
	betweenCanals = 2*lotDepth + 5
)

// coast is what is being written.
type coast struct {
	size
	seed    uint64
	layers  map[string]*layer
	metres  float64 // of shore so far
	strands int
	beds    float64 // of seagrass still owed
}

// stretch is a piece of a strand with one kind of shore. Lines run with the water on
// their left.
type stretch struct {
	kind      string
	x0, x1    float64
	shore     float64 // its length
	mhw, mlw  []point
	trend     func(x float64) float64 // the shore without its wiggles
	corners   []int                   // vertices of mhw where a lot may end
	straights []straight
	canals    []canal
	ring, low []point // of an island
}

// straight is a piece of wall, its water on the left, and how far off it mean low
// water and, in a canal, the other wall lie.
type straight struct {
	from, to   point
	low, width float64
}

// canal is a finger cut into the land.
type canal struct{ left, right, end float64 }

// strand writes the next strand.
func (c *coast) strand() {
	rng := rand.New(rand.NewPCG(c.seed, uint64(c.strands)))
	column, row := c.strands/strandsInColumn, c.strands%strandsInColumn
	c.strands++
	corner := newPlane(originLon, originLat+strandSpacing*float64(row)/newPlane(originLon, originLat, 0).perLat, 0)
	east, heading := columnSpacing*float64(column), widestTurn*(2*rng.Float64()-1)
	if row%2 == 1 { // its water to the south
		east, heading = east+strandLength, heading+math.Pi
	}
	p := newPlane(corner.lon+east/corner.perLon, corner.lat, heading)
	x := 0.0
	for x < strandLength && c.metres < c.km*1000-slack {
		s := newStretch(rng, x)
		s.shore = length(s.mhw) + length(s.ring)
		c.metres += s.shore
		c.write(p, rng, s)
		x = s.x1
	}
	c.areas(p, rng, x)
}

func newStretch(rng *rand.Rand, x float64) *stretch {
	s := &stretch{x0: x, trend: func(float64) float64 { return 0 }}
	switch pick := rng.Float64(); {
	case pick < 0.62:
		s.natural(rng)
	case pick < 0.82:
		s.walled(rng)
	default:
		s.cut(rng)
	}
	if s.kind != "canal" && rng.Float64() < 0.15 {
		s.island(rng)
	}
	return s
}

// natural is a shore of bays, cusps and a wiggle at every vertex.
func (s *stretch) natural(rng *rand.Rand) {
	s.kind, s.x1 = "natural", s.x0+400+600*rng.Float64()
	bays, cusps := waves{rng.Uint64(), 200, 20}, waves{rng.Uint64(), 40, 1.5}
	ripples, flats := waves{rng.Uint64(), 9, 0.4}, waves{rng.Uint64(), 80, 2.2}
	ends := func(x float64) float64 { return smooth((x-s.x0)/60) * smooth((s.x1-x)/60) }
	s.trend = func(x float64) float64 { return ends(x) * bays.at(x) }
	middle := func(x float64) float64 { return s.trend(x) + ends(x)*cusps.at(x) }
	s.mhw = s.walk(rng, vertexSpacing, func(x float64) float64 {
		return middle(x) + ends(x)*(ripples.at(x)+0.2*(2*rng.Float64()-1))
	})
	s.mlw = s.walk(rng, vertexSpacing*lowSpacing, func(x float64) float64 { return middle(x) + lowAtEnds + ends(x)*flats.at(x) })
	for i := range s.mhw {
		s.corners = append(s.corners, i)
	}
}

// walk draws y of x from end to end with uneven steps.
func (s *stretch) walk(rng *rand.Rand, step float64, y func(x float64) float64) []point {
	var out []point
	for x := s.x0; x < s.x1-step/2; x += step * (0.8 + 0.4*rng.Float64()) {
		out = append(out, point{x, y(x)})
	}
	return append(out, point{s.x1, y(s.x1)})
}

// walled is a shore of seawalls: straight, square corners, slips cut in and docks
// built out at the ends of the walls.
func (s *stretch) walled(rng *rand.Rand) {
	s.kind, s.x1 = "wall", s.x0+300+400*rng.Float64()
	s.mhw = []point{{s.x0, 0}}
	for x := s.x0; x < s.x1; {
		end, y := min(s.x1, x+60+340*rng.Float64()), 1+4*rng.Float64()
		if s.x1-end < 40 {
			end = s.x1
		}
		clear := end - 12 // room for a slip
		s.mhw = append(s.mhw, point{x, y})
		for at := x + wallSpacing; at < clear; at += wallSpacing {
			s.corners = append(s.corners, len(s.mhw))
			s.mhw = append(s.mhw, point{at, y})
		}
		s.straights = append(s.straights, straight{point{x, y}, point{clear, y}, lowOffWall - y, 0})
		out := []float64{-7, 3}[rng.IntN(2)]
		s.mhw = append(s.mhw, point{clear + 1, y}, point{clear + 1, y + out}, point{clear + 6, y + out}, point{clear + 6, y}, point{end, y})
		x = end
	}
	s.mhw = append(s.mhw, point{s.x1, 0})
	s.mlw = []point{{s.x0, lowAtEnds}}
	s.mlw = append(s.mlw, along(point{s.x0 + 3, lowOffWall}, point{s.x1 - 3, lowOffWall}, wallSpacing*0.75)...)
	s.mlw = append(s.mlw, point{s.x1, lowAtEnds})
}

// cut is a walled shore with finger canals.
func (s *stretch) cut(rng *rand.Rand) {
	s.kind = "canal"
	s.mhw, s.mlw = []point{{s.x0, 0}}, []point{{s.x0, lowAtEnds}, {s.x0 + 10, lowAtEnds}, {s.x0 + 20, lowInCanal}}
	x, o := s.x0+betweenCanals, lowInCanal
	for range 2 + rng.IntN(3) {
		c := canal{left: x, right: x + 20 + 10*rng.Float64(), end: -100 - 120*rng.Float64()}
		s.canals = append(s.canals, c)
		a, b, d, e := point{c.left, 0}, point{c.left, c.end}, point{c.right, c.end}, point{c.right, 0}
		width := c.right - c.left
		s.straights = append(s.straights, straight{a, b, o, width}, straight{d, e, o, width})
		for _, side := range [][2]point{{a, b}, {b, d}, {d, e}} {
			s.mhw = append(s.mhw, along(side[0], side[1], wallSpacing)...)
		}
		for _, side := range [][2]point{{{a.x + o, o}, {b.x + o, b.y + o}}, {{b.x + o, b.y + o}, {d.x - o, d.y + o}}, {{d.x - o, d.y + o}, {e.x - o, o}}} {
			s.mlw = append(s.mlw, along(side[0], side[1], wallSpacing*lowSpacing)...)
		}
		x = c.right + betweenCanals
	}
	s.x1 = x
	s.mhw = append(s.mhw, point{s.x1, 0})
	s.mlw = append(s.mlw, point{s.x1 - 20, o}, point{s.x1 - 10, lowAtEnds}, point{s.x1, lowAtEnds})
	s.mhw, s.mlw = withoutTwins(s.mhw), withoutTwins(s.mlw)
}

// along is a straight line with a vertex about every step.
func along(a, b point, step float64) []point {
	n := max(1, math.Round(a.distance(b)/step))
	out := []point{a}
	for i := 1.0; i < n; i++ {
		out = append(out, a.plus(b.minus(a).times(i/n)))
	}
	return append(out, b)
}

// withoutTwins leaves out what stands where the one before stands.
func withoutTwins(line []point) []point {
	out := line[:1]
	for _, p := range line[1:] {
		if p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	return out
}

// island is a ring off the shore, drawn clockwise.
func (s *stretch) island(rng *rand.Rand) {
	middle, radius := point{(s.x0 + s.x1) / 2, 320}, 25+85*rng.Float64()
	a, b, off := 2*math.Pi*rng.Float64(), 2*math.Pi*rng.Float64(), 7+4*rng.Float64()
	draw := func(out, step float64) []point {
		n := math.Round(2 * math.Pi * radius / step)
		var ring []point
		for i := range int(n) {
			t := -2 * math.Pi * float64(i) / n
			r := radius*(1+0.15*math.Cos(2*t+a)+0.04*math.Cos(7*t+b)) + out
			ring = append(ring, middle.plus(point{r * math.Cos(t), r * math.Sin(t)}))
		}
		return append(ring, ring[0])
	}
	s.ring, s.low = draw(0, vertexSpacing), draw(off, vertexSpacing*lowSpacing)
}
