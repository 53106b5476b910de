package screening

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"sync"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/geo/geojson"
	"waterward/rules"
)

// projects are the proposals as they stand to one another: which belong together, where a
// rule speaks of a single and complete project, and which lie side by side.
type projects struct {
	byName map[string]*project // only those of several proposals
	unread int                 // proposals that cannot be read, of any project
	all    int                 // proposals in the file
	places *flat.Places        // what lies within reach of any proposal

	beside map[int][]int            // by number in the file, the others whose bounds may touch
	kept   map[int]*geojson.Feature // those that must be looked at twice, by number
	sites  map[string][]string      // by site, the names of its projects
	open   map[string]bool          // by project, whether some of its proposals name their alternative and others do not
	named  map[string][]int         // numbers of the proposals of one id, where there are several
}

// project is the proposals of one project, or of one site, and of one alternative.
type project struct {
	title   string
	members []*geojson.Feature
	once    sync.Once
	overall rules.Value
	bank    rules.Value
	lost    []string // members that could not be measured
}

// findProjects reads the proposals before they are screened: once to see who shares a
// project, an id or a place, and again, if any do, to keep those. A fault of the
// file ends it early; screening meets the same fault and reports it.
func findProjects(ctx context.Context, files Files, source ProposalsSource, radius float64) projects {
	out := projects{byName: map[string]*project{}, beside: map[int][]int{}, kept: map[int]*geojson.Feature{}, named: map[string][]int{}, sites: map[string][]string{}, open: map[string]bool{}}
	count := map[string]int{}
	named, silent := map[string]bool{}, map[string]bool{} // projects whose proposals name their alternative, or do not
	var windows, bounds []orb.Bound
	var numbers []int
	out.all = each(ctx, files, source, func(f *geojson.Feature) {
		if f.ID != "" {
			out.named[f.ID] = append(out.named[f.ID], f.Number)
		}
		if f.Geometry != nil {
			windows = append(windows, crs.Window(f.Bound(), keptWithin*radius))
			bounds = append(bounds, crs.Window(f.Bound(), besideWithin+source.halfWidth(f)))
			numbers = append(numbers, f.Number)
		}
		if d := designOf(f, source.Properties); d.key() != "" {
			count[d.key()]++
			out.site(d)
			if d.alternative != "" {
				named[d.name()] = true
			} else {
				silent[d.name()] = true
			}
		} else if !f.Readable() {
			out.unread++
		}
	})
	for name := range named {
		out.open[name] = silent[name]
	}
	out.places = flat.NewPlaces(windows)
	side := flat.NewPlaces(bounds)
	wanted := map[int]bool{}
	for i, b := range bounds {
		for _, k := range side.Meeting(b) {
			if k != i {
				out.beside[numbers[i]] = append(out.beside[numbers[i]], numbers[k])
				wanted[numbers[k]] = true
			}
		}
		slices.Sort(out.beside[numbers[i]])
	}
	maps.DeleteFunc(out.named, func(_ string, of []int) bool { return len(of) < 2 })
	for key, n := range count {
		if n > 1 {
			out.byName[key] = &project{}
		}
	}
	if len(out.byName)+len(wanted) == 0 {
		return out
	}
	each(ctx, files, source, func(f *geojson.Feature) {
		d := designOf(f, source.Properties)
		if p := out.byName[d.key()]; p != nil {
			p.title = cmp.Or(p.title, d.title())
			p.members = append(p.members, f)
		}
		if wanted[f.Number] {
			out.kept[f.Number] = f
		}
	})
	return out
}

// site takes note of the projects of a site.
func (p *projects) site(d design) {
	site := rules.Plain(d.site)
	if same := func(name string) bool { return rules.SameWord(name, d.project) }; site != "" && !slices.ContainsFunc(p.sites[site], same) {
		p.sites[site] = append(p.sites[site], d.project)
	}
}

// besideWithin is how far round a proposal, in metres (50 ft), others are looked for that
// it may adjoin: no opening that counts is wider.
const besideWithin = 50 * foot

// halfWidth is by how much a structure reaches beyond its drawing on either side.
func (source ProposalsSource) halfWidth(f *geojson.Feature) float64 {
	width, _, _ := source.Properties.number(f, "width_ft")
	diameter, _, _ := source.Properties.number(f, "diameter_ft")
	return math.Max(0, math.Max(width, diameter)/2)
}

// keptWithin is within how many search radii of a proposal the features of layers
// are kept: within one they are measured, and twice that far a shore mapped in
// pieces goes on past what is measured.
const keptWithin = 2

// each visits the proposals of a file. It returns how many there are.
func each(ctx context.Context, files Files, source ProposalsSource, visit func(*geojson.Feature)) (all int) {
	input, err := files.Open(source.File)
	if err != nil {
		return 0
	}
	defer input.Close()
	reader, err := newReader(source.File, input, source.CRS)
	if err != nil {
		return 0
	}
	for ctx.Err() == nil {
		f, err := reader.Next()
		if err != nil {
			break
		}
		all++
		source.Properties.identify(f)
		visit(f)
	}
	return all
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

// mostNamed is how many names a sentence lists before it says "and so on".
const mostNamed = 6

func few(names []string) string {
	if len(names) > mostNamed {
		return strings.Join(names[:mostNamed], ", ") + " and so on"
	}
	return strings.Join(names, ", ")
}

// rowGap is how much wider than the longer of two structures the water between them may be
// and they still act as one row: the openings between breakwaters are seldom twice as wide
// as these are long. Common practice, no source.
const rowGap = 2

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

// ofProject sets the lengths of the whole project the proposal belongs to.
func (s *site) ofProject(p *project) {
	s.values["project_length"], s.values["project_bank_length"] = s.values["overall_length"], s.values["bank_length"]
	if p != nil {
		s.values["project_length"], s.values["project_bank_length"] = p.overall, p.bank
	}
}
