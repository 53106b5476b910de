package geo

import (
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/flat"
)

// Crossings returns the places, in degrees, where lines of two layers cross; where
// they only touch, or run along one another, they do not. No more than most are
// looked for.
func Crossings(a, b *Layer, most int) []orb.Point {
	var out []orb.Point
	for _, s := range b.spans {
		points := b.strands[s.strand].points[s.from : s.to+1]
		a.index.Search(flat.BoxOf(flat.BoundOf(orb.LineString(points))), func(id int) bool {
			t := a.spans[id]
			others := a.strands[t.strand].points[t.from : t.to+1]
			for i := 1; i < len(points); i++ {
				e := flat.Edge{A: points[i-1], B: points[i]}
				over := e.Box(0)
				for j := 1; j < len(others) && len(out) < most; j++ {
					f := flat.Edge{A: others[j-1], B: others[j]}
					if beside := f.Box(0); over.Touches(&beside) && e.Crosses(f) {
						out = append(out, flat.Crossing(e, f))
					}
				}
			}
			return true
		})
		if len(out) == most {
			break
		}
	}
	slices.SortFunc(out, flat.ByPosition)
	return out
}
