package screening

import (
	"cmp"
	"context"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
)

// front is a stretch of the mean high water line that one parcel, or nobody, fronts.
type front struct {
	parcel   int         // item of the parcels layer; -1 if nobody's
	strand   int         // of the high water layer
	from, to float64     // stations in metres from the first position of the strand; over the seam of a closed one to is more than its length
	whole    bool        // all of a closed strand
	points   []orb.Point // degrees, along the strand, with every vertex of it between
	gap      float64     // metres, greatest distance between the shore and the parcel over it; 0 where the parcel reaches or overlaps it
	why      string      // why frontage cannot be told here; then parcel is -1
}

const (
	// frontStep is how often, in metres, the shore is asked whose it is, besides at
	// every vertex: less than the frontage of any lot.
	frontStep = 1.0
	// frontEnd is how close, in metres (0.001 ft), the end of a front is found: a
	// tenth of what it must be right within.
	frontEnd = 0.001 * foot
	// equallyNear is by how much, in metres (0.01 ft), one parcel may be nearer than
	// another without being the nearer one: what distances are right within.
	equallyNear = 0.01 * foot
	// cornerRounding is how far apart, in metres (0.05 ft), one corner may lie when
	// it is written twice with seven decimals, which are off by up to 0.018 ft each
	// way. No front is shorter, nor a gap between two.
	cornerRounding = 0.05 * foot
	// besideShore is how far from the shore, in metres (0.1 ft), it is asked on which
	// side of it a parcel lies that ends on it.
	besideShore = 0.1 * foot
	// chunkLength is how much of a strand, in metres, is walked at once: short enough
	// for one plane and for what tells its water side to be near.
	chunkLength = 2000.0
	// chunkMargin is how much more of the strand, in metres (500 ft), is looked at
	// before and after: an end found there can cut a front back by not much more than
	// the tolerance.
	chunkMargin = 500 * foot
	// aroundLength is for how much shore, in metres, what lies near is looked up once.
	aroundLength = 50.0
	// mostTried is how many points are tried for one that lies off all outlines.
	mostTried = 20
)

// fronts finds which stretch of the mean high water line each parcel fronts, in order
// of strand and station, the same for any number of workers.
//
// Shore within a parcel is fronted by it. Other shore is fronted by the nearest
// parcel within the tolerance to which the straight way leads over land. Parcels as
// near as one another, as stacked ones are, each get their front. What a parcel does
// not hold it fronts no farther than where its side lines, carried on straight, meet
// the shore (see [geo.Baseline.Carried]): shore that it lies beside, as a street's end,
// is not its own.
//
// The shore is asked at every vertex and every metre: a front, or a gap, shorter than
// that can be missed. The gap is the greatest at these places.
func (m *mapped) fronts(ctx context.Context, radius, tolerance float64, workers int) ([]front, error) {
	return m.frontage(radius, tolerance).find(ctx, chunkLength, workers)
}

// frontage is the search for fronts.
type frontage struct {
	layers         *mapped
	shore, parcels *geo.Layer
	radius         float64 // within which evidence of the water side is looked for
	tolerance      float64 // how far a parcel may end from the shore
}

func (m *mapped) frontage(radius, tolerance float64) *frontage {
	return &frontage{m, m.layer("high_water").geo, m.layer("parcels").geo, radius, tolerance}
}

// chunk is a piece of a strand, from one of its vertices to another.
type chunk struct {
	strand   int
	from, to int
	plane    *geo.Plane
	stations []float64 // of its vertices, from its first
	water    int       // +1: on its left, -1: on its right, 0: not settled
	why      string    // it is not settled
	silent   bool      // nothing near says anything
}

// owner is a parcel that fronts, or why it cannot be told whether one does.
type owner struct {
	parcel int
	why    string
}

// nobody owns shore that no parcel fronts.
var nobody = owner{parcel: -1}

// stretch is a piece of shore between two stations.
type stretch struct {
	owner
	from, to, gap float64
}

