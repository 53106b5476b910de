package geo

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// connect joins parts that touch into elements, in the order drawn.
func connect(parts []Element) []Element {
	if len(parts) == 1 {
		return parts
	}
	group := make(groups, len(parts))
	for i := range group {
		group[i] = i
	}
	beside(parts, func(i, j int) bool {
		if group.root(i) != group.root(j) && clearWidth(&parts[i], &parts[j], 2*touching).Width <= touching {
			group.unite(i, j)
		}
		return true
	})
	var out []Element
	place := map[int]int{}
	grown := map[int]bool{}
	for i, p := range parts {
		r := group.root(i)
		if k, ok := place[r]; ok {
			e := &out[k]
			e.Areas = append(e.Areas, p.Areas...)
			e.pieces = append(e.pieces, p.pieces...)
			e.Lines = append(e.Lines, p.Lines...)
			e.of = append(e.of, p.of...)
			e.Length += p.Length
			e.Discs = e.Discs && p.Discs
			grown[k] = true
			continue
		}
		place[r] = len(out)
		out = append(out, p)
	}
	for k := range grown {
		out[k].settle()
	}
	return out
}

// beside visits the pairs of parts, the later first, whose circles come within touching,
// until visit returns false.
func beside(parts []Element, visit func(i, j int) bool) {
	circles := flat.NewIndex(len(parts), func(i int) flat.Box { return parts[i].circle(0) })
	for i := range parts {
		if !circles.Search(parts[i].circle(2*touching), func(j int) bool {
			return j >= i || parts[i].gapAtLeast(&parts[j]) > touching || visit(i, j)
		}) {
			return
		}
	}
}

// circle is the box round the circle that holds the element, so much wider.
func (e *Element) circle(by float64) flat.Box {
	r := e.radius + by
	return flat.Box{MinX: e.centre[0] - r, MinY: e.centre[1] - r, MaxX: e.centre[0] + r, MaxY: e.centre[1] + r}
}

// gapAtLeast is a lower bound of the clear width between two elements.
func (e *Element) gapAtLeast(o *Element) float64 {
	return flat.Distance(e.centre, o.centre) - e.radius - o.radius
}

// clearWidth returns the clear water between two elements, if that is less than a limit;
// else the limit.
func clearWidth(e, o *Element, limit float64) Link {
	if e.IsDisc() && o.IsDisc() {
		return betweenDiscs(e.Lines[0][0], o.Lines[0][0], e.Length/2, o.Length/2)
	}
	best := Link{Width: limit}
	if e.box.Away(&o.box) > limit+flat.BoxSlack {
		return best
	}
	e.edgesNear(&o.box, limit, func(a, b orb.Point) {
		edge := flat.Edge{A: a, B: b}.Box(0)
		if edge.Away(&o.box) > best.Width+flat.BoxSlack {
			return
		}
		o.edgesNear(&edge, best.Width, func(c, d orb.Point) {
			if boundsApart(a, b, c, d) > best.Width+flat.BoxSlack {
				return
			}
			if w, p, q := betweenSegments(a, b, c, d); w < best.Width {
				best = Link{Width: w, From: p, To: q}
			}
		})
	})
	if best.Width > 0 && (e.holds(o) || o.holds(e)) {
		best.Width = 0
	}
	return best
}

// IsDisc reports whether the element is one point with a diameter, its length.
func (e *Element) IsDisc() bool { return e.Discs && len(e.Lines) == 1 && e.Length > 0 }

// disc is the middle and the radius of an element that is one, of which a proposal may
// have hundreds: what a circle answers need not be asked of its outline.
func (e *Element) disc() (centre orb.Point, radius float64, is bool) {
	if !e.IsDisc() {
		return centre, 0, false
	}
	return e.Lines[0][0], e.Length / 2, true
}

// betweenDiscs spares the outlines of discs, of which a proposal of reef
// modules has hundreds.
func betweenDiscs(a, b orb.Point, ra, rb float64) Link {
	d := flat.Distance(a, b)
	if d <= ra+rb {
		return Link{From: a, To: b}
	}
	way := flat.Direction(a, b)
	return Link{
		Width: d - ra - rb,
		From:  orb.Point{a[0] + ra*way[0], a[1] + ra*way[1]}, To: orb.Point{b[0] - rb*way[0], b[1] - rb*way[1]},
	}
}

