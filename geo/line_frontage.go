package geo

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// Strands returns how many strands a layer has: its lines and rings, lines that
// were joined end to end counted as one.
func (l *Layer) Strands() int { return len(l.strands) }

// Strand returns the positions of a strand in degrees, long edges cut, and whether
// it is closed: its last position is then its first.
func (l *Layer) Strand(n int) (points []orb.Point, closed bool) {
	return l.strands[n].points, l.strands[n].closed
}

// EdgeItem returns the item that an edge of a strand belongs to.
func (l *Layer) EdgeItem(strand, edge int) int {
	item, _ := l.itemAt(int32(strand), int32(edge))
	return item
}

// Strand is which strand of its layer the facing is of.
func (f Facing) Strand() int { return int(f.Lines.segs[f.Lines.use[0]].strand) }

// Water is +1 if the water lies on the left of the strand as the layer holds it, -1
// if on its right, 0 if that is not settled.
func (f Facing) Water() int {
	if f.Why != "" {
		return 0
	}
	return f.sign
}

// Shore is one strand of a tidal line among all shores near a place of it.
type Shore struct {
	Near   *Lines
	Strand int
	Water  int // +1: on the left of the strand, -1: on its right
}

// Behind returns for each item of some outlines its point nearest to a place of the
// shore, at most reach away, to which the straight way leads over land; in order of
// item. What touches the shore there is 0 away, on whichever side it lies.
func (s Shore) Behind(edge int, at orb.Point, outlines *Lines, reach float64) []Foot {
	type hit struct {
		item int
		foot Foot
	}
	var hits []hit
	for _, k := range outlines.use {
		g := &outlines.segs[k]
		if planar.DistanceFromSegmentSquared(g.a, g.b, at) <= reach*reach {
			hits = append(hits, hit{outlines.itemOf(k), outlines.footOn(k, at)})
		}
	}
	slices.SortFunc(hits, func(a, b hit) int {
		return cmp.Or(cmp.Compare(a.item, b.item), cmp.Compare(a.foot.Distance, b.foot.Distance), cmp.Compare(a.foot.seg, b.foot.seg))
	})
	own := s.foot(edge, at)
	var out []Foot
	for i := 0; i < len(hits); {
		item, found := hits[i].item, false
		for ; i < len(hits) && hits[i].item == item; i++ {
			f := hits[i].foot
			if found {
				continue
			}
			if found = f.Distance <= touching; found {
				f.Distance = 0
			} else {
				found = s.overLand(own, f.At)
			}
			if found {
				out = append(out, f)
			}
		}
	}
	return out
}

// foot is a place of an edge of the strand as a foot.
func (s Shore) foot(edge int, at orb.Point) Foot {
	for _, k := range s.Near.use {
		if g := &s.Near.segs[k]; g.strand == int32(s.Strand) && g.vertex == int32(edge) {
			return s.Near.footOn(k, at)
		}
	}
	return Foot{seg: -1}
}

// overLand reports whether the straight way from a place of the strand leads over
// land: it sets out landward and crosses no shore.
func (s Shore) overLand(own Foot, to orb.Point) bool {
	if own.seg < 0 {
		return false
	}
	way := Foot{Distance: flat.Distance(own.At, to), At: own.At, seg: own.seg, t: own.t}
	if float64(s.Water)*s.Near.side(to, way) > 0 {
		return false
	}
	// What it leads to may lie on a shore, as an outline that follows one does.
	short := 1 - touching/way.Distance
	to = orb.Point{own.At[0] + short*(to[0]-own.At[0]), own.At[1] + short*(to[1]-own.At[1])}
	west, east := math.Min(own.At[0], to[0]), math.Max(own.At[0], to[0])
	south, north := math.Min(own.At[1], to[1]), math.Max(own.At[1], to[1])
	here := &s.Near.segs[own.seg]
	for _, k := range s.Near.use {
		g := &s.Near.segs[k]
		if k == own.seg || own.t == 0 && k == here.prev || own.t == 1 && k == here.next ||
			math.Max(g.a[0], g.b[0]) < west || math.Min(g.a[0], g.b[0]) > east ||
			math.Max(g.a[1], g.b[1]) < south || math.Min(g.a[1], g.b[1]) > north {
			continue
		}
		if width, _, _ := betweenSegments(own.At, to, g.a, g.b); width == 0 {
			return false
		}
	}
	return true
}

// Beside returns the points so many metres to either side of a place of the strand.
func (s Shore) Beside(edge int, at orb.Point, metres float64) (landward, waterward orb.Point) {
	own := s.foot(edge, at)
	if own.seg < 0 {
		return at, at
	}
	g := &s.Near.segs[own.seg]
	n := flat.LeftNormal(g.a, g.b, metres*float64(s.Water))
	return orb.Point{at[0] - n[0], at[1] - n[1]}, orb.Point{at[0] + n[0], at[1] + n[1]}
}