// find walks every strand in chunks of so many metres.
func (f *frontage) find(ctx context.Context, length float64, workers int) ([]front, error) {
	strands := make([][]*chunk, f.shore.Strands())
	var all []*chunk
	for n := range strands {
		strands[n] = f.cut(n, length)
		all = append(all, strands[n]...)
	}
	settle := func(i int) *chunk { return f.settled(all[i]) }
	if err := inOrder(ctx, len(all), workers, settle, func(int, *chunk) error { return nil }); err != nil {
		return nil, err
	}
	for _, chunks := range strands {
		inherit(chunks)
	}
	found := make([][2][]stretch, len(all)) // fronts, and where they cannot be told
	walk := func(i int) [2][]stretch { return f.walk(all[i]) }
	if err := inOrder(ctx, len(all), workers, walk, func(i int, s [2][]stretch) error { found[i] = s; return nil }); err != nil {
		return nil, err
	}
	var out []front
	for n, chunks := range strands {
		out = append(out, f.join(n, chunks, found[:len(chunks)])...)
		found = found[len(chunks):]
	}
	return out, nil
}

// cut parts a strand into chunks.
func (f *frontage) cut(strand int, length float64) []*chunk {
	points, _ := f.shore.Strand(strand)
	var out []*chunk
	for from := 0; from < len(points)-1; {
		c := &chunk{strand: strand, from: from, to: from, plane: geo.NewPlane(points[from]), stations: []float64{0}}
		at, sum := c.plane.Forward(points[from]), 0.0
		for c.to < len(points)-1 && sum < length {
			c.to++
			next := c.plane.Forward(points[c.to])
			sum += math.Hypot(next[0]-at[0], next[1]-at[1])
			c.stations = append(c.stations, sum)
			at = next
		}
		out = append(out, c)
		from = c.to
	}
	return out
}

// settled looks on which side of a chunk the water lies.
func (f *frontage) settled(c *chunk) *chunk {
	points, _ := f.shore.Strand(c.strand)
	s := &site{
		fp: &geo.Footprint{Plane: c.plane}, layers: f.layers, radius: f.radius,
		window: geo.Window(orb.MultiPoint(points[c.from:c.to+1]).Bound(), f.radius), lines: map[*geo.Layer]*geo.Lines{},
	}
	for _, w := range s.near(f.shore).Facings(s.waterEvidence("high_water")) {
		if w.Strand() == c.strand {
			c.water, c.why, c.silent = w.Water(), w.Why, len(w.By) == 0
		}
	}
	return c
}

// inherit carries the water side along a strand to where nothing near tells it, if
// all of the strand that is settled agrees: a line has the water on one side.
func inherit(chunks []*chunk) {
	left, right := 0, 0
	for _, c := range chunks {
		left, right = max(left, c.water), min(right, c.water)
	}
	for _, c := range chunks {
		if c.silent {
			c.water = left + right
		}
	}
}

// walk is a chunk with some more of its strand before and after, in the plane.
type walk struct {
	*frontage
	c           *chunk
	edges       []int // of the strand
	base        geo.Baseline
	first, last float64 // stations between which the chunk itself lies
	starts      bool    // the strand starts here
	ends        bool
	places      []place
	known       map[float64][]claim
	around      []*surroundings // of each edge
}

// place is a place of an edge.
type place struct {
	edge    int
	station float64
}

// claim is how near a parcel comes to a place of the shore.
type claim struct {
	parcel   int
	gap      float64 // 0 where it holds the place
	outlines *geo.Lines
	foot     geo.Foot // on them
}

// surroundings are what lies near some edges.
type surroundings struct {
	shore    geo.Shore
	outlines *geo.Lines // of the parcels
	at       orb.Point  // a point of them
	holders  []int      // the parcels that hold it
}

// holding are the parcels that hold a point: of a parcel with a long outline only what
// is near is looked at.
func (s *surroundings) holding(at orb.Point) []int {
	out := slices.Clone(s.holders)
	for _, parcel := range s.outlines.Crossed(s.at, at) {
		if k := slices.Index(out, parcel); k >= 0 {
			out = slices.Delete(out, k, k+1)
		} else {
			out = append(out, parcel)
		}
	}
	return out
}

