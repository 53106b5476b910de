package geo

import (
	"cmp"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/geo/geojson"
)

// spanLength is how many edges share one box of the index: long enough to keep
// the index small, short enough that a box stays close to its edges.
const spanLength = 16

// Layer is a mapped layer: its lines and the rings of its areas, indexed once
// in degrees. It is not changed after Build and may be read by many goroutines.
type Layer struct {
	Items   []Item
	Defects []Defect

	strands  []strand
	spans    []span
	index    *flat.Index // of spans
	areas    *flat.Index // of items with an area, by bound
	withArea []int32     // those items
	bound    orb.Bound
	hasAny   bool
}

// Item is one usable feature of a layer.
type Item struct {
	Area  orb.MultiPolygon // degrees; nil for a line
	Bound orb.Bound
	size  int // positions of the area
}

// Defect is a feature that could not be used. Where is empty if none of its
// positions could be read.
type Defect struct {
	Err   *geojson.FeatureError
	Where orb.Bound
	Known bool // Where holds something
}

// strand is one line or ring, or several lines joined end to end.
type strand struct {
	points []orb.Point // degrees, subdivided
	closed bool
	// insideRight says that of a ring of an area the inside lies on the right.
	insideRight bool
	runs        []run
}

// run says which line of which item the edges of a strand from a vertex on are.
type run struct {
	from     int
	item     int32
	part     int32 // of the lines of the item
	reversed bool  // against the direction in which the item was drawn
}

type span struct{ strand, from, to int32 } // vertices from..to of a strand

// LayerBuilder gathers the features of a layer.
type LayerBuilder struct {
	layer    Layer
	polygons block[orb.Polygon]
	rings    block[orb.Ring]
	runs     block[run]
}

// AddLine adds a line feature; items are numbered in the order added.
func (b *LayerBuilder) AddLine(lines ...orb.LineString) {
	item := b.item(Item{Bound: flat.BoundOf(orb.MultiLineString(lines))})
	for part, line := range lines {
		if b.strand(line, item) {
			b.layer.strands[len(b.layer.strands)-1].runs[0].part = int32(part)
		}
	}
}

// AddArea adds an area feature. The area must be valid (see [area.Check]).
func (b *LayerBuilder) AddArea(area orb.MultiPolygon) {
	area = b.polygons.hold(area)
	for i := range area {
		area[i] = b.rings.hold(area[i])
	}
	item := b.item(Item{Area: area, Bound: flat.BoundOf(area), size: sizeOfArea(area)})
	for _, polygon := range area {
		for i, ring := range polygon {
			if b.strand(orb.LineString(ring), item) && (ring.Orientation() == orb.CCW) != (i == 0) {
				b.layer.strands[len(b.layer.strands)-1].insideRight = true
			}
		}
	}
}

func (b *LayerBuilder) item(it Item) int {
	b.Pass(it.Bound)
	b.layer.Items = append(b.layer.Items, it)
	return len(b.layer.Items) - 1
}

// Pass counts a feature into the extent of the layer and leaves it out, as it
// lies beyond the reach of whatever will be asked.
func (b *LayerBuilder) Pass(bound orb.Bound) {
	l := &b.layer
	if l.hasAny {
		l.bound = l.bound.Union(bound)
	} else {
		l.bound, l.hasAny = bound, true
	}
}

// strand adds a line; false if every position is the same, and there is none.
func (b *LayerBuilder) strand(line orb.LineString, item int) bool {
	points := crs.Subdivide(line)
	if len(points) < 2 {
		return false
	}
	b.layer.strands = append(b.layer.strands, strand{
		points: points,
		closed: len(points) > 3 && points[0] == points[len(points)-1],
		runs:   b.runs.hold([]run{{item: int32(item)}}),
	})
	return true
}

// AddDefect records a feature that cannot be used, with what is known of where
// it lies.
func (b *LayerBuilder) AddDefect(err *geojson.FeatureError, where orb.Bound, known bool) {
	b.layer.Defects = append(b.layer.Defects, Defect{err, where, known})
}

