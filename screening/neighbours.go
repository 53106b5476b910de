package screening

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// neighbours sets the distance to the riparian lines and finds the parcels on
// the stretch of bank occupied. project is nil if the proposal is alone in its own.
func (s *site) neighbours(project *project) {
	if l := s.layers.layer("riparian"); l == nil {
		s.values["riparian_nearest"] = unknown("no riparian lines were given; add layers.riparian")
	} else {
		v := s.surveyedOnly(l, s.riparian(l))
		if line, member := s.acrossFrom(project, l); line != "" && v.Unknown == "" && v.Number > 0 {
			v = doubting(v, fmt.Sprintf("the riparian line %s runs between it and %s of the same %s: say whether they are one structure, which would cross that line", line, member, project.title), 0)
		}
		s.values["riparian_nearest"] = v
	}
	l := s.layers.layer("parcels")
	if l == nil {
		return
	}
	s.parcels = s.parcelsOn(l)
	if v := s.values["riparian_nearest"]; len(s.parcels) > 1 && v.Unknown == "" && v.Number > 0 {
		s.values["riparian_nearest"] = doubting(v, fmt.Sprintf("it stands before %d parcels (%s), and no riparian line is mapped between them: map it, or say that they are of one owner", len(s.parcels), few(s.parcels)), 0)
	}
}

func (s *site) riparian(l *layer) rules.Value {
	on := s.covered(l)
	if on.why != "" {
		return unknown("%s", on.why)
	}
	near := s.near(l.geo)
	if near.Empty() {
		return s.distanceValue(l, "riparian_nearest", geo.Reach{Distance: math.Inf(1)}, 0, on)
	}
	r := s.fp.Nearest(near)
	if r.Distance > 0 && !s.fp.PartedBy(near) {
		v := s.distanceValue(l, "riparian_nearest", r, near.Item(r.Foot), on)
		if v.Bound == rules.Exact && s.goesOnWaterward(near, r.Foot) {
			v = doubting(v, fmt.Sprintf("the riparian line %s is mapped no farther than beside the structure, and it may come nearer beyond: map it as far out as the structure goes", l.items[near.Item(r.Foot)].label), 0)
		}
		v.Room = s.otherSide(near, r)
		return v
	}
	deepest, at := 0.0, near.Item(r.Foot)
	for _, own := range near.ByItem() {
		if beyond := s.fp.Beyond(own.Lines); beyond.Distance > deepest {
			deepest, at, r = beyond.Distance, own.Item, beyond
		}
	}
	r.Distance = -deepest
	v := s.distanceValue(l, "riparian_nearest", r, at, on)
	v.Room = math.NaN()
	return v
}

// surveyedOnly doubts a distance where a line that this tool has constructed decides it, or
// could if it were surveyed.
func (s *site) surveyedOnly(l *layer, v rules.Value) rules.Value {
	if v.Unknown != "" {
		return v
	}
	for _, own := range s.near(l.geo).ByItem() {
		if l.items[own.Item].drawnHere && s.fp.Nearest(own.Lines).Distance <= v.Number+rules.UnstatedReach {
			return doubting(v, notSurveyed, 0)
		}
	}
	return v
}

// goesOnWaterward reports whether a foot is the end of a line that would go on out into
// the water there: the landward end of a riparian line is where it begins.
func (s *site) goesOnWaterward(l *geo.Lines, f geo.Foot) bool {
	on, ends := l.EndsAt(f)
	if !ends || s.faced.Empty() {
		return ends
	}
	here, _ := s.faced.Signed(f.At)
	ahead, _ := s.faced.Signed(orb.Point{f.At[0] + on[0], f.At[1] + on[1]})
	return ahead > here
}

// otherSide is the distance to the nearest riparian line on the other side of the
// structure, NaN if there is none.
func (s *site) otherSide(near *geo.Lines, r geo.Reach) float64 {
	least := math.NaN()
	for _, own := range near.ByItem() {
		o := s.fp.Nearest(own.Lines)
		facing := (o.Foot.At[0]-o.At[0])*(r.Foot.At[0]-r.At[0]) + (o.Foot.At[1]-o.At[1])*(r.Foot.At[1]-r.At[1])
		if facing < 0 && !(o.Distance >= least) {
			least = o.Distance
		}
	}
	return least
}

const (
	// parcelStep is how often, in metres (10 ft), the occupied bank is asked
	// whose it is: less than the frontage of any lot.
	parcelStep = 10 * foot
)

// parcelsOn returns the parcels that front on the occupied stretch of bank.
func (s *site) parcelsOn(l *layer) []string {
	var out []string
	seen := map[string]bool{}
	for _, st := range s.occupied {
		base := geo.NewBaseline(st.Points)
		steps := math.Ceil(st.Length / parcelStep)
		for i := 0.0; i < steps; i++ {
			at := base.At((i + 0.5) / steps * st.Length)
			for _, item := range s.parcelsAt(l, at) {
				if label := l.items[item].label; !seen[label] {
					seen[label] = true
					out = append(out, label)
				}
			}
		}
	}
	return out
}

func (s *site) parcelsAt(l *layer, at orb.Point) []int {
	if holding := l.geo.AreasAt(s.fp.Plane.Inverse(at)); len(holding) > 0 {
		return holding
	}
	near := s.near(l.geo)
	if near.Empty() {
		return nil
	}
	if f := near.Nearest(at); f.Distance <= parcelTolerance {
		return []int{near.Item(f)}
	}
	return nil
}

// notSurveyed is what must be asked for where the tool drew a line between neighbours.
const notSurveyed = "side lines were constructed, not surveyed; give surveyed riparian lines at both sides of the parcel"
