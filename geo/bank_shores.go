package geo

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// joined is the lines with those joined that end within sameLine of one another, each
// the nearest to the other: one shore mapped in features that were not snapped.
func (l *Lines) joined() *Lines {
	type end struct {
		k  int32
		at orb.Point
	}
	var ends, starts []end
	for _, k := range l.use {
		s := &l.segs[k]
		if s.prev == freeEnd {
			starts = append(starts, end{k, s.a})
		}
		if s.next == freeEnd {
			ends = append(ends, end{k, s.b})
		}
	}
	if len(ends) == 0 || len(starts) == 0 {
		return l
	}
	nearest := func(to orb.Point, of []end) (int, float64) {
		best, least := -1, math.Inf(1)
		for i, e := range of {
			if d := flat.Distance(e.at, to); d < least {
				best, least = i, d
			}
		}
		return best, least
	}
	out := l
	for i, e := range ends {
		j, d := nearest(e.at, starts)
		if back, _ := nearest(starts[j].at, ends); d > sameLine || back != i {
			continue
		}
		if out == l {
			out = &Lines{layer: l.layer, segs: slices.Clone(l.segs), use: slices.Clone(l.use)}
		}
		from, to := e.k, starts[j].k
		if d > jumpWithin { // what lies between belongs to the first
			k := int32(len(out.segs))
			bridge := segment{a: e.at, b: starts[j].at, prev: from, next: to, strand: out.segs[from].strand, vertex: out.segs[from].vertex}
			out.segs, out.use = append(out.segs, bridge), append(out.use, k)
			out.segs[from].next, out.segs[to].prev = k, k
			continue
		}
		out.segs[from].next, out.segs[to].prev = to, from
	}
	if out != l {
		for _, c := range out.chains() {
			for _, k := range c.segs {
				out.segs[k].ring = out.segs[k].ring || c.loop
			}
		}
	}
	return out
}

// withoutRocks parts the lines into shores and rocks: closed lines round land that is
// less across than the structure is long. If there are only rocks, they are shores.
func (l *Lines) withoutRocks(fp *Footprint) (shores, rocks *Lines) {
	var small map[int32]bool
	long := -1.0
	for _, c := range l.chains() {
		if !c.loop || !l.roundLand(c) {
			continue
		}
		if long < 0 {
			long = fp.long()
		}
		if widest(l.points(c)) < long {
			if small == nil {
				small = map[int32]bool{}
			}
			for _, k := range c.segs {
				small[k] = true
			}
		}
	}
	if small == nil || len(small) == len(l.use) {
		return l, nil
	}
	return l.where(func(k int32, _ *segment) bool { return !small[k] }), l.where(func(k int32, _ *segment) bool { return small[k] })
}

// roundLand reports whether a closed chain has the water outside.
func (l *Lines) roundLand(c chain) bool {
	area, from := 0.0, l.segs[c.segs[0]].a
	for _, k := range c.segs {
		area += flat.Cross(from, l.segs[k].a, l.segs[k].b)
	}
	return area < 0
}

// long is the greatest distance between two places of the footprint.
func (fp *Footprint) long() float64 {
	var all []orb.Point
	for i := range fp.Elements {
		fp.Elements[i].eachVertex(func(p orb.Point) { all = append(all, p) })
	}
	return widest(all)
}

// widest is the greatest distance between two of some points.
func widest(points []orb.Point) float64 {
	hull := hullOf(points)
	most := 0.0
	for i := range hull {
		for _, q := range hull[i+1:] {
			most = max(most, flat.Distance(hull[i], q))
		}
	}
	return most
}

// hullOf are the corners of the convex hull of some points.
func hullOf(points []orb.Point) []orb.Point {
	points = slices.Clone(points)
	slices.SortFunc(points, func(a, b orb.Point) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	var out []orb.Point
	for range 2 {
		base := len(out)
		for _, p := range points {
			for len(out) >= base+2 && flat.Cross(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
		slices.Reverse(points)
	}
	return out
}
