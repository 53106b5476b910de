package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// Cover tells of an area whether it holds places, for many of them.
type Cover struct {
	edges []ringEdge
	index *packed
}

// NewCover takes a valid area of the plane.
func NewCover(area orb.MultiPolygon) *Cover {
	c := &Cover{}
	for _, polygon := range area {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				c.edges = append(c.edges, ringEdge{ring[i-1], ring[i]})
			}
		}
	}
	c.index = edgeIndex(c.edges)
	return c
}

// Holds reports whether a place lies inside: whether the way east from it crosses the
// outlines an odd number of times. On an outline it may be told either way.
func (c *Cover) Holds(p orb.Point) bool {
	odd := false
	c.index.search(rect{p[0], p[1], math.Inf(1), p[1]}, func(i int) bool {
		a, b := c.edges[i].a, c.edges[i].b
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			odd = !odd
		}
		return true
	})
	return odd
}