// Build indexes what was added. With join, lines that share an end position and
// no third line are joined into one strand, so that a shore mapped in pieces is
// followed across their ends.
func (b *LayerBuilder) Build(join bool) *Layer {
	l := &b.layer
	if join {
		for i := range l.Items { // whose outlines may lose what lies on others
			l.Items[i].size = 0
		}
		l.strands = joinEnds(withoutRepeats(l.strands))
	}
	spans := 0
	for s := range l.strands {
		spans += (len(l.strands[s].points) - 2 + spanLength) / spanLength
	}
	boxes := make([]flat.Box, 0, spans)
	l.spans = make([]span, 0, spans)
	for s := range l.strands {
		points := l.strands[s].points
		for from := 0; from < len(points)-1; from += spanLength {
			to := min(from+spanLength, len(points)-1)
			box := flat.BoundOf(orb.LineString(points[from : to+1]))
			boxes = append(boxes, flat.BoxOf(box))
			l.spans = append(l.spans, span{int32(s), int32(from), int32(to)})
		}
	}
	l.index = flat.NewIndex(len(boxes), func(i int) flat.Box { return boxes[i] })
	for i, it := range l.Items {
		if it.Area != nil {
			l.withArea = append(l.withArea, int32(i))
		}
	}
	l.areas = flat.NewIndex(len(l.withArea), func(i int) flat.Box { return flat.BoxOf(l.Items[l.withArea[i]].Bound) })
	return l
}

// Bound returns the extent of the usable features; false if there are none.
func (l *Layer) Bound() (orb.Bound, bool) { return l.bound, l.hasAny }

// DefectNear returns a defect that may lie within the window, or nil.
func (l *Layer) DefectNear(window orb.Bound) *Defect {
	for i, d := range l.Defects {
		if d.Known && d.Where.Intersects(window) {
			return &l.Defects[i]
		}
	}
	return nil
}

// Near returns what of the layer lies within the window, carried into the
// plane. Some more of the same lines may come with it.
func (l *Layer) Near(p *crs.Plane, window orb.Bound) *Lines {
	var hits []span
	l.index.Search(flat.BoxOf(window), func(id int) bool {
		hits = append(hits, l.spans[id])
		return true
	})
	slices.SortFunc(hits, func(a, b span) int {
		return cmp.Or(cmp.Compare(a.strand, b.strand), cmp.Compare(a.from, b.from))
	})
	edges := 0
	for _, h := range hits {
		edges += int(h.to - h.from)
	}
	out := &Lines{layer: l, segs: make([]segment, 0, edges), use: make([]int32, 0, edges)}
	var piece []orb.Point
	for i := 0; i < len(hits); {
		j := i + 1
		for j < len(hits) && hits[j].strand == hits[i].strand && hits[j].from == hits[j-1].to {
			j++
		}
		s := &l.strands[hits[i].strand]
		from, to := hits[i].from, hits[j-1].to
		piece = piece[:0]
		for _, q := range s.points[from : to+1] {
			piece = append(piece, p.Forward(q))
		}
		out.add(piece, hits[i].strand, from, s.closed, len(s.points)-1)
		i = j
	}
	return out
}

// itemAt returns the item that edge number vertex of a strand belongs to, and
// whether the strand runs against it.
func (l *Layer) itemAt(strand, vertex int32) (int, bool) {
	runs := l.strands[strand].runs
	i := sort.Search(len(runs), func(i int) bool { return runs[i].from > int(vertex) }) - 1
	return int(runs[i].item), runs[i].reversed
}

// Middle returns the middle vertex of the longest run of an item's edges, in
// degrees; false if nothing of it is kept.
func (l *Layer) Middle(item int) (orb.Point, bool) {
	longest, at := 0, orb.Point{}
	for _, s := range l.strands {
		for i, r := range s.runs {
			end := len(s.points) - 1
			if i+1 < len(s.runs) {
				end = s.runs[i+1].from
			}
			if n := end - r.from; int(r.item) == item && n > longest {
				longest, at = n, s.points[r.from+n/2]
			}
		}
	}
	return at, longest > 0
}
