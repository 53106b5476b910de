package area

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// Course is a line that parts the plane into cells.
type Course struct {
	Points []orb.Point
	Wall   bool // it cannot be passed when cells are gathered
	Start  bool // cells are gathered from its left
}

// Cells are the pieces into which courses part a window of the plane. Each is
// whole on one side of every course, so that what is known of a position within
// it by lines that all are courses holds for all of it.
type Cells struct {
	Cells []Cell
	faces *faces
	owner []int // the cell that each cycle bounds, from within or around a hole; -1: the outside
	// beside are the cells beyond each edge of a cell that is no wall.
	beside [][]int
}

// Cell is one piece.
type Cell struct {
	Polygon orb.Polygon
	Inside  orb.Point // a position well inside
	Area    float64   // square metres
	Start   float64   // metres of its outline that are a start
}

// LeastStart is how much of a cell's outline, in metres (1 ft), must be a start for
// cells to be gathered from it: the start and a wall that should meet at one place
// seldom do to the last bit.
const LeastStart = crs.MetresPerFoot

// Divide parts a window of the plane. The outline of the window is a wall.
func Divide(courses []Course, window orb.Bound) (*Cells, error) {
	var drawn drawing
	drawn.add(window.ToRing(), flanks{mark: wallMark})
	for _, c := range courses {
		var m mark
		if c.Wall {
			m |= wallMark
		}
		if c.Start {
			m |= leftMark
		}
		for _, piece := range clip.LineString(window, orb.LineString(c.Points).Clone()) {
			drawn.add(piece, flanks{mark: m})
		}
	}
	left := mostEdges
	edges, err := drawn.set(false).noded(&left)
	if err != nil {
		return nil, err
	}
	out := &Cells{faces: newFaces(edges)}
	polygons, owner := out.faces.polygons()
	cell := make([]int, len(owner)) // by the cycle of its face
	for i, polygon := range polygons {
		if polygon != nil {
			cell[i] = len(out.Cells)
			out.Cells = append(out.Cells, Cell{Polygon: polygon, Inside: wellInside(polygon), Area: Of([]orb.Polygon{polygon})})
		}
	}
	for i, face := range owner {
		if face >= 0 {
			owner[i] = cell[face]
		}
	}
	out.owner = owner
	for h, cycle := range out.faces.of {
		if i := out.owner[cycle]; i >= 0 && edges.edges[h/2].mark&[]mark{leftMark, rightMark}[h%2] != 0 {
			e := edges.line(h / 2)
			out.Cells[i].Start += flat.Distance(e.A, e.B)
		}
	}
	// A hole's outline is a cycle of its own: what lies in it is reached across it.
	out.beside = make([][]int, len(out.Cells))
	for k, e := range edges.edges {
		a, b := owner[out.faces.of[2*k]], owner[out.faces.of[2*k+1]]
		if e.mark&wallMark == 0 && a >= 0 && b >= 0 && a != b {
			out.beside[a], out.beside[b] = append(out.beside[a], b), append(out.beside[b], a)
		}
	}
	return out, nil
}

// Gather returns the cells that can be reached from the start without passing a
// wall, beginning with those left of the start that are wanted, in order. Where walls
// part the start itself, a piece of it no longer than stray that lies aside of a longer
// one is left out: what it leads to belongs to others.
func (c *Cells) Gather(wanted func(Cell) bool, stray float64) []int {
	type group struct {
		cells []int
		start float64 // metres of the start that lead to it
	}
	var groups []group
	seen := map[int]bool{}
	longest := 0.0
	for i, cell := range c.Cells {
		if cell.Start < LeastStart || !wanted(cell) || seen[i] {
			continue
		}
		seen[i] = true
		g := group{cells: []int{i}}
		for k := 0; k < len(g.cells); k++ {
			if at := c.Cells[g.cells[k]]; at.Start >= LeastStart && wanted(at) {
				g.start += at.Start
			}
			for _, j := range c.beside[g.cells[k]] {
				if !seen[j] {
					seen[j] = true
					g.cells = append(g.cells, j)
				}
			}
		}
		groups = append(groups, g)
		longest = math.Max(longest, g.start)
	}
	var out []int
	for _, g := range groups {
		if g.start == longest || g.start > stray {
			out = append(out, g.cells...)
		}
	}
	slices.Sort(out)
	return out
}

// Dust is the area, in square metres (1 square inch), of cells that come of rounding where
// courses run along one another.
const Dust = crs.MetresPerFoot * crs.MetresPerFoot / 144

// Join returns the area of the cells chosen as one valid area. Dust that lies between them
// alone belongs to it.
func (c *Cells) Join(chosen func(cell int) bool) orb.MultiPolygon {
	within := make([]bool, len(c.Cells))
	for i := range within {
		within[i] = chosen(i)
	}
	for i, cell := range c.Cells {
		if cell.Area > Dust || within[i] {
			continue
		}
		between := false
		for _, j := range c.beside[i] {
			if chosen(j) {
				between = true
			} else if c.Cells[j].Area > Dust {
				between = false
				break
			}
		}
		within[i] = between
	}
	return c.faces.joined(func(cycle int32) bool {
		cell := c.owner[cycle]
		return cell >= 0 && within[cell]
	})
}

// wellInside returns a position inside a polygon: the middle of the longest piece of
// several level lines across it.
func wellInside(polygon orb.Polygon) orb.Point {
	b := polygon.Bound()
	var best orb.Point
	widest := math.Inf(-1)
	for _, share := range []float64{0.5, 0.29, 0.71, 0.13, 0.87, 0.03, 0.97} {
		y := b.Min[1] + share*(b.Max[1]-b.Min[1])
		var xs []float64
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				p, q := ring[i-1], ring[i]
				if (p[1] > y) != (q[1] > y) {
					xs = append(xs, p[0]+(y-p[1])/(q[1]-p[1])*(q[0]-p[0]))
				}
			}
		}
		slices.SortFunc(xs, cmp.Compare[float64])
		for i := 1; i < len(xs); i += 2 {
			if w := xs[i] - xs[i-1]; w > widest {
				widest, best = w, orb.Point{(xs[i] + xs[i-1]) / 2, y}
			}
		}
	}
	return best
}
