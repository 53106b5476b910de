package screening

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/rules"
)

// project is the proposals of one project, or of one site, and of one alternative.
type project struct {
	title   string
	members []*geojson.Feature
	once    sync.Once
	overall rules.Value
	bank    rules.Value
	lost    []string // members that could not be measured
}

// measure adds up the lengths of all members, once. Bank that two of them occupy counts
// once. A member that cannot be measured, or whose id another has too, makes the sums
// unknown.
func (p *project) measure(source ProposalsSource, layers *mapped, radius float64, named map[string][]int) {
	p.once.Do(func() {
		var names []string
		var stretches [][]orb.Point
		var plane *crs.Plane
		seen := map[string]bool{}
		lose := func(member, why string) {
			p.lost = append(p.lost, member)
			v := unknown("%s of the same %s %s", member, p.title, why)
			p.overall, p.bank = addUp(p.overall, v, member), addUp(p.bank, v, member)
		}
		for _, f := range p.members {
			member := newProposal(f, source)
			names = append(names, member.id)
			switch {
			case member.err != nil:
				lose(member.id, "cannot be measured")
				continue
			case seen[member.id]: // told by the first
				continue
			case len(named[f.ID]) > 1:
				seen[member.id] = true
				lose(member.id, "stands in the file more than once")
				continue
			}
			seen[member.id] = true
			s := bareSite(member, layers, radius)
			s.lengths()
			s.tidal()
			if s.unplaceable() != nil {
				lose(member.id, "lies landward of mean high water")
				continue
			}
			p.overall = addUp(p.overall, s.values["overall_length"], member.id)
			p.bank = addUp(p.bank, s.values["bank_length"], member.id)
			if plane == nil {
				plane = s.fp.Plane
			}
			for _, st := range s.occupied {
				var own []orb.Point
				for _, at := range st.Points {
					own = append(own, plane.Forward(s.fp.Plane.Inverse(at)))
				}
				stretches = append(stretches, own)
			}
		}
		detail := fmt.Sprintf("added up over the %d proposals of %s (%s)", len(names), p.title, few(names))
		p.overall.Detail, p.bank.Detail = detail, detail
		if together := geo.LengthTogether(stretches...); p.bank.Unknown == "" && together < p.bank.Number-rules.Resolution {
			p.bank.Number = together
			p.bank.Detail += ", bank that two of them occupy counted once"
		}
	})
}

// addUp adds the length of a member to a sum; what is unknown makes the sum so.
func addUp(sum, v rules.Value, member string) rules.Value {
	switch {
	case sum.Unknown != "":
		return sum
	case strings.HasPrefix(v.Unknown, member+" "):
		return unknown("%s", v.Unknown)
	case v.Unknown != "":
		return unknown("of %s in the same project: %s", member, v.Unknown)
	}
	out := v
	out.Number += sum.Number
	out.Accuracy = slices.Concat(sum.Accuracy, v.Accuracy)
	out.Doubts = slices.Concat(sum.Doubts, v.Doubts)
	out.Also = nil
	for _, also := range v.Also { // each by itself
		also.Number += sum.Number
		out.Also = append(out.Also, also)
	}
	for _, also := range sum.Also {
		also.Number += v.Number
		out.Also = append(out.Also, also)
	}
	if sum.Layer != "" { // the oldest date stands for all, and none if one has none
		out.Feature, out.Date = "", older(sum.Date, v.Date)
	}
	return out
}

// acrossFrom names a line that runs through the row that the proposal is in with another of
// its project, and that one; empty if none does.
func (s *site) acrossFrom(p *project, l *layer) (line, member string) {
	if p == nil {
		return "", ""
	}
	near := s.near(l.geo)
	here := s.inPlane(s.p.feature)
	for _, m := range p.members {
		if m.Number == s.p.feature.Number || m.Geometry == nil {
			continue
		}
		there := s.inPlane(m)
		gap := math.Hypot(max(0, there.Min[0]-here.Max[0], here.Min[0]-there.Max[0]), max(0, there.Min[1]-here.Max[1], here.Min[1]-there.Max[1]))
		if gap > rowGap*max(planar.Distance(here.Min, here.Max), planar.Distance(there.Min, there.Max)) {
			continue
		}
		if item, ok := near.Across(here.Center(), there.Center()); ok {
			return l.items[item].label, m.ID
		}
	}
	return "", ""
}

// inPlane is the bound of a feature in the plane of the site.
func (s *site) inPlane(f *geojson.Feature) orb.Bound {
	b := f.Bound()
	return orb.MultiPoint{s.fp.Plane.Forward(b.Min), s.fp.Plane.Forward(b.Max)}.Bound()
}

// rowGap is how much wider than the longer of two structures the water between them may be
// and they still act as one row: the openings between breakwaters are seldom twice as wide
// as these are long. Common practice, no source.
const rowGap = 2

// ofProject sets the lengths of the whole project the proposal belongs to.
func (s *site) ofProject(p *project) {
	s.values["project_length"], s.values["project_bank_length"] = s.values["overall_length"], s.values["bank_length"]
	if p != nil {
		s.values["project_length"], s.values["project_bank_length"] = p.overall, p.bank
	}
}