// walk finds what of a chunk parcels front, and where that cannot be told.
func (f *frontage) walk(c *chunk) (found [2][]stretch) {
	length := c.stations[len(c.stations)-1]
	if c.water == 0 {
		found[1] = []stretch{{owner: owner{-1, f.layers.layer("high_water").title + ": " + c.why}, to: length}}
		return found
	}
	w := f.newWalk(c)
	found = [2][]stretch{w.fronts(), w.doubts()}
	for _, all := range found {
		for i, s := range all { // so that neighbouring chunks meet exactly
			all[i].from = s.from - w.first
			if all[i].to = s.to - w.first; s.to == w.last {
				all[i].to = length
			}
		}
	}
	return found
}

func (f *frontage) newWalk(c *chunk) *walk {
	points, closed := f.shore.Strand(c.strand)
	n := len(points) - 1
	wrapped := func(i int) int { return i }
	if closed {
		wrapped = func(i int) int { return ((i % n) + n) % n }
	}
	forward := func(i int) orb.Point { return c.plane.Forward(points[wrapped(i)]) }
	// reach is the vertex so far on, or the end, or once round.
	reach := func(from, step, end int) int {
		to, sum := from, 0.0
		for at := forward(from); sum < chunkMargin && to != end; {
			to += step
			next := forward(to)
			sum += math.Hypot(next[0]-at[0], next[1]-at[1])
			at = next
		}
		return to
	}
	low, high := 0, n
	if closed {
		low, high = c.from-n, c.to+n
	}
	low, high = reach(c.from, -1, low), reach(c.to, 1, high)
	w := &walk{
		frontage: f, c: c, known: map[float64][]claim{}, around: make([]*surroundings, high-low),
		starts: !closed && low == 0, ends: !closed && high == n,
	}
	var line []orb.Point
	for i := low; i <= high; i++ {
		line = append(line, forward(i))
		w.edges = append(w.edges, wrapped(i))
	}
	w.base = geo.NewBaseline(line)
	for edge := range high - low {
		from, to := w.base.Station(edge, 0), w.base.Length()
		if edge+1 < high-low {
			to = w.base.Station(edge+1, 0)
		}
		if low+edge == c.from {
			w.first = from
		}
		if low+edge+1 == c.to {
			w.last = to
		}
		steps := math.Ceil((to - from) / frontStep)
		for k := 0.0; k < steps; k++ {
			w.places = append(w.places, place{edge, from + k/steps*(to-from)})
		}
	}
	w.places = append(w.places, place{high - low - 1, w.base.Length()})
	return w
}

// claims are those of the parcels that may front a place, in order of parcel.
func (w *walk) claims(p place) []claim {
	if known, ok := w.known[p.station]; ok {
		return known
	}
	near, edge, at := w.near(p.edge), w.edges[p.edge], w.base.At(p.station)
	holders := near.holding(at)
	var out []claim
	for _, foot := range near.shore.Behind(edge, at, near.outlines, w.tolerance) {
		c := claim{near.outlines.Item(foot), foot.Distance, near.outlines, foot}
		if k := slices.Index(holders, c.parcel); k >= 0 {
			c.gap, holders = 0, slices.Delete(holders, k, k+1)
		}
		if foot.Distance == 0 { // its outline is the shore: water is no land with a shore
			landward, waterward := near.shore.Beside(edge, at, besideShore)
			if slices.Contains(near.holding(waterward), c.parcel) && !slices.Contains(near.holding(landward), c.parcel) {
				continue
			}
		}
		out = append(out, c)
	}
	for _, parcel := range holders {
		out = append(out, claim{parcel: parcel})
	}
	slices.SortFunc(out, func(a, b claim) int { return cmp.Compare(a.parcel, b.parcel) })
	w.known[p.station] = out
	return out
}

// claim is that of one parcel, if it has one.
func (w *walk) claim(p place, parcel int) (claim, bool) {
	all := w.claims(p)
	k, ok := slices.BinarySearchFunc(all, parcel, func(c claim, parcel int) int { return cmp.Compare(c.parcel, parcel) })
	if !ok {
		return claim{}, false
	}
	return all[k], true
}

