package site

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
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Project is the proposals of one project, or of one site, and of one alternative.
type Project struct {
	Title   string
	Members []*Submission
	once    sync.Once
	overall rules.Value
	bank    rules.Value
	Lost    []string // members that could not be measured
}

// Measure adds up the lengths of all members, once. Bank that two of them occupy counts
// once. A member that cannot be measured makes the sums unknown.
func (p *Project) Measure(mapped *layers.Set, radius float64) {
	p.once.Do(func() {
		var names []string
		var stretches [][]orb.Point
		var plane *crs.Plane
		lose := func(member, why string) {
			if !slices.Contains(p.Lost, member) {
				p.Lost = append(p.Lost, member)
			}
			v := Unknown("%s of the same %s %s", member, p.Title, why)
			p.overall, p.bank = addUp(p.overall, v, member), addUp(p.bank, v, member)
		}
		for _, f := range p.Members {
			member := NewProposal(f)
			names = append(names, member.ID)
			if member.Err != nil {
				lose(member.ID, "cannot be measured")
				continue
			}
			s := Bare(member, mapped, radius)
			s.Lengths()
			s.Tidal()
			if s.Unplaceable() != nil {
				lose(member.ID, "has no shore here")
				continue
			}
			p.overall = addUp(p.overall, s.Values["overall_length"], member.ID)
			p.bank = addUp(p.bank, s.Values["bank_length"], member.ID)
			if plane == nil {
				plane = s.Footprint.Plane
			}
			for _, st := range s.Occupied {
				var own []orb.Point
				for _, at := range st.Points {
					own = append(own, plane.Forward(s.Footprint.Plane.Inverse(at)))
				}
				stretches = append(stretches, own)
			}
		}
		detail := fmt.Sprintf("added up over the %d proposals of %s (%s)", len(names), p.Title, job.Few(names))
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
		return Unknown("%s", v.Unknown)
	case v.Unknown != "":
		return Unknown("of %s in the same project: %s", member, v.Unknown)
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
func (s *Site) acrossFrom(p *Project, l *layers.Layer) (line, member string) {
	if p == nil {
		return "", ""
	}
	near := s.Near(l.Geo)
	here := s.inPlane(s.Proposal.Of)
	for _, m := range p.Members {
		if m.Order == s.Proposal.Of.Order || m.Geometry == nil {
			continue
		}
		there := s.inPlane(m)
		gap := math.Hypot(max(0, there.Min[0]-here.Max[0], here.Min[0]-there.Max[0]), max(0, there.Min[1]-here.Max[1], here.Min[1]-there.Max[1]))
		if gap > max(rowLeast, rowGap*planar.Distance(here.Min, here.Max), rowGap*planar.Distance(there.Min, there.Max)) {
			continue
		}
		if item, ok := near.Across(here.Center(), there.Center()); ok {
			return l.Items[item].Label, m.Title()
		}
	}
	return "", ""
}

// inPlane is the bound of a structure in the plane of the site.
func (s *Site) inPlane(of *Submission) orb.Bound {
	b := of.Bound()
	return orb.MultiPoint{s.Footprint.Plane.Forward(b.Min), s.Footprint.Plane.Forward(b.Max)}.Bound()
}

// rowGap is how much wider than the longer of two structures the water between them may be
// and they still act as one row: the openings between breakwaters are seldom twice as wide
// as these are long. Common practice, no source.
const rowGap = 2

// rowLeast is how wide, in metres (100 ft), the water between two structures may be in any
// case: modules too stand in rows, however short they are. Common practice, no source.
const rowLeast = 100 * job.Foot

// OfProject sets the lengths of the whole project the proposal belongs to.
func (s *Site) OfProject(p *Project) {
	s.Values["project_length"], s.Values["project_bank_length"] = s.Values["overall_length"], s.Values["bank_length"]
	if p != nil {
		s.Values["project_length"], s.Values["project_bank_length"] = p.overall, p.bank
	}
}
