package screening

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/site"
)

// projects are the proposals as they stand to one another: which belong together, where a
// rule speaks of a single and complete project, and which lie side by side.
type projects struct {
	byName map[string]*site.Project // only those of several proposals
	unread int                      // proposals that cannot be read, of any project
	all    int                      // proposals in the file
	places *flat.Places             // what lies within reach of any proposal

	beside map[int][]int            // by number in the file, the others whose bounds may touch
	kept   map[int]*geojson.Feature // those that must be looked at twice, by number
	sites  map[string][]string      // by site, the names of its projects
	open   map[string]bool          // by project, whether some of its proposals name their alternative and others do not
	named  map[string][]int         // numbers of the proposals of one id, where there are several
}

// findProjects reads the proposals before they are screened: once to see who shares a
// project, an id or a place, and again, if any do, to keep those. A fault of the
// file ends it early; screening meets the same fault and reports it.
func findProjects(ctx context.Context, files job.Files, source job.ProposalsSource, radius float64) projects {
	out := projects{byName: map[string]*site.Project{}, beside: map[int][]int{}, kept: map[int]*geojson.Feature{}, named: map[string][]int{}, sites: map[string][]string{}, open: map[string]bool{}}
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
			bounds = append(bounds, crs.Window(f.Bound(), besideWithin+source.HalfWidth(f)))
			numbers = append(numbers, f.Number)
		}
		if d := site.DesignOf(f, source.Properties); d.Key() != "" {
			count[d.Key()]++
			out.site(d)
			if d.Alternative != "" {
				named[d.Name()] = true
			} else {
				silent[d.Name()] = true
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
			out.byName[key] = &site.Project{}
		}
	}
	if len(out.byName)+len(wanted) == 0 {
		return out
	}
	each(ctx, files, source, func(f *geojson.Feature) {
		d := site.DesignOf(f, source.Properties)
		if p := out.byName[d.Key()]; p != nil {
			p.Title = cmp.Or(p.Title, d.Title())
			p.Members = append(p.Members, f)
		}
		if wanted[f.Number] {
			out.kept[f.Number] = f
		}
	})
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

// each visits the proposals of a file. It returns how many there are.
func each(ctx context.Context, files job.Files, source job.ProposalsSource, visit func(*geojson.Feature)) (all int) {
	input, err := files.Open(source.File)
	if err != nil {
		return 0
	}
	defer input.Close()
	reader, err := layers.NewReader(source.File, input, source.CRS)
	if err != nil {
		return 0
	}
	for f, err := range reader.Features() {
		if err != nil || ctx.Err() != nil {
			break
		}
		all++
		source.Properties.Identify(f)
		visit(f)
	}
	return all
}
