package geo

import (
	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

const (
	// oneLine is how near, in metres (a tenth of a foot), every place of one line must
	// lie to another for the two to be one: closer than any two surveys come.
	oneLine = 0.03
	// placesAlong is at how many places of a line, vertices and middles of edges evenly
	// spread, it is asked how near it lies.
	placesAlong = 2000
)

// SameLine reports whether all of the lines of one layer run along lines of the other:
// whether they are one line, however cut, densified or turned. False if it has none.
func SameLine(a, b *Layer) bool {
	edges := 0
	for _, s := range a.strands {
		edges += len(s.points) - 1
	}
	if edges == 0 {
		return false
	}
	every := max(1, edges/placesAlong)
	n := 0
	for _, s := range a.strands {
		for i := 1; i < len(s.points); i++ {
			if n++; n%every != 0 {
				continue
			}
			for _, at := range []orb.Point{s.points[i-1], flat.Middle(s.points[i-1], s.points[i]), s.points[i]} {
				plane := crs.NewPlane(at)
				near := b.Near(plane, crs.Window(at.Bound(), 1))
				if !(near.Nearest(orb.Point{}).Distance <= oneLine) {
					return false
				}
			}
		}
	}
	return true
}
