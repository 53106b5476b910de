package geo

import (
	"slices"

	"github.com/paulmach/orb"
)

// Crossings returns the places, in degrees, where lines of two layers cross; where
// they only touch, or run along one another, they do not. No more than most are
// looked for.
func Crossings(a, b *Layer, most int) []orb.Point {
	var out []orb.Point
	for _, s := range b.spans {
		points := b.strands[s.strand].points[s.from : s.to+1]
		a.index.search(rectOf(boundOf(orb.LineString(points))), func(id int) bool {
			t := a.spans[id]
			others := a.strands[t.strand].points[t.from : t.to+1]
			for i := 1; i < len(points); i++ {
				e := ringEdge{points[i-1], points[i]}
				over := e.rect(0)
				for j := 1; j < len(others) && len(out) < most; j++ {
					f := ringEdge{others[j-1], others[j]}
					if beside := f.rect(0); over.touches(&beside) && e.crosses(f) {
						out = append(out, crossing(e, f))
					}
				}
			}
			return true
		})
		if len(out) == most {
			break
		}
	}
	slices.SortFunc(out, byPosition)
	return out
}
