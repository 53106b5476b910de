package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// turnedBack is the cosine of 120 degrees: shore of the same line that has turned by
// more runs back across the water; about square to it runs the side of a corner.
const turnedBack = -0.5

// besideCos is the cosine of 60 degrees: what of a bank runs at more to a direction does
// not run along it.
const besideCos = 0.5

// headCos is the cosine of about 101 degrees: shore of the same line that has turned by
// more is another bank, by less the head of a canal or the side of a slip.
const headCos = -0.2

// WidthAcross returns how wide the water is across the site: the least distance
// from the stretches to another shore, square to the trend of the bank or to that of
// a stretch (see trendsOf), of what of them runs along that. +Inf if no other shore is
// near. Shore of the bank itself counts if it runs the other way and lies beyond
// reach, how far the structure reaches.
func (b *Bank) WidthAcross(occupied []Stretch, reach float64) Reach {
	trends, chords := b.trendsOf(occupied)
	best := b.leastSquareTo(trends, occupied, reach)
	if math.IsInf(best.Distance, 1) { // as off the tip of a groin, all sides of which lead nowhere
		best = b.leastSquareTo(chords, occupied, reach)
	}
	return best
}

func (b *Bank) leastSquareTo(trends []orb.Point, occupied []Stretch, reach float64) Reach {
	best := Reach{Distance: math.Inf(1)}
	for _, along := range trends {
		if r := b.widthSquareTo(along, occupied, reach); r.Distance < best.Distance {
			best = r
		}
	}
	return best
}

// leastLeg is how much of a stretch must run along one of its ends for the direction
// there to be one of the stretch: less is only how it turns a corner.
const leastLeg = 0.25

// trendsOf returns the trend of the bank at the foot and before most of the structure,
// as the foot may lie on a groin or on the head of a canal, and the direction of each
// stretch: its chord or, where it turns a corner, which a chord cuts, that of each end
// along which enough of it runs. The chords of those that turn are chords, as is the
// general direction of the bank where a stretch is a point.
func (b *Bank) trendsOf(occupied []Stretch) (trends, chords []orb.Point) {
	trends = []orb.Point{b.trend, b.along}
	for _, s := range occupied {
		last := len(s.Points) - 1
		p, q := s.Points[0], s.Points[last]
		d := distance(p, q)
		if d == 0 { // all of it faces one point, as the corner of a groin
			chords = append(chords, b.TrendAt(p))
			continue
		}
		chord := orb.Point{(q[0] - p[0]) / d, (q[1] - p[1]) / d}
		first, end := b.trendBy(middle(p, s.Points[1])), b.trendBy(middle(s.Points[last-1], q))
		if first[0]*end[0]+first[1]*end[1] >= besideCos {
			trends = append(trends, chord)
			continue
		}
		chords = append(chords, chord)
		for _, leg := range []orb.Point{first, end} {
			if s.along(leg) >= leastLeg*s.Length {
				trends = append(trends, leg)
			}
		}
	}
	return trends, chords
}

// along is how much of a stretch, in metres, runs in a direction.
func (s Stretch) along(way orb.Point) float64 {
	sum := 0.0
	for i := 1; i < len(s.Points); i++ {
		p, q := s.Points[i-1], s.Points[i]
		if d := distance(p, q); (q[0]-p[0])*way[0]+(q[1]-p[1])*way[1] >= besideCos*d {
			sum += d
		}
	}
	return sum
}

// trendBy is the trend of the bank where it is nearest to a point.
func (b *Bank) trendBy(p orb.Point) orb.Point { return b.trends[b.Lines.Nearest(p).seg] }

func (b *Bank) widthSquareTo(along orb.Point, occupied []Stretch, reach float64) Reach {
	best := Reach{Distance: math.Inf(1)}
	out := orb.Point{-along[1], along[0]} // waterward
	// turned gives a point's place along the bank and how far out it lies.
	turned := func(p orb.Point) (float64, float64) {
		return p[0]*along[0] + p[1]*along[1], p[0]*out[0] + p[1]*out[1]
	}
	towards := func(k int32) float64 { return b.trends[k][0]*along[0] + b.trends[k][1]*along[1] }
	own := map[int32]bool{}
	for _, k := range b.Lines.use {
		own[b.all.segs[k].strand] = true
	}
	for _, s := range occupied {
		for i := 1; i < len(s.Points); i++ {
			p, q := s.Points[i-1], s.Points[i]
			if long := distance(p, q); long > touching && (q[0]-p[0])*along[0]+(q[1]-p[1])*along[1] < besideCos*long &&
				towards(b.Lines.Nearest(middle(p, q)).seg) < besideCos {
				continue // it runs across, by itself and by the trend: the head of a canal, seen along its wall
			}
			p0, _ := turned(p)
			q0, _ := turned(q)
			for _, k := range b.all.use {
				g := &b.all.segs[k]
				if t := towards(k); b.in[k] && t > turnedBack || own[g.strand] && t > headCos {
					continue
				}
				a0, _ := turned(g.a)
				b0, _ := turned(g.b)
				// Both edges are straight, so the width between them is least
				// at an end of the place they share along the bank.
				from := math.Max(math.Min(p0, q0), math.Min(a0, b0))
				to := math.Min(math.Max(p0, q0), math.Max(a0, b0))
				if from > to {
					continue
				}
				for _, place := range [2]float64{from, to} {
					near, far := atPlace(p, q, p0, q0, place), atPlace(g.a, g.b, a0, b0, place)
					_, near0 := turned(near)
					_, far0 := turned(far)
					if width := far0 - near0; width > touching && width < best.Distance && (!b.in[k] || width >= reach) {
						best = Reach{width, near, Foot{Distance: width, At: far, seg: k}}
					}
				}
			}
		}
	}
	return best
}