// holds reports whether o, which does not cross e, lies inside it.
func (e *Element) holds(o *Element) bool {
	p := o.parts[0][0]
	return e.box.Squared(p) == 0 && e.contains(p)
}

// spanningTree returns the openings that join all elements with the least clear
// width in all (Prim's algorithm, the exact widths taken only where a bound on
// them does not settle it), narrowest first.
func spanningTree(elements []Element) []Link {
	n := len(elements)
	if n < 2 {
		return nil
	}
	nearest := make([]Link, n)
	joined := make([]bool, n)
	for i := range nearest {
		nearest[i].Width = math.Inf(1)
	}
	var out []Link
	for last := 0; len(out) < n-1; {
		joined[last] = true
		next := -1
		for j := range elements {
			if joined[j] {
				continue
			}
			if elements[last].gapAtLeast(&elements[j]) < nearest[j].Width {
				if w := clearWidth(&elements[last], &elements[j], nearest[j].Width); w.Width < nearest[j].Width {
					w.A, w.B = last, j
					nearest[j] = w
				}
			}
			if next < 0 || nearest[j].Width < nearest[next].Width {
				next = j
			}
		}
		out = append(out, nearest[next])
		last = next
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Width < out[j].Width })
	return out
}

// Length is the sum of the lengths of the elements, in metres.
func (fp *Footprint) Length() float64 {
	sum := 0.0
	for _, e := range fp.Elements {
		sum += e.Length
	}
	return sum
}

// OverallLength is the length of the elements and of the openings between them.
func (fp *Footprint) OverallLength() float64 {
	sum := fp.Length()
	for _, l := range fp.Links {
		sum += l.Width
	}
	return sum
}

// LongestRun returns the length of the longest string of elements in which no
// opening is as wide as opening (metres), with the too-narrow openings in it.
// An opening of exactly that width counts as one.
func (fp *Footprint) LongestRun(opening float64) float64 {
	return fp.run().longest[fp.Narrower(opening)]
}

// Narrower is how many openings are narrower than one of that width (metres); they are
// the first.
func (fp *Footprint) Narrower(opening float64) int {
	return sort.Search(len(fp.Links), func(i int) bool { return !(fp.Links[i].Width < opening) })
}

// runs are the greatest of all runs, by how many of the openings, the narrowest first, are
// too narrow to count.
type runs struct {
	longest []float64 // length, metres
	spacing []float64 // see OpeningSpacing
}

func (fp *Footprint) run() *runs {
	if fp.runs == nil { // made otherwise than by NewFootprint, of one element
		return newRuns(fp.Elements, fp.Links)
	}
	return fp.runs
}

// newRuns joins elements one opening after the other. The openings beside a run are wider
// than that which is joined next, so of them the two widest are known by those of its parts;
// and what is joined comes to no less than either part did.
func newRuns(elements []Element, links []Link) *runs {
	of, length := make(groups, len(elements)), make([]float64, len(elements))
	beside := make([][2]int, len(elements)) // the numbers of the two widest, the widest last; -1: none
	for i, e := range elements {
		of[i], length[i], beside[i] = i, e.Length, [2]int{-1, -1}
	}
	for i, l := range links {
		for _, k := range [2]int{l.A, l.B} {
			beside[k] = [2]int{beside[k][1], i}
		}
	}
	width := func(i int) float64 {
		if i < 0 {
			return 0
		}
		return links[i].Width
	}
	r := &runs{longest: []float64{0}, spacing: []float64{0}}
	take := func(run int) {
		last := len(r.longest) - 1
		r.longest[last] = math.Max(r.longest[last], length[run])
		r.spacing[last] = math.Max(r.spacing[last], length[run]+(width(beside[run][0])+width(beside[run][1]))/2)
	}
	for i := range elements {
		take(i)
	}
	for i, l := range links {
		a, b := of.root(l.A), of.root(l.B)
		both := []int{beside[a][0], beside[a][1], beside[b][0], beside[b][1]}
		slices.Sort(both)
		both = slices.DeleteFunc(both, func(k int) bool { return k == i })
		of[b], length[a] = a, length[a]+(length[b]+l.Width)
		beside[a] = [2]int(both[len(both)-2:])
		r.longest, r.spacing = append(r.longest, r.longest[i]), append(r.spacing, r.spacing[i])
		take(a)
	}
	return r
}
