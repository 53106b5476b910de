package envelope

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/area"
	"waterward/geo/flat"
	"waterward/screening/job"
)

const (
	// straightTurn is by how much, in radians (5 degrees), directions of straight strips
	// differ: over 20 ft that is less than 2 ft.
	straightTurn = 5 * math.Pi / 180
	// straightTurns is how many of these are 45 degrees.
	straightTurns = 9
	// straightStep is how far apart, in metres (1 ft), straight strips of one direction are
	// tried.
	straightStep = job.Foot
)

// straightIn finds straight strips of a width and at least so long that lie wholly in open
// water and within 45 degrees of a side of the front, the longest first: where the shore has
// corners, one that follows it may fit nowhere. Along each line that is tried it is exact.
func (h *shore) straightIn(open orb.MultiPolygon, width, least float64) [][]orb.Point {
	if len(open) == 0 {
		return nil
	}
	type found struct {
		line   []orb.Point
		length float64
	}
	var all []found
	holds, half := area.NewCover(open).Holds, width/2+fitInset
	for _, along := range h.turns() {
		edges, low, high := turned(open, along)
		best := found{length: least + 2*fitInset}
		first, room := low+half, high-low-2*half
		tried := math.Max(1, math.Ceil(room/straightStep))
		for i := 0.0; room >= 0 && i < tried; i++ { // in the middle of each step: at its ends a strip would touch
			off := first + (i+0.5)*room/tried
			for _, gap := range gaps(edges, off, half) {
				place := func(s float64) orb.Point {
					return orb.Point{s*along[0] - off*along[1], s*along[1] + off*along[0]}
				}
				if length := gap[1] - gap[0]; length > best.length && holds(place((gap[0]+gap[1])/2)) {
					best = found{[]orb.Point{place(gap[0]), place(gap[1])}, length}
				}
			}
		}
		if best.line != nil {
			all = append(all, best)
		}
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(b.length, a.length) })
	var out [][]orb.Point
	for _, f := range all[:min(len(all), runsKept)] {
		out = append(out, f.line)
	}
	return out
}

// turns are the directions that are tried: those of the sides of the front, each turned by
// straightTurn up to 45 degrees either way. Those all but the same are tried once.
func (h *shore) turns() []orb.Point {
	var out []orb.Point
	for _, way := range h.ways() {
		for k := -straightTurns; k <= straightTurns; k++ {
			sin, cos := math.Sincos(float64(k) * straightTurn)
			along := orb.Point{way[0]*cos - way[1]*sin, way[0]*sin + way[1]*cos}
			if !slices.ContainsFunc(out, func(o orb.Point) bool { return math.Abs(flat.Cross(orb.Point{}, o, along)) < straightTurn/2 }) {
				out = append(out, along)
			}
		}
	}
	return out
}

// ways are the directions of the sides of the front.
func (h *shore) ways() []orb.Point {
	var out []orb.Point
	for _, line := range sides(h.line) {
		out = append(out, unit(line[0], line[len(line)-1]))
	}
	return out
}

// turned are the edges of an area in a frame that runs along a direction, and how far across
// it they reach.
func turned(open orb.MultiPolygon, along orb.Point) (edges [][2]orb.Point, low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	at := func(p orb.Point) orb.Point { return orb.Point{flat.Dot(p, along), p[1]*along[0] - p[0]*along[1]} }
	for _, polygon := range open {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				e := [2]orb.Point{at(ring[i-1]), at(ring[i])}
				edges = append(edges, e)
				low, high = min(low, e[0][1], e[1][1]), max(high, e[0][1], e[1][1])
			}
		}
	}
	return edges, low, high
}

// gaps are what edges leave of a line at an offset and of all that lies within half a width
// of it, between the first and the last of them.
func gaps(edges [][2]orb.Point, off, half float64) [][2]float64 {
	var taken [][2]float64
	for _, e := range edges {
		p, q := e[0], e[1]
		if p[1] > q[1] {
			p, q = q, p
		}
		low, high := math.Max(p[1], off-half), math.Min(q[1], off+half)
		if low > high {
			continue
		}
		from, to := p[0], q[0]
		if rise := q[1] - p[1]; rise > 0 {
			from, to = p[0]+(low-p[1])/rise*(q[0]-p[0]), p[0]+(high-p[1])/rise*(q[0]-p[0])
		}
		taken = append(taken, [2]float64{math.Min(from, to), math.Max(from, to)})
	}
	slices.SortFunc(taken, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	for i, end := 1, math.Inf(-1); i < len(taken); i++ {
		end = math.Max(end, taken[i-1][1])
		if taken[i][0] > end {
			out = append(out, [2]float64{end, taken[i][0]})
		}
	}
	return out
}