// Crossed returns the items whose outlines the straight way from one point to another
// crosses an odd number of times, in order: if one end is inside, the other is not.
func (l *Lines) Crossed(from, to orb.Point) []int {
	odd := map[int]bool{}
	for _, k := range l.use {
		g := &l.segs[k]
		if (flat.Cross(from, to, g.a) > 0) != (flat.Cross(from, to, g.b) > 0) && (flat.Cross(g.a, g.b, from) > 0) != (flat.Cross(g.a, g.b, to) > 0) {
			item := l.itemOf(k)
			odd[item] = !odd[item]
		}
	}
	maps.DeleteFunc(odd, func(_ int, is bool) bool { return !is })
	return slices.Sorted(maps.Keys(odd))
}

const (
	// SideLine is how much of an outline, in metres (20 ft), shows how a side line
	// comes up to the shore: more than what corners are cut by and shores wind, less
	// than any lot is deep.
	SideLine = 20 * crs.MetresPerFoot
	// sideCos is the cosine of 45 degrees less a little: what else of an outline that
	// runs straight on faces the shore.
	sideCos = flat.Cos45 + facingSlack
	// cornerCos is the cosine of about 70 degrees: of the two sides of a corner the one
	// that leads farther inland is the side line, however the shore winds.
	cornerCos = 0.35
	// straightOn is how much of its length an outline leads on where it has no corner:
	// one of at most 145 degrees.
	straightOn = 0.95
)

// Carried returns the station, between two, where an area that ends at a foot on its
// outline ends on the line: where its side line, carried on straight for at most reach
// metres, first meets the line, or, if none does, where the line is nearest. The side
// line is what of the outline leads inland from the foot.
func (b Baseline) Carried(outline *Lines, end Foot, from, to, reach float64) float64 {
	station, nearest := b.nearest(end.At, from, to)
	if nearest <= touching {
		return station
	}
	around := reach + SideLine
	_, away := b.nearest(end.At, from-around, to+around)
	back := [2]orb.Point{outline.further(end, SideLine, false), outline.further(end, SideLine, true)}
	lengths := [2]float64{flat.Distance(back[0], end.At), flat.Distance(back[1], end.At)}
	best, tip := cornerCos, end.At
	if flat.Distance(back[0], back[1]) > straightOn*(lengths[0]+lengths[1]) {
		best = sideCos
	}
	for i, length := range lengths {
		if length <= touching {
			continue
		}
		_, behind := b.nearest(back[i], from-around, to+around)
		if c := (behind - away) / length; c > best {
			best, tip = c, flat.At(back[i], end.At, 0, length, length+reach)
		}
	}
	first := reach
	b.edges(from, to, func(start float64, p, q orb.Point) {
		if width, at, _ := betweenSegments(end.At, tip, p, q); width == 0 && flat.Distance(end.At, at) < first {
			first, station = flat.Distance(end.At, at), start+flat.Distance(p, at)
		}
	})
	return station
}

// nearest returns the station, between two, where the line is nearest to a point, and
// how near.
func (b Baseline) nearest(to orb.Point, first, last float64) (station, away float64) {
	station, away = first, flat.Distance(to, b.At(first))
	b.edges(first, last, func(start float64, p, q orb.Point) {
		at, _ := flat.Project(p, q, to)
		if d := flat.Distance(at, to); d < away {
			station, away = start+flat.Distance(p, at), d
		}
	})
	return station, away
}

// further returns the point of a line so far on from a foot, or its end.
func (l *Lines) further(f Foot, over float64, forward bool) orb.Point {
	at, k := f.At, f.seg
	for k >= 0 {
		s := &l.segs[k]
		end, next := s.a, s.prev
		if forward {
			end, next = s.b, s.next
		}
		d := flat.Distance(at, end)
		if d >= over {
			return flat.At(at, end, 0, d, over)
		}
		over -= d
		at, k = end, next
	}
	return at
}

// edges visits what of the edges lies between two stations, with the station at
// which each starts.
func (b Baseline) edges(from, to float64, visit func(start float64, p, q orb.Point)) {
	p, start := b.At(from), from
	i, _ := b.line.Interpolate(from, b.line.Layout().MIndex())
	for i++; start < to && i < b.line.NumCoords(); i++ {
		c := b.line.Coord(i)
		q, end := orb.Point{c[0], c[1]}, c[2]
		if end > to {
			q, end = b.At(to), to
		}
		visit(start, p, q)
		p, start = q, end
	}
}

// PlaceOf is where on a strand of its layer a foot lies: on which edge, and what share of it
// from its first vertex. The lines are as the layer holds them, not turned.
func (l *Lines) PlaceOf(f Foot) (strand, edge int, share float64) {
	s := &l.segs[f.seg]
	return int(s.strand), int(s.vertex), f.t
}

// Met are the shares of the straight way from one point to another at which it meets the
// lines, crosses or touches them, in order.
func (l *Lines) Met(from, to orb.Point) []float64 {
	var out []float64
	for _, k := range l.use {
		s := &l.segs[k]
		if boundsApart(from, to, s.a, s.b) > touching {
			continue
		}
		if apart, on, _ := betweenSegments(from, to, s.a, s.b); apart <= touching {
			_, t := flat.Project(from, to, on)
			out = append(out, t)
		}
		for _, end := range []orb.Point{s.a, s.b} { // of what runs along the way
			if on, t := flat.Project(from, to, end); flat.Distance(on, end) <= touching {
				out = append(out, t)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
