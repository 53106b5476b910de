package flat

import (
	"math"

	"github.com/paulmach/orb"
)

// BoxSlack is how much nearer, in metres, a segment may be computed to lie than
// its box: rounding in a plane a few kilometres wide is a thousandth of it.
const BoxSlack = 1e-9

// Box bounds some segments in a row of those in use.
type Box struct{ MinX, MinY, MaxX, MaxY float64 }

// Squared is the square of the distance of a point from the box, 0 inside it.
func (b *Box) Squared(p orb.Point) float64 {
	dx, dy := max(b.MinX-p[0], 0, p[0]-b.MaxX), max(b.MinY-p[1], 0, p[1]-b.MaxY)
	return dx*dx + dy*dy
}

// Apart reports whether no segment of the box can meet a bound.
func (b *Box) Apart(o *Box) bool {
	return b.MinX > o.MaxX+BoxSlack || b.MaxX < o.MinX-BoxSlack || b.MinY > o.MaxY+BoxSlack || b.MaxY < o.MinY-BoxSlack
}

// Away is how far two boxes lie apart along an axis, no farther than they do: 0 if they touch.
func (b *Box) Away(o *Box) float64 {
	return max(b.MinX-o.MaxX, o.MinX-b.MaxX, b.MinY-o.MaxY, o.MinY-b.MaxY, 0)
}

// BoxOf is a bound as a box.
func BoxOf(b orb.Bound) Box { return Box{b.Min[0], b.Min[1], b.Max[0], b.Max[1]} }

// Touches reports whether two boxes have a point in common.
func (b *Box) Touches(o *Box) bool {
	return b.MinX <= o.MaxX && b.MaxX >= o.MinX && b.MinY <= o.MaxY && b.MaxY >= o.MinY
}

// Beyond is the square of the distance from which on a box holds nothing nearer than
// a squared distance.
func Beyond(squared float64) float64 {
	return squared + 2*BoxSlack*math.Sqrt(squared) + BoxSlack*BoxSlack
}
