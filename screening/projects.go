package screening

import (
	"cmp"
	"context"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

// projects are the proposals as they stand to one another: which belong together, where a
// rule speaks of a single and complete project, and which lie side by side.
type projects struct {
	byName map[string]*site.Project // only those of several proposals
	unread int                      // proposals, or files of them, that cannot be read, of any project
	places *flat.Places             // what lies within reach of any proposal

	standing map[int]*standing   // by order, those whose bounds others may touch
	sites    map[string][]string // by site, the names of its projects
	claimed  map[string]string   // by project, a structure of which only some parts say that it is of that
	open     map[string]bool     // by project, whether some of its proposals name their alternative and others do not
}

// findProjects sees which of the proposals share a project or a place, and reads them again
// to keep those that do. What is not decided by itself has no part in it.
func findProjects(ctx context.Context, roster *roster, radius float64) projects {
	out := projects{byName: map[string]*site.Project{}, standing: map[int]*standing{}, sites: map[string][]string{}, open: map[string]bool{}, claimed: map[string]string{}, unread: len(roster.intake.broken)}
	structure := map[int]*entry{} // by order of a part, the first of its structure
	count := map[string]int{}
	named, silent := map[string]bool{}, map[string]bool{} // projects whose proposals name their alternative, or do not
	var windows, bounds []orb.Bound
	var drawn []*entry
	for _, e := range roster.entries {
		if first := structure[e.order]; first != nil && e.design.Name() != "" && e.design.Key() != first.design.Key() {
			out.claimed[e.design.Name()] = first.id
		}
		if roster.aside(e) {
			continue
		}
		if ruled := roster.rulings[e.order]; ruled != nil {
			for _, order := range ruled.parts {
				structure[order] = e
			}
		}
		if e.drawn {
			windows = append(windows, crs.Window(e.bound, keptWithin*radius))
			bounds = append(bounds, crs.Window(e.bound, besideWithin+e.halfWidth))
			drawn = append(drawn, e)
		}
		if d := e.design; d.Key() != "" {
			count[d.Key()]++
			out.site(d)
			if d.Alternative != "" {
				named[d.Name()] = true
			} else {
				silent[d.Name()] = true
			}
		} else if !e.readable {
			out.unread++
		}
	}
	for name := range named {
		out.open[name] = silent[name]
	}
	out.places = flat.NewPlaces(windows)
	side := flat.NewPlaces(bounds)
	wanted, beside, company := map[int]bool{}, map[int][]int{}, map[int]*standing{}
	for i, b := range bounds {
		e, near := drawn[i], side.Meeting(b)
		if len(near) == 1 { // itself
			continue
		}
		s := &standing{design: e.design, bound: e.bound, halfWidth: e.halfWidth, found: &found{}}
		wanted[e.order], company[e.order] = true, s
		if others := len(near) - 1; others > mostAdjoining {
			s.crowd = others
			continue
		}
		for _, k := range near {
			if k != i {
				beside[e.order] = append(beside[e.order], drawn[k].order)
			}
		}
	}
	for _, e := range roster.entries {
		if key := e.design.Key(); count[key] > 1 && !roster.aside(e) {
			out.byName[key] = &site.Project{}
			wanted[e.order] = true
		}
	}
	roster.keep(ctx, wanted, func(s *site.Submission) {
		s = roster.settled(s)
		d := site.DesignOf(s)
		if p := out.byName[d.Key()]; p != nil {
			p.Title = cmp.Or(p.Title, d.Title())
			p.Members = append(p.Members, s)
		}
		if at := company[s.Order]; at != nil {
			at.of, at.coarse = s, s.Coarseness()
			out.standing[s.Order] = at
		}
	})
	link(out.standing, beside)
	return out
}

// site takes note of the projects of a site.
func (p *projects) site(d site.Design) {
	at := rules.Plain(d.Site)
	if same := func(name string) bool { return rules.SameWord(name, d.Project) }; at != "" && !slices.ContainsFunc(p.sites[at], same) {
		p.sites[at] = append(p.sites[at], d.Project)
	}
}

// besideWithin is how far round a proposal, in metres (50 ft), others are looked for that
// it may adjoin: no opening that counts is wider.
const besideWithin = 50 * job.Foot

// keptWithin is within how many search radii of a proposal the features of layers
// are kept: within one they are measured, and twice that far a shore mapped in
// pieces goes on past what is measured.
const keptWithin = 2
