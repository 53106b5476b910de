package pages

import (
	"github.com/paulmach/orb"

	written "waterward/geo/text"
)

// visible is the row with the hidden characters of its texts written out.
func (r Row) visible() Row {
	r.ID = written.Distinct(r.ID)
	for _, s := range []*string{&r.Kind, &r.Parcels, &r.File, &r.Place, &r.Aside, &r.Error} {
		*s = written.Visible(*s)
	}
	r.Notices, r.Data, r.Changes = allVisible(r.Notices), allVisible(r.Data), allVisible(r.Changes)
	requests := make([]Request, len(r.Requests))
	for i, q := range r.Requests {
		requests[i] = Request{written.Visible(q.Text), written.Visible(q.Authorities), written.Visible(q.Then)}
	}
	decisions := make([]Decision, len(r.Decisions))
	for i, d := range r.Decisions {
		d.RestsOn, d.CouldBe, d.Open, d.Unchecked = written.Visible(d.RestsOn), written.Visible(d.CouldBe), allVisible(d.Open), allVisible(d.Unchecked)
		rules := make([]Rule, len(d.Rules))
		for k, rule := range d.Rules {
			for _, s := range []*string{&rule.Path, &rule.Says, &rule.Value, &rule.Limit, &rule.Tolerance, &rule.Reason, &rule.Change, &rule.Evidence, &rule.Cite} {
				*s = written.Visible(*s)
			}
			rules[k] = rule
		}
		d.Rules = rules
		decisions[i] = d
	}
	r.Requests, r.Decisions = requests, decisions
	return r
}

// visible is what stands round the rows, likewise.
func (t Triage) visible() Triage {
	t.Title = written.Visible(t.Title)
	t.Notices, t.Warnings = allVisible(t.Notices), allVisible(t.Warnings)
	sources := make([]Source, len(t.Sources))
	for i, s := range t.Sources {
		s.Role, s.File, s.Date, s.Datum = written.Visible(s.Role), written.Visible(s.File), written.Visible(s.Date), written.Visible(s.Datum)
		sources[i] = s
	}
	t.Sources = sources
	return t
}

func allVisible(texts []string) []string {
	made := make([]string, len(texts))
	for i, s := range texts {
		made[i] = written.Visible(s)
	}
	return made
}

// visible writes out the hidden characters of what stands on the sheets beside the row.
func (s *Sheet) visible() {
	for _, t := range []*string{&s.Title.Activity, &s.Title.Waterbody, &s.Title.Material, &s.Title.Parcels, &s.Title.Day, &s.Section.Missing, &s.Section.Datum, &s.Section.Looking, &s.Section.ToeText} {
		*t = written.Visible(*t)
	}
	s.Title.Activity = capital(s.Title.Activity)
	if corner := s.Plan.Corner; corner != nil {
		s.Plan.Corner = func(at orb.Point) string { return written.Visible(corner(at)) }
	}
	s.Notes, s.Cautions, s.Section.Words = allVisible(s.Notes), allVisible(s.Cautions), allVisible(s.Section.Words)
	authorities := make([]Authority, len(s.Authorities))
	for i, a := range s.Authorities {
		authorities[i] = Authority{Name: written.Visible(a.Name)}
		for _, p := range a.Paths {
			authorities[i].Paths = append(authorities[i].Paths, Path{Title: written.Visible(p.Title)})
		}
	}
	s.Authorities = authorities
	planes := make([]Level, len(s.Section.Planes))
	for i, l := range s.Section.Planes {
		planes[i] = Level{written.Visible(l.Name), l.Feet}
	}
	s.Section.Planes = planes
	figures := make([]Figure, len(s.Figures))
	for i, f := range s.Figures {
		figures[i] = Figure{written.Visible(f.Name), written.Visible(f.Value)}
	}
	s.Figures, s.Sources = figures, Triage{Sources: s.Sources}.visible().Sources
	for i := range s.Plan.Lines {
		s.Plan.Lines[i].Names = allVisible(s.Plan.Lines[i].Names)
	}
	for i := range s.Plan.Grounds {
		s.Plan.Grounds[i].Names = allVisible(s.Plan.Grounds[i].Names)
	}
	for i := range s.Plan.Dimensions {
		d := &s.Plan.Dimensions[i]
		d.Name, d.Text = written.Visible(d.Name), written.Visible(d.Text)
	}
}