// near is what lies near an edge.
func (w *walk) near(edge int) *surroundings {
	if s := w.around[edge]; s != nil {
		return s
	}
	points, _ := w.shore.Strand(w.c.strand)
	s, start := &surroundings{}, w.base.Station(edge, 0)
	bound := points[w.edges[edge]].Bound()
	for e := edge; e == edge || e < len(w.around) && w.base.Station(e, 1)-start <= aroundLength; e++ {
		bound = bound.Extend(points[w.edges[e]+1])
		w.around[e] = s
	}
	window := geo.Window(bound, w.tolerance+geo.SideLine)
	s.shore = geo.Shore{Near: w.shore.Near(w.c.plane, window), Strand: w.c.strand, Water: w.c.water}
	s.outlines = w.parcels.Near(w.c.plane, window)
	// A point on an outline would be held, or not, by chance: take one off all of them.
	for k, clear := 1, false; !clear && k <= mostTried; k++ {
		_, t := math.Modf(float64(k) * math.Phi)
		s.at, _ = s.shore.Beside(w.edges[edge], w.base.At(w.base.Station(edge, t)), (1+t)*besideShore)
		clear = s.outlines.Nearest(s.at).Distance > equallyNear
	}
	s.holders = w.parcels.AreasAt(w.c.plane.Inverse(s.at))
	return s
}

// fronts finds what of the chunk parcels front.
func (w *walk) fronts() []stretch {
	claimants := func(p place) []owner {
		var out []owner
		for _, c := range w.claims(p) {
			out = append(out, owner{parcel: c.parcel})
		}
		return out
	}
	var within []stretch
	cuts := []float64{w.first, w.last}
	for _, s := range w.along(w.places, claimants) {
		s = w.carried(s)
		within = append(within, s)
		for _, end := range []float64{s.from, s.to} {
			if w.first < end && end < w.last {
				cuts = append(cuts, end)
			}
		}
	}
	slices.Sort(cuts)
	var out []stretch
	for i := 1; i < len(cuts); i++ {
		from, to := cuts[i-1], cuts[i]
		var rivals []int
		for _, s := range within {
			if from < to && s.from <= from && to <= s.to {
				rivals = append(rivals, s.parcel)
			}
		}
		if len(rivals) == 1 {
			out = append(out, stretch{owner: owner{parcel: rivals[0]}, from: from, to: to})
		} else if len(rivals) > 1 {
			out = append(out, w.along(w.between(from, to), func(p place) []owner { return w.nearest(p, rivals) })...)
		}
	}
	out = joined(out)
	for i, s := range out {
		for _, p := range w.between(s.from, s.to) {
			if c, ok := w.claim(p, s.parcel); ok {
				out[i].gap = max(out[i].gap, c.gap)
			}
		}
	}
	return out
}

// carried cuts a stretch back to where the side lines of its parcel meet the shore,
// but no farther than to what the parcel holds.
func (w *walk) carried(s stretch) stretch {
	places := w.between(s.from, s.to)
	firstHeld, lastHeld := s.to, s.from
	for _, h := range w.along(places, func(p place) []owner {
		if c, ok := w.claim(p, s.parcel); ok && c.gap == 0 {
			return []owner{s.owner}
		}
		return nil
	}) {
		firstHeld, lastHeld = min(firstHeld, h.from), max(lastHeld, h.to)
	}
	// Side lines that meet before the shore leave what the parcel's ends are nearest to.
	// A side line can meet the shore just where it begins to be held.
	out := s
	for _, reach := range []float64{2 * w.tolerance, 0} {
		if c, ok := w.claim(places[0], s.parcel); ok && c.gap > 0 && (s.from > 0 || w.starts) {
			out.from = min(firstHeld, w.base.Carried(c.outlines, c.foot, s.from, min(firstHeld+cornerRounding, s.to), reach))
		}
		if c, ok := w.claim(places[len(places)-1], s.parcel); ok && c.gap > 0 && (s.to < w.base.Length() || w.ends) {
			out.to = max(lastHeld, w.base.Carried(c.outlines, c.foot, max(lastHeld-cornerRounding, s.from), s.to, reach))
		}
		if out.from < out.to {
			break
		}
	}
	return out
}

