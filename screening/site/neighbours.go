package site

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// neighbours sets the distance to the riparian lines and finds the parcels on
// the stretch of bank occupied. project is nil if the proposal is alone in its own.
func (s *Site) neighbours(project *Project) {
	if l := s.Layers.Layer("riparian"); l == nil {
		s.Values["riparian_nearest"] = Unknown("no riparian lines were given; add layers.riparian")
	} else {
		v := s.SurveyedOnly(l, s.Riparian(l))
		if line, member := s.acrossFrom(project, l); line != "" && v.Unknown == "" && v.Number > 0 {
			v = Doubting(v, fmt.Sprintf("the riparian line %s runs between it and %s of the same %s: say whether they are one structure, which would cross that line", line, member, project.Title), 0)
		}
		s.Values["riparian_nearest"] = v
	}
	s.BeforeParcels()
}

// BeforeParcels finds the parcels on the stretch of bank occupied, and doubts the distance to
// the riparian lines where there are several.
func (s *Site) BeforeParcels() {
	l := s.Layers.Layer("parcels")
	if l == nil {
		return
	}
	s.Parcels = s.parcelsOn(l)
	if v := s.Values["riparian_nearest"]; len(s.Parcels) > 1 && v.Unknown == "" && v.Number > 0 {
		s.Values["riparian_nearest"] = Doubting(v, fmt.Sprintf("it stands before %d parcels (%s), and no riparian line is mapped between them: map it, or say that they are of one owner", len(s.Parcels), job.Few(s.Parcels)), 0)
	}
}

func (s *Site) Riparian(l *layers.Layer) rules.Value {
	on := s.covered(l)
	if on.why != "" {
		return Unknown("%s", on.why)
	}
	near := s.Near(l.Geo)
	if near.Empty() {
		return s.distanceValue(l, "riparian_nearest", geo.Reach{Distance: math.Inf(1)}, 0, on)
	}
	r := s.Footprint.Nearest(near)
	if r.Distance > 0 && !s.Footprint.PartedBy(near) {
		v := s.distanceValue(l, "riparian_nearest", r, near.Item(r.Foot), on)
		if v.Bound == rules.Exact && s.goesOnWaterward(near, r.Foot) {
			// What is too near already is so however near it comes.
			v.Also = append(v.Also, rules.Also{Says: fmt.Sprintf("the riparian line %s is mapped no farther than beside the structure, and it may come nearer beyond: map it as far out as the structure goes", l.Items[near.Item(r.Foot)].Label)})
		}
		v.Room = s.otherSide(near, r)
		return v
	}
	deepest, at := 0.0, near.Item(r.Foot)
	for _, own := range near.ByItem() {
		if beyond := s.Footprint.Beyond(own.Lines); beyond.Distance > deepest {
			deepest, at, r = beyond.Distance, own.Item, beyond
		}
	}
	r.Distance = -deepest
	v := s.distanceValue(l, "riparian_nearest", r, at, on)
	v.Room = math.NaN()
	return v
}

// SurveyedOnly doubts a distance where a line that this tool has constructed decides it, or
// could if it were surveyed.
func (s *Site) SurveyedOnly(l *layers.Layer, v rules.Value) rules.Value {
	if v.Unknown != "" {
		return v
	}
	for _, own := range s.Near(l.Geo).ByItem() {
		if l.Items[own.Item].DrawnHere && s.Footprint.Nearest(own.Lines).Distance <= v.Number+rules.UnstatedReach {
			return Doubting(v, NotSurveyed, 0)
		}
	}
	return v
}

// goesOnWaterward reports whether a foot is the end of a line that would go on out into
// the water there: the landward end of a riparian line is where it begins.
func (s *Site) goesOnWaterward(l *geo.Lines, f geo.Foot) bool {
	on, ends := l.EndsAt(f)
	if !ends || s.Faced.Empty() {
		return ends
	}
	here, _ := s.Faced.Signed(f.At)
	ahead, _ := s.Faced.Signed(orb.Point{f.At[0] + on[0], f.At[1] + on[1]})
	return ahead > here
}

// otherSide is the distance to the nearest riparian line on the other side of the
// structure, NaN if there is none.
func (s *Site) otherSide(near *geo.Lines, r geo.Reach) float64 {
	least := math.NaN()
	for _, own := range near.ByItem() {
		o := s.Footprint.Nearest(own.Lines)
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
	parcelStep = 10 * job.Foot
)

// parcelsOn returns the parcels that front on the occupied stretch of bank.
func (s *Site) parcelsOn(l *layers.Layer) []string {
	var out []string
	seen := map[string]bool{}
	for _, st := range s.Occupied {
		base := geo.NewBaseline(st.Points)
		steps := math.Ceil(st.Length / parcelStep)
		for i := 0.0; i < steps; i++ {
			at := base.At((i + 0.5) / steps * st.Length)
			for _, item := range s.parcelsAt(l, at) {
				if label := l.Items[item].Label; !seen[label] {
					seen[label] = true
					out = append(out, label)
				}
			}
		}
	}
	return out
}

func (s *Site) parcelsAt(l *layers.Layer, at orb.Point) []int {
	if holding := l.Geo.AreasAt(s.Footprint.Plane.Inverse(at)); len(holding) > 0 {
		return holding
	}
	near := s.Near(l.Geo)
	if near.Empty() {
		return nil
	}
	if f := near.Nearest(at); f.Distance <= job.ParcelTolerance {
		return []int{near.Item(f)}
	}
	return nil
}

// NotSurveyed is what must be asked for where the tool drew a line between neighbours.
const NotSurveyed = "side lines were constructed, not surveyed; give surveyed riparian lines at both sides of the parcel"
