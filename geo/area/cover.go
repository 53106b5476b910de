package area

import (
	"math"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Cover tells of an area whether it holds places, for many of them. The outlines are
// parted into level bands, so that of each place only those beside it are looked at.
type Cover struct {
	low, high float64 // of the outlines
	perMetre  float64 // bands
	ends      []int   // of the edges of each band, in edges
	edges     []flat.Edge
}

// NewCover takes a valid area of the plane.
func NewCover(area orb.MultiPolygon) *Cover {
	var edges []flat.Edge
	c := &Cover{low: math.Inf(1), high: math.Inf(-1)}
	for _, polygon := range area {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				e := flat.Edge{A: ring[i-1], B: ring[i]}
				edges = append(edges, e)
				c.low, c.high = min(c.low, e.A[1]), max(c.high, e.A[1])
			}
		}
	}
	if !(c.high > c.low) { // no area, or one of no height
		c.low, c.high = math.Inf(1), math.Inf(-1)
		return c
	}
	// So many that edges over all of them take no more room than others do time.
	bands := int(2 * math.Sqrt(float64(len(edges))))
	c.perMetre = float64(bands-1) / (c.high - c.low)
	c.ends = make([]int, bands+1)
	for _, e := range edges {
		for b := c.band(min(e.A[1], e.B[1])); b <= c.band(max(e.A[1], e.B[1])); b++ {
			c.ends[b+1]++
		}
	}
	for b := range bands {
		c.ends[b+1] += c.ends[b]
	}
	c.edges = make([]flat.Edge, c.ends[bands])
	for _, e := range edges {
		for b := c.band(min(e.A[1], e.B[1])); b <= c.band(max(e.A[1], e.B[1])); b++ {
			c.edges[c.ends[b]] = e
			c.ends[b]++
		}
	}
	c.ends = c.ends[:bands]
	return c
}

func (c *Cover) band(y float64) int { return int((y - c.low) * c.perMetre) }

// Holds reports whether a place lies inside: whether the way east from it crosses the
// outlines an odd number of times. On an outline it may be told either way.
func (c *Cover) Holds(p orb.Point) bool {
	if !(p[1] >= c.low && p[1] <= c.high) {
		return false
	}
	odd, from, band := false, 0, c.band(p[1])
	if band > 0 {
		from = c.ends[band-1]
	}
	for _, e := range c.edges[from:c.ends[band]] {
		if (e.A[1] > p[1]) != (e.B[1] > p[1]) && p[0] < e.A[0]+(p[1]-e.A[1])/(e.B[1]-e.A[1])*(e.B[0]-e.A[0]) {
			odd = !odd
		}
	}
	return odd
}
