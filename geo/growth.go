package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// A bank is grown from the place nearest to the structure, along its line both
// ways, and ends where shore comes that lies beyond the structure: ahead of some
// part of it, seen from the bank behind that part, and nearer than the bank. So
// the far bank of a canal is left out though the line runs on into it, and both
// sides of an island or a spit, a cove and a square corner stay one bank. What
// only recedes from where the bank so far ends is not ahead: along the head of a
// canal, past what is beside the structure, the angle says less and less.
const (
	// aheadCos is the cosine of 75 degrees, the angle to either side of
	// straight ahead within which shore counts as ahead: less than the right
	// angle of a wall beside the structure.
	aheadCos = 0.25
	// faceCos is the cosine of about 101 degrees. Where a foot is a corner of
	// the shore, shore ahead must also lie out from both faces that meet there:
	// seen past a corner, the far wall of a slip or the next groin is not ahead.
	faceCos = -0.2
	// nearerShare is how much farther than the bank shore ahead may be and
	// still end it; a little more than 1, as only samples are asked.
	nearerShare = 1.2
	// outlineStep is the greatest distance, in metres, between samples.
	outlineStep = 2.0
)

// growth is a bank under construction.
type growth struct {
	lines   *Lines
	in      []bool // by segment
	samples []sample
	ends    map[orb.Point]bool // where the bank so far ends

	// The circle that holds all samples, and the greatest of their distances: what
	// lies farther from the circle than that bears on no sample.
	centre   orb.Point
	radius   float64
	greatest float64
}

// sample is a point of the structure's outline and its foot on the bank so far.
type sample struct {
	at, foot orb.Point
	distance float64
	seg      int32 // on which the foot lies
}

func newGrowth(fp *Footprint, lines *Lines) *growth {
	g := &growth{lines: lines, in: make([]bool, len(lines.segs)), ends: map[orb.Point]bool{}, greatest: math.Inf(1)}
	for i := range fp.Elements {
		last := orb.Point{math.Inf(1), 0}
		fp.Elements[i].outline(func(a, b orb.Point) {
			if distance(a, last) < outlineStep/8 && distance(a, b) < outlineStep/8 {
				return // the chords of an arc need not all be asked
			}
			last = a
			n := math.Ceil(distance(a, b) / outlineStep)
			for k := 0.0; k < n; k++ {
				f := k / n
				at := orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])}
				g.samples = append(g.samples, sample{at: at, distance: math.Inf(1)})
			}
		})
	}
	if len(g.samples) == 0 { // a point of no size
		return g
	}
	bound := orb.Bound{Min: g.samples[0].at, Max: g.samples[0].at}
	for _, p := range g.samples {
		bound = bound.Extend(p.at)
	}
	g.centre = bound.Center()
	for _, p := range g.samples {
		g.radius = math.Max(g.radius, distance(g.centre, p.at))
	}
	return g
}

// farFrom reports whether a segment lies farther from every sample than so many times
// the distance of any from the bank so far.
func (g *growth) farFrom(s *segment, times float64) bool {
	q, _ := project(s.a, s.b, g.centre)
	return distance(g.centre, q)-g.radius-boxSlack > times*g.greatest
}

// from grows the bank along a chain, both ways from a segment, the way that ends
// nearer to the structure first: of two walls the nearer is known before the other
// is judged.
func (g *growth) from(c chain, start int32) {
	at := 0
	for i, k := range c.segs {
		if k == start {
			at = i
		}
	}
	g.add(start)
	n := len(c.segs)
	ways := [2]struct {
		step  int
		end   orb.Point
		away  float64 // from the middle of the structure to the end
		ended bool
	}{{step: 1, end: g.lines.segs[start].b}, {step: -1, end: g.lines.segs[start].a}}
	for w := range ways {
		ways[w].away = distance(g.centre, ways[w].end)
		g.ends[ways[w].end] = true
	}
	next := [2]int{at + 1, at - 1}
	for taken := 1; taken < n && !(ways[0].ended && ways[1].ended); {
		w := 0
		if ways[0].ended || !ways[1].ended && ways[1].away < ways[0].away {
			w = 1
		}
		i := next[w]
		if c.loop {
			i = ((i % n) + n) % n
		}
		if i < 0 || i >= n {
			ways[w].ended = true
			continue
		}
		k := c.segs[i]
		if g.beyond(k) {
			ways[w].ended = true
			continue
		}
		s := &g.lines.segs[k]
		delete(g.ends, ways[w].end)
		if ways[w].end = s.b; ways[w].step < 0 {
			ways[w].end = s.a
		}
		g.ends[ways[w].end] = true
		ways[w].away = distance(g.centre, ways[w].end)
		g.add(k)
		next[w] += ways[w].step
		taken++
	}
}