// nearest are those of some parcels that are nearest to a place.
func (w *walk) nearest(p place, rivals []int) []owner {
	least := math.Inf(1)
	claims := slices.DeleteFunc(slices.Clone(w.claims(p)), func(c claim) bool { return !slices.Contains(rivals, c.parcel) })
	for _, c := range claims {
		least = min(least, c.gap)
	}
	var out []owner
	for _, c := range claims {
		if c.gap == least || least > 0 && c.gap <= least+equallyNear {
			out = append(out, owner{parcel: c.parcel})
		}
	}
	return out
}

// doubts finds where it cannot be told that nobody fronts.
func (w *walk) doubts() []stretch {
	points, _ := w.shore.Strand(w.c.strand)
	if w.parcels.DefectNear(geo.Window(orb.MultiPoint(points[w.c.from:w.c.to+1]).Bound(), w.tolerance)) == nil {
		return nil
	}
	return w.along(w.between(w.first, w.last), func(p place) []owner {
		at := w.c.plane.Inverse(w.base.At(p.station))
		d := w.parcels.DefectNear(geo.Window(at.Bound(), w.tolerance))
		if d == nil {
			return nil
		}
		return []owner{{-1, "a parcel near here cannot be used: " + d.Err.Error()}}
	})
}

// along finds the stretches between the first and the last of some places over which
// each owner holds.
func (w *walk) along(places []place, holds func(place) []owner) []stretch {
	var out []stretch
	open := map[owner]float64{}
	var before []owner
	for i, p := range places {
		now := holds(p)
		for _, o := range now {
			if !slices.Contains(before, o) {
				open[o] = p.station
				if i > 0 {
					open[o] = w.turn(p, places[i-1], o, holds)
				}
			}
		}
		for _, o := range before {
			if !slices.Contains(now, o) {
				out = append(out, stretch{owner: o, from: open[o], to: w.turn(places[i-1], p, o, holds)})
			}
		}
		before = now
	}
	for _, o := range before {
		out = append(out, stretch{owner: o, from: open[o], to: places[len(places)-1].station})
	}
	return joined(out)
}

// turn is how far an owner holds from one place towards another.
func (w *walk) turn(in, out place, o owner, holds func(place) []owner) float64 {
	edge := min(in.edge, out.edge) // a vertex belongs to the edge behind it
	yes, no := in.station, out.station
	for math.Abs(yes-no) > frontEnd {
		middle := (yes + no) / 2
		if slices.Contains(holds(place{edge, middle}), o) {
			yes = middle
		} else {
			no = middle
		}
	}
	return yes
}

// between are the places from one station to another.
func (w *walk) between(from, to float64) []place {
	first, last := w.index(from), w.index(to)
	out := append([]place{{w.places[first].edge, from}}, w.places[first+1:last+1]...)
	return append(out, place{w.places[last].edge, to})
}

// index is that of the last place at or before a station.
func (w *walk) index(station float64) int {
	i, exact := slices.BinarySearchFunc(w.places, station, func(p place, s float64) int { return cmp.Compare(p.station, s) })
	if exact {
		return i
	}
	return max(0, i-1)
}

// join puts together what was found in the chunks of a strand.
func (f *frontage) join(strand int, chunks []*chunk, found [][2][]stretch) []front {
	points, closed := f.shore.Strand(strand)
	stations := []float64{0}
	var owned, doubts []stretch
	for i, c := range chunks {
		start := stations[len(stations)-1]
		for _, s := range c.stations[1:] {
			stations = append(stations, start+s)
		}
		for k, into := range []*[]stretch{&owned, &doubts} {
			for _, s := range found[i][k] {
				s.from, s.to = s.from+start, s.to+start
				*into = append(*into, s)
			}
		}
	}
	length := stations[len(stations)-1]
	owned = joined(owned)
	if closed {
		owned = overSeam(owned, length)
	}
	owned = slices.DeleteFunc(owned, func(s stretch) bool { return s.to-s.from < cornerRounding })
	closeGaps(owned, length)
	left := unowned(owned, joined(doubts), length)
	if closed {
		left = overSeam(left, length)
	}
	all := append(owned, left...)
	slices.SortFunc(all, byStation)
	out := make([]front, len(all))
	for i, s := range all {
		out[i] = front{
			parcel: s.parcel, strand: strand, from: s.from, to: s.to, gap: s.gap, why: s.why,
			whole: closed && s.from == 0 && s.to == length, points: pointsBetween(points, stations, s.from, s.to),
		}
	}
	return out
}

