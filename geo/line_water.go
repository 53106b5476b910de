package geo

import (
	"math"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// sidesSampled is how many places of a line near the site are asked on which
// side the water lies.
const sidesSampled = 15

// Offsets, in metres, at which land and water are looked up beside a line: the
// first at which one side is land and the other is not settles that place.
// They start small because a shore can be narrow and grow because a land
// polygon and a tidal line of different surveys need not coincide.
var sideOffsets = [...]float64{0.3, 1, 3}

// Evidence is what may tell on which side of a tidal line the water lies.
type Evidence struct {
	// Stated is +1 if an item is said to have water on its left as drawn, -1
	// on its right, 0 if nothing is said.
	Stated func(item int) int
	// Land reports whether a position in degrees is land; nil if no land is
	// mapped.
	Land  func(at orb.Point) bool
	Plane *crs.Plane
	// Other is the other tidal line, and OtherWaterward whether it lies
	// waterward of this one.
	Other          *Lines
	OtherWaterward bool
	// RingIsIsland takes a closed line with no other evidence for an island.
	RingIsIsland bool
}

// FaceWater returns the lines with every strand turned so that the water lies
// on its left, and what is drawn again left out. A strand whose side nothing settles, or on which the evidence
// disagrees, is left out and returned with its reason.
func (l *Lines) FaceWater(e Evidence) (*Lines, []Facing) {
	l = l.unfolded()
	out := &Lines{layer: l.layer, segs: append([]segment{}, l.segs...)}
	var unsettled []Facing
	for _, w := range l.Facings(e) {
		if w.Why != "" {
			unsettled = append(unsettled, w)
			continue
		}
		out.use = append(out.use, w.Lines.use...)
		if w.sign < 0 {
			for _, k := range w.Lines.use {
				g := &out.segs[k]
				g.a, g.b = g.b, g.a
				g.prev, g.next = g.next, g.prev
			}
		}
	}
	if out.overlap() {
		out = out.drawnOnce()
	}
	return out, unsettled
}

// Facing is what is known of the side of one strand on which the water lies.
type Facing struct {
	Lines *Lines
	By    []string // what settles it
	Why   string   // or why it is not settled
	sign  int      // +1 left as drawn, -1 right
}

// Facings looks at the evidence for every strand.
func (l *Lines) Facings(e Evidence) []Facing {
	l = l.unfolded()
	byStrand := map[int32][]int32{}
	var order []int32
	for _, k := range l.use {
		s := l.segs[k].strand
		if byStrand[s] == nil {
			order = append(order, s)
		}
		byStrand[s] = append(byStrand[s], k)
	}
	var out []Facing
	for _, s := range order {
		out = append(out, l.waterSide(byStrand[s], e))
	}
	return out
}

// waterSide looks at the evidence for one strand.
func (l *Lines) waterSide(segs []int32, e Evidence) Facing {
	type opinion struct {
		source string
		votes  float64
		said   bool
	}
	stated, isStated := l.statedSide(segs, e)
	land, isLand := l.landSide(segs, e)
	other, isOther := l.otherSide(segs, e)
	opinions := []opinion{
		{"the stated side", stated, isStated},
		{"the land areas", land, isLand},
		{"the other tidal line", other, isOther},
	}
	out := Facing{Lines: &Lines{layer: l.layer, segs: l.segs, use: segs}}
	for _, o := range opinions {
		if !o.said {
			continue
		}
		this := 1
		if o.votes < 0 {
			this = -1
		}
		contradicted := out.sign*this < 0
		out.By = append(out.By, o.source)
		if math.Abs(o.votes) < 0.5 || contradicted {
			named := out.By[max(0, len(out.By)-2):]
			out.Why = "on which side of it the water lies is contradicted by " + strings.Join(named, " and ")
			return out
		}
		out.sign = this
	}
	if out.sign == 0 && e.RingIsIsland && l.segs[segs[0]].ring {
		out.sign, out.By = l.outside(segs), []string{"its being closed (an island)"}
	}
	if out.sign == 0 {
		out.Why = "on which side of it the water lies is not known; state its side (water_left or water_right), or give land areas or the other tidal line"
	}
	return out
}

// statedSide returns the mean of what is stated, -1..1, and whether anything is.
func (l *Lines) statedSide(segs []int32, e Evidence) (float64, bool) {
	if e.Stated == nil {
		return 0, false
	}
	sum, n := 0.0, 0.0
	for _, k := range segs {
		item, reversed := l.itemOf(k), false
		if l.layer != nil {
			_, reversed = l.layer.itemAt(l.segs[k].strand, l.segs[k].vertex)
		}
		said := float64(e.Stated(item))
		if reversed {
			said = -said
		}
		if said != 0 {
			sum, n = sum+said, n+1
		}
	}
	if n == 0 {
		return 0, false
	}
	return sum / n, true
}

// landSide looks beside the strand for land.
func (l *Lines) landSide(segs []int32, e Evidence) (float64, bool) {
	if e.Land == nil {
		return 0, false
	}
	return l.poll(segs, func(mid, normal orb.Point) float64 {
		for _, d := range sideOffsets {
			left := e.Land(e.Plane.Inverse(orb.Point{mid[0] + d*normal[0], mid[1] + d*normal[1]}))
			right := e.Land(e.Plane.Inverse(orb.Point{mid[0] - d*normal[0], mid[1] - d*normal[1]}))
			if left != right {
				if right {
					return 1
				}
				return -1
			}
		}
		return 0
	})
}

// otherSide looks on which side the other tidal line lies. Islets are passed
// over unless the strand is itself a ring: an islet without its own low water
// line can lie on either side of the mainland's.
func (l *Lines) otherSide(segs []int32, e Evidence) (float64, bool) {
	if e.Other.Empty() {
		return 0, false
	}
	other := e.Other
	if !l.segs[segs[0]].ring {
		other = other.where(func(_ int32, s *segment) bool { return !s.ring })
	}
	strand := l.segs[segs[0]].strand
	return l.poll(segs, func(mid, _ orb.Point) float64 {
		f := other.Nearest(mid)
		if f.seg < 0 {
			return 0
		}
		back := l.Nearest(f.At)
		if l.segs[back.seg].strand != strand || l.ends(back) {
			return 0 // the other line belongs to another shore
		}
		side := l.side(f.At, back)
		if !e.OtherWaterward {
			side = -side
		}
		return side
	})
}

// poll asks evenly spread places of a strand and returns the mean of the votes
// cast, -1..1, and whether any was: as many on either side are no silence.
func (l *Lines) poll(segs []int32, ask func(mid, leftNormal orb.Point) float64) (float64, bool) {
	sum, n := 0.0, 0.0
	places := min(len(segs), sidesSampled)
	for i := range places {
		s := &l.segs[segs[(2*i+1)*len(segs)/(2*places)]]
		if vote := ask(flat.Middle(s.a, s.b), flat.LeftNormal(s.a, s.b, 1)); vote != 0 {
			sum, n = sum+vote, n+1
		}
	}
	if n == 0 {
		return 0, false
	}
	return sum / n, true
}

// outside returns +1 if the outside of a closed strand lies on its left.
func (l *Lines) outside(segs []int32) int {
	ring := l.layer.strands[l.segs[segs[0]].strand].points
	area := 0.0
	for i := 1; i < len(ring); i++ {
		area += flat.Cross(ring[0], ring[i-1], ring[i])
	}
	if area > 0 { // counter-clockwise: the inside is left
		return -1
	}
	return 1
}