// take adds a chain of another line to the bank, unless part of it lies beyond
// the structure: then all of it is another shore.
func (g *growth) take(c chain) {
	for _, k := range c.segs {
		if g.beyond(k) {
			return
		}
	}
	for _, k := range c.segs {
		g.add(k)
	}
	g.ends[g.lines.segs[c.segs[0]].a] = true
	g.ends[g.lines.segs[c.segs[len(c.segs)-1]].b] = true
}

// holdsStrandOf reports whether a chain is a piece of the home chain's own line,
// cut off by the window: it was not reached along the shore.
func (g *growth) holdsStrandOf(home, c chain) bool {
	return g.lines.segs[home.segs[0]].strand == g.lines.segs[c.segs[0]].strand && g.cutShort(home)
}

// cutShort reports whether the bank ended before its chain did.
func (g *growth) cutShort(home chain) bool {
	for _, k := range home.segs {
		if !g.in[k] {
			return true
		}
	}
	return false
}

// beyond reports whether a segment lies beyond the structure.
func (g *growth) beyond(k int32) bool {
	s := &g.lines.segs[k]
	if g.farFrom(s, nearerShare) {
		return false
	}
	for i := range g.samples {
		p := &g.samples[i]
		if p.distance <= onLine || g.ends[p.foot] {
			continue // on the bank, or its own bank is still to come
		}
		q, _ := project(s.a, s.b, p.at)
		away := distance(p.at, q)
		if away <= onLine || away >= nearerShare*p.distance { // it lies on the shore itself
			continue
		}
		ahead := (q[0]-p.at[0])*(p.at[0]-p.foot[0]) + (q[1]-p.at[1])*(p.at[1]-p.foot[1])
		if ahead > aheadCos*away*p.distance && g.outOf(p, q, away) && !g.ends[q] {
			return true
		}
	}
	return false
}

func (g *growth) add(k int32) {
	g.in[k] = true
	s := &g.lines.segs[k]
	if g.farFrom(s, 1) {
		return
	}
	g.greatest = 0
	for i := range g.samples {
		p := &g.samples[i]
		q, _ := project(s.a, s.b, p.at)
		if d := distance(p.at, q); d < p.distance {
			p.foot, p.distance, p.seg = q, d, k
		}
		g.greatest = math.Max(g.greatest, p.distance)
	}
}

// outOf reports whether q lies out from both faces of the corner that p's foot
// is; a foot that is no corner has q ahead of it already.
func (g *growth) outOf(p *sample, q orb.Point, away float64) bool {
	s := &g.lines.segs[p.seg]
	face := func(s *segment) bool {
		n := leftNormal(s.a, s.b, 1)
		return (q[0]-p.at[0])*n[0]+(q[1]-p.at[1])*n[1] > faceCos*away
	}
	if p.foot == s.a && s.prev >= 0 {
		return face(s) && face(&g.lines.segs[s.prev])
	}
	if p.foot == s.b && s.next >= 0 {
		return face(s) && face(&g.lines.segs[s.next])
	}
	return true
}

// along is the trend of the bank at most of the feet; otherwise if there are none.
func (g *growth) along(trends []orb.Point, otherwise orb.Point) orb.Point {
	count, most := map[orb.Point]int{}, otherwise
	for i := range g.samples {
		t := trends[g.samples[i].seg]
		if count[t]++; count[t] > count[most] {
			most = t
		}
	}
	return most
}
