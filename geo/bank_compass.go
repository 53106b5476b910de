package geo

import (
	"math"

	"github.com/paulmach/orb"
)

// compass tells whether there can be a leap within an element, by the ways to the shore
// from its outline: from a leap straight to either foot that is crossed by a way like it,
// to the same foot, and the feet are no farther apart than twice what the leap is from
// them.
type compass struct {
	inside float64                   // no place within lies farther from the outline, metres
	most   float64                   // the longest way
	feet   [compassPoints]*orb.Bound // of the ways to each point of the compass; nil: none
}

const compassPoints = 64

// newCompass is for elements of at most an area, in square metres: in a disc of that the
// middle lies farthest from the outline.
func newCompass(area float64) *compass { return &compass{inside: math.Sqrt(area / math.Pi)} }

func (c *compass) add(way orb.Point, f Foot) {
	c.most = max(c.most, f.Distance)
	point := int(math.Floor((math.Atan2(way[1], way[0])/math.Pi+1)*compassPoints/2)) % compassPoints
	if c.feet[point] == nil {
		c.feet[point] = &orb.Bound{Min: f.At, Max: f.At}
		return
	}
	*c.feet[point] = c.feet[point].Extend(f.At)
}

// wide reports whether two of the ways can be those of a leap.
func (c *compass) wide() bool {
	if c == nil {
		return false
	}
	least := int(math.Acos(leapCos) / (2 * math.Pi) * compassPoints)
	apart := 2 * (c.most + c.inside + walkMost) // between places of the outline a foot moves on
	for i, own := range c.feet {
		for j := i + least; own != nil && j <= i+compassPoints/2; j++ {
			if other := c.feet[j%compassPoints]; other != nil && boundsApart(own.Min, own.Max, other.Min, other.Max) <= apart {
				return true
			}
		}
	}
	return false
}