func byStation(a, b stretch) int {
	return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.parcel, b.parcel))
}

// joined makes one of the stretches of an owner that meet, but for rounding.
func joined(all []stretch) []stretch {
	slices.SortFunc(all, func(a, b stretch) int {
		return cmp.Or(cmp.Compare(a.parcel, b.parcel), cmp.Compare(a.why, b.why), cmp.Compare(a.from, b.from))
	})
	var out []stretch
	for _, s := range all {
		if last := len(out) - 1; last >= 0 && out[last].owner == s.owner && s.from-out[last].to <= cornerRounding {
			out[last].to, out[last].gap = max(out[last].to, s.to), max(out[last].gap, s.gap)
		} else {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, byStation)
	return out
}

// overSeam makes one of the stretches of an owner that meet at the seam of a closed
// strand.
func overSeam(all []stretch, length float64) []stretch {
	begins := func(s stretch) bool { return s.from <= cornerRounding }
	ends := func(s stretch) bool { return length-s.to <= cornerRounding }
	after := map[owner]stretch{}
	for _, s := range all {
		if begins(s) && !ends(s) {
			after[s.owner] = s
		}
	}
	met := map[owner]bool{}
	for i, s := range all {
		if next, ok := after[s.owner]; ok && ends(s) && !begins(s) {
			all[i].to, all[i].gap, met[s.owner] = length+next.to, max(s.gap, next.gap), true
		}
	}
	return slices.DeleteFunc(all, func(s stretch) bool { return begins(s) && !ends(s) && met[s.owner] })
}

// closeGaps closes gaps between fronts that are only rounding.
func closeGaps(owned []stretch, length float64) {
	reach := 0.0
	for _, s := range owned {
		reach = max(reach, s.to-length)
	}
	for i := range owned {
		if s := &owned[i]; s.from-reach < cornerRounding {
			s.from = min(s.from, reach)
		}
		reach = max(reach, owned[i].to)
	}
	for i := range owned {
		if s := &owned[i]; s.to == reach && reach > length-cornerRounding {
			s.to = max(reach, length)
		}
	}
}

// unowned is what of the shore the stretches leave, parted where there are doubts.
func unowned(owned, doubts []stretch, length float64) []stretch {
	var out []stretch
	add := func(o owner, from, to float64) {
		if from < to {
			out = append(out, stretch{owner: o, from: from, to: to})
		}
	}
	reach := 0.0
	for _, s := range owned {
		reach = max(reach, s.to-length)
	}
	for _, s := range append(slices.Clone(owned), stretch{from: length, to: length}) {
		for len(doubts) > 0 && reach < s.from {
			d := doubts[0]
			if d.from >= s.from {
				break
			}
			add(nobody, reach, d.from)
			add(d.owner, max(reach, d.from), min(d.to, s.from))
			reach = max(reach, min(d.to, s.from))
			if d.to > s.from {
				break
			}
			doubts = doubts[1:]
		}
		add(nobody, reach, s.from)
		reach = max(reach, s.to)
	}
	return out
}

// pointsBetween are the positions of a strand from one station to another.
func pointsBetween(points []orb.Point, stations []float64, from, to float64) []orb.Point {
	last := len(points) - 1
	if over := to - stations[last]; over > 0 {
		return append(pointsBetween(points, stations, from, stations[last]), pointsBetween(points, stations, 0, over)[1:]...)
	}
	at := func(edge int, station float64) orb.Point {
		p, q := points[edge], points[edge+1]
		t := (station - stations[edge]) / (stations[edge+1] - stations[edge])
		return orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
	}
	first, _ := slices.BinarySearch(stations, from)
	out := []orb.Point{}
	if first > 0 && stations[first] > from {
		out = append(out, at(first-1, from))
	}
	for ; first <= last && stations[first] <= to; first++ {
		out = append(out, points[first])
	}
	if first <= last && stations[first-1] < to {
		out = append(out, at(first-1, to))
	}
	return out
}
