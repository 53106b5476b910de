package screening

import (
	"cmp"
	"context"
	"fmt"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// projects are the proposals that belong together, by what they share: where a
// rule speaks of a single and complete project, their lengths are added up.
type projects struct {
	byName map[string]*project // only those of several proposals
	unread int                 // proposals that cannot be read, of any project
	all    int                 // proposals in the file
	places *geo.Places         // what lies within reach of any proposal
}

// project is the proposals of one project, or of one site.
type project struct {
	title   string
	members []*geo.Feature
	once    sync.Once
	overall rules.Value
	bank    rules.Value
}

// projectOf names the project a proposal belongs to: its project, else its
// site; empty if it states neither. key is the same for one name however it is
// spaced and capitalised.
func projectOf(f *geo.Feature, fields Fields) (title, key string) {
	for _, property := range []string{"project", "site"} {
		// A value without a meaning names nothing.
		text, _ := fields.text(f, property)
		if words := strings.Fields(text); len(words) > 0 {
			title = property + " " + strings.Join(words, " ")
			return title, strings.ToLower(title)
		}
	}
	return "", ""
}

// findProjects reads the proposals before they are screened: once to count who
// shares a project, and again, if anybody does, to keep those. A fault of the
// file ends it early; screening meets the same fault and reports it.
func findProjects(ctx context.Context, files Files, source ProposalsSource, radius float64) projects {
	out := projects{byName: map[string]*project{}}
	count := map[string]int{}
	var windows []orb.Bound
	out.all = eachOnce(ctx, files, source, func(f *geo.Feature) {
		if f.Geometry != nil {
			windows = append(windows, geo.Window(f.Bound(), keptWithin*radius))
		}
		if title, key := projectOf(f, source.Properties); title != "" {
			count[key]++
		} else if !f.Readable() {
			out.unread++
		}
	})
	out.places = geo.NewPlaces(windows)
	for key, n := range count {
		if n > 1 {
			out.byName[key] = &project{}
		}
	}
	if len(out.byName) == 0 {
		return out
	}
	eachOnce(ctx, files, source, func(f *geo.Feature) {
		title, key := projectOf(f, source.Properties)
		if p := out.byName[key]; p != nil && title != "" {
			p.title = cmp.Or(p.title, title)
			p.members = append(p.members, f)
		}
	})
	return out
}

// keptWithin is within how many search radii of a proposal the features of layers
// are kept: within one they are measured, and twice that far a shore mapped in
// pieces goes on past what is measured.
const keptWithin = 2

// eachOnce visits the proposals of a file, but none whose id came before: those
// are refused, so they add nothing. It returns how many there are in all.
func eachOnce(ctx context.Context, files Files, source ProposalsSource, visit func(*geo.Feature)) (all int) {
	input, err := files.Open(source.File)
	if err != nil {
		return 0
	}
	defer input.Close()
	reader, err := newReader(source.File, input, source.CRS)
	if err != nil {
		return 0
	}
	seen := map[string]bool{}
	for ctx.Err() == nil {
		f, err := reader.Next()
		if err != nil {
			break
		}
		all++
		source.Properties.identify(f)
		if f.ID == "" || !seen[f.ID] {
			visit(f)
		}
		seen[f.ID] = true
	}
	return all
}

// measure adds up the lengths of all members, once.
func (p *project) measure(source ProposalsSource, layers *mapped, radius float64) {
	p.once.Do(func() {
		var names []string
		for _, f := range p.members {
			member := newProposal(f, source)
			names = append(names, member.id)
			if member.err != nil {
				why := unknown("%s of the same %s cannot be measured", member.id, p.title)
				p.overall, p.bank = addUp(p.overall, why, member.id), addUp(p.bank, why, member.id)
				continue
			}
			s := bareSite(member, layers, radius)
			s.lengths()
			s.tidal()
			if s.unplaceable() != nil {
				why := unknown("%s of the same %s lies landward of mean high water", member.id, p.title)
				p.overall, p.bank = addUp(p.overall, why, member.id), addUp(p.bank, why, member.id)
				continue
			}
			p.overall = addUp(p.overall, s.values["overall_length"], member.id)
			p.bank = addUp(p.bank, s.values["bank_length"], member.id)
		}
		detail := fmt.Sprintf("added up over the %d proposals of %s (%s)", len(names), p.title, few(names))
		p.overall.Detail, p.bank.Detail = detail, detail+", bank that two of them share counted twice"
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
	out := rules.Value{Number: sum.Number + v.Number, Layer: v.Layer, Feature: v.Feature, Date: v.Date}
	if sum.Layer != "" { // the oldest date stands for all, and none if one has none
		out.Feature, out.Date = "", min(sum.Date, v.Date)
	}
	return out
}

// mostNamed is how many names a sentence lists before it says "and so on".
const mostNamed = 6

func few(names []string) string {
	if len(names) > mostNamed {
		return strings.Join(names[:mostNamed], ", ") + " and so on"
	}
	return strings.Join(names, ", ")
}

// ofProject sets the lengths of the whole project the proposal belongs to.
func (s *site) ofProject(p *project) {
	s.values["project_length"], s.values["project_bank_length"] = s.values["overall_length"], s.values["bank_length"]
	if p != nil {
		s.values["project_length"], s.values["project_bank_length"] = p.overall, p.bank
	}
}
