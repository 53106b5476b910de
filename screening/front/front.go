package front

import (
	"context"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/site"
	"waterward/screening/work"
)

// Front is a stretch of the mean high water line that one parcel, or nobody, fronts.
type Front struct {
	Parcel   int         // item of the parcels layer; -1 if nobody's
	Strand   int         // of the high water layer
	Item     int         // of the high water layer, at from
	From, To float64     // stations in metres from the first position of the strand; over the seam of a closed one to is more than its length
	Along    []Piece     // the mapped lines that it runs along, in order
	Whole    bool        // all of a closed strand
	Points   []orb.Point // degrees, along the strand, with every vertex of it between
	Gap      float64     // metres, greatest distance between the shore and the parcel over it; 0 where the parcel reaches or overlaps it
	Why      string      // why frontage cannot be told here; then parcel is -1
}

// Piece is a stretch of one mapped line.
type Piece struct {
	Item     int     // of the high water layer
	Part     int     // which of its lines, from 1; 0 if it has only one
	From, To float64 // stations in metres from the first position of the line as mapped
}

const (
	// frontStep is how often, in metres, the shore is asked whose it is, besides at
	// every vertex: less than the frontage of any lot.
	frontStep = 1.0
	// frontEnd is how close, in metres (0.001 ft), the end of a front is found: a
	// tenth of what it must be right within.
	frontEnd = 0.001 * job.Foot
	// equallyNear is by how much, in metres (0.01 ft), one parcel may be nearer than
	// another without being the nearer one: what distances are right within.
	equallyNear = 0.01 * job.Foot
	// cornerRounding is how far apart, in metres (0.05 ft), one corner may lie when
	// it is written twice with seven decimals, which are off by up to 0.018 ft each
	// way. No front is shorter, nor a gap between two.
	cornerRounding = 0.05 * job.Foot
	// besideShore is how far from the shore, in metres (0.1 ft), it is asked on which
	// side of it a parcel lies that ends on it.
	besideShore = 0.1 * job.Foot
	// chunkLength is how much of a strand, in metres, is walked at once: short enough
	// for one plane and for what tells its water side to be near.
	chunkLength = 2000.0
	// chunkMargin is how much more of the strand, in metres (500 ft), is looked at
	// before and after: an end found there can cut a front back by not much more than
	// the tolerance.
	chunkMargin = 500 * job.Foot
	// aroundLength is for how much shore, in metres, what lies near is looked up once.
	aroundLength = 50.0
	// mostTried is how many points are tried for one that lies off all outlines.
	mostTried = 20
)

// Find finds which stretch of the mean high water line each parcel fronts, in order
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
func Find(ctx context.Context, m *layers.Set, radius, tolerance float64, workers int) ([]Front, error) {
	return newFrontage(m, radius, tolerance).find(ctx, chunkLength, workers)
}

// frontage is the search for fronts.
type frontage struct {
	layers         *layers.Set
	shore, parcels *geo.Layer
	radius         float64      // within which evidence of the water side is looked for
	tolerance      float64      // how far a parcel may end from the shore
	parted         map[int]bool // items of the shore of more than one line
}

func newFrontage(m *layers.Set, radius, tolerance float64) *frontage {
	f := &frontage{m, m.Layer("high_water").Geo, m.Layer("parcels").Geo, radius, tolerance, map[int]bool{}}
	for n := range f.shore.Strands() {
		for _, line := range f.shore.Mapped(n) {
			f.parted[line.Item] = f.parted[line.Item] || line.Part > 0
		}
	}
	return f
}

// chunk is a piece of a strand, from one of its vertices to another.
type chunk struct {
	strand   int
	from, to int
	plane    *crs.Plane
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
func (f *frontage) find(ctx context.Context, length float64, workers int) ([]Front, error) {
	strands, err := f.chunks(ctx, length, workers)
	if err != nil {
		return nil, err
	}
	var found [][2][]stretch // fronts, and where they cannot be told
	if err := work.InOrder(ctx, slices.Values(slices.Concat(strands...)), workers, f.walk, func(s [2][]stretch) error { found = append(found, s); return nil }); err != nil {
		return nil, err
	}
	var out []Front
	for n, chunks := range strands {
		out = append(out, f.join(n, chunks, found[:len(chunks)])...)
		found = found[len(chunks):]
	}
	return out, nil
}

// chunks are the strands in chunks of so many metres, with their water side.
func (f *frontage) chunks(ctx context.Context, length float64, workers int) ([][]*chunk, error) {
	strands := make([][]*chunk, f.shore.Strands())
	for n := range strands {
		strands[n] = f.cut(n, length)
	}
	if err := work.InOrder(ctx, slices.Values(slices.Concat(strands...)), workers, f.settled, func(*chunk) error { return nil }); err != nil {
		return nil, err
	}
	for _, chunks := range strands {
		inherit(chunks)
	}
	return strands, nil
}

// cut parts a strand into chunks.
func (f *frontage) cut(strand int, length float64) []*chunk {
	points, _ := f.shore.Strand(strand)
	var out []*chunk
	for from := 0; from < len(points)-1; {
		c := &chunk{strand: strand, from: from, to: from, plane: crs.NewPlane(points[from]), stations: []float64{0}}
		at, sum := c.plane.Forward(points[from]), 0.0
		for c.to < len(points)-1 && sum < length {
			c.to++
			next := c.plane.Forward(points[c.to])
			sum += flat.Distance(at, next)
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
	s := &site.Site{
		Footprint: &geo.Footprint{Plane: c.plane}, Layers: f.layers, Radius: f.radius,
		Window: crs.Window(orb.MultiPoint(points[c.from:c.to+1]).Bound(), f.radius), Lines: map[*geo.Layer]*geo.Lines{},
	}
	for _, w := range s.Near(f.shore).Facings(s.WaterEvidence("high_water")) {
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
