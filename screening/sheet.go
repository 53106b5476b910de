package screening

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
	"waterward/screening/pages"
	"waterward/screening/site"
)

// sheets is the sink of the sheets that were asked for.
func (b *run) sheets(t *triage) *out.Sheets[*result] {
	names, sources := out.FileNames{}, sourcesOf(b.inputs())
	return &out.Sheets[*result]{
		Take: func(r *result) func(io.Writer) error {
			if r.site == nil || !b.options.Sheets.wants(r.p.ID) {
				return nil
			}
			made := t.sheet(b, r)
			made.Sources = sources
			return made.Write
		},
		Name: func(r *result) string {
			r.sheet = "sheets/" + names.Of(r.p.ID) + ".html"
			return r.sheet
		},
	}
}

// Sheets are the proposals of which sheets are drawn.
type Sheets struct {
	All bool
	IDs []string // ids, or several with commas between them
}

func (s Sheets) any() bool { return s.All || len(s.IDs) > 0 }

func (s Sheets) wants(id string) bool { return s.All || slices.Contains(s.IDs, id) }

// settled has each id by itself. Those that no proposal has are an error.
func (s Sheets) settled(r *roster) (Sheets, error) {
	made := Sheets{All: s.All}
	var lost texts
	known := func(id string) bool {
		return slices.ContainsFunc(r.entries, func(e *entry) bool {
			return e.id == id || e.id == "" && id == fmt.Sprintf("#%d", e.number) // as its row is called
		})
	}
	for _, text := range s.IDs {
		ids := []string{text} // which may have commas in it
		if !known(text) {
			ids = strings.Split(text, ",")
		}
		for _, id := range ids {
			if !known(id) {
				id = strings.TrimSpace(id)
			}
			if made.IDs = append(made.IDs, id); !known(id) {
				lost.add(fmt.Sprintf("%.60q", id))
			}
		}
	}
	if len(lost) > 0 {
		return made, &job.Error{Message: fmt.Sprintf("sheets are asked for %s, and no proposal has that id: write it as it stands in summary.csv", strings.Join(lost, ", "))}
	}
	return made, nil
}

// sheet is what the sheets of a result show.
func (t *triage) sheet(b *run, r *result) *pages.Sheet {
	s := r.site
	made := &pages.Sheet{
		Row: t.row(r), Authorities: t.authorities, Figures: figuresOf(r), Cautions: b.cautions(r),
		Title: pages.TitleBlock{Activity: activity(r), Waterbody: waterbody(s), Material: r.p.Words["material"], Parcels: strings.Join(s.Parcels, ", "), Day: b.job.DecisionDate.Format("01/02/2006")},
	}
	p := planOf(r)
	made.Plan, made.Section = p.draw(), sectionOf(p)
	made.Notes = slices.Concat([]string{p.signNotes()}, p.partNotes(), p.unseenNotes(), p.datumNotes(), p.lineNotes())
	return made
}

// activity is the kind of the structure with how many elements it has.
func activity(r *result) string {
	kind := r.p.Words["kind"]
	if kind == "" {
		kind = "structure"
	}
	return kind + ", " + job.Count(len(r.site.Footprint.Elements), "element")
}

// waterbody is the reach that the mean high water line beside the structure states.
func waterbody(s *site.Site) string {
	if s.Bank == nil {
		return ""
	}
	return s.ShoreItem().Reach
}

// cautions are those of the tool and of the books that have decided, each once.
func (b *run) cautions(r *result) []string {
	made := texts{caution}
	for i := range r.decisions {
		made.add(r.decisions[i].Book.Title + ": " + r.decisions[i].Book.Caution)
	}
	return made
}

// forms are the measures that permit forms ask for, by the names they go by there.
var forms = []struct{ measure, name, unit string }{
	{"bank_length", "Length along the bank", "ft"},
	{"overall_length", "Overall length, openings included", "ft"},
	{"element_length", "Length of the elements", "ft"},
	{"footprint_area", "Area of the footprint", "sq ft"},
	{"mhw_farthest", "Farthest from mean high water", "ft"},
	{"mlw_farthest", "Farthest from mean low water (negative: landward of it)", "ft"},
	{"crest_above_mhw", "Crest above mean high water", "ft"},
	{"mhw_mean_depth", "Mean depth at mean high water", "ft"},
	{"fill_volume", "Volume of the structure", "cu yd"},
	{"fill_below_mhw", "Volume below mean high water", "cu yd"},
	{"fill_below_htl", "Volume below the high tide line", "cu yd"},
	{"fill_per_length", "Volume per foot of bank", "cu yd/ft"},
	{"seagrass_overlap", "Seagrass covered", "sq ft"},
	{"wetland_overlap", "Wetland covered", "sq ft"},
}

// acre is the unit of areas beside square feet.
var acre, _ = rules.FindUnit("acre", rules.Area)

// figureOf is a measure as a form takes it, with what is in doubt of it.
func figureOf(s *site.Site, measure, unit string) string {
	v := s.Measure(rules.Ref{Measure: measure})
	if v.Unknown != "" {
		return "not known: " + v.Unknown
	}
	column := site.RecordOf(measure).Column
	text := job.Fixed(v.Number/column.PerUnit, max(2, column.Decimals)) + " " + unit
	if measure == "footprint_area" {
		text += " (" + job.Fixed(acre.FromSI(v.Number), 4) + " acre)"
	}
	for _, d := range v.Doubts {
		if d.Within == 0 { // it bears on the number, however near a limit that is
			text += "; in doubt: " + d.Says
		}
	}
	return text
}

// figuresOf are the figures for the forms.
func figuresOf(r *result) []pages.Figure {
	var made []pages.Figure
	for _, f := range forms {
		made = append(made, pages.Figure{Name: f.name, Value: figureOf(r.site, f.measure, f.unit)})
	}
	for _, own := range []struct{ name, value string }{
		{"Material", r.p.Words["material"]}, {"Fill proposed", r.p.Words["fill"]},
		{"Crest in the datums of the station", r.site.InDatums(r.p.Crest)}, {"Bed in the datums of the station", r.site.InDatums(r.p.Bed())},
	} {
		if own.value == "" {
			own.value = "not stated"
			if strings.Contains(own.name, "datums") {
				continue
			}
		}
		made = append(made, pages.Figure{Name: own.name, Value: own.value})
	}
	if n := r.site.Units(); !math.IsNaN(n) {
		made = append(made, pages.Figure{Name: "Units of the stated length", Value: job.Fixed(n, 0)})
	}
	return made
}

// plan is a structure with what is mapped round it, being drawn.
type plan struct {
	r      *result
	s      *site.Site
	middle orb.Point // of what is drawn, in the plane of the site
}

func planOf(r *result) *plan {
	return &plan{r: r, s: r.site, middle: r.site.Footprint.Bound.Center()}
}

// at is a place of the plane in feet from the middle.
func (p *plan) at(q orb.Point) orb.Point {
	return orb.Point{(q[0] - p.middle[0]) / job.Foot, (q[1] - p.middle[1]) / job.Foot}
}

func (p *plan) line(points []orb.Point) []orb.Point {
	made := make([]orb.Point, len(points))
	for i, q := range points {
		made[i] = p.at(q)
	}
	return made
}

func (p *plan) polygons(all []orb.Polygon) []orb.Polygon {
	made := make([]orb.Polygon, len(all))
	for i, polygon := range all {
		for _, ring := range polygon {
			made[i] = append(made[i], p.line(ring))
		}
	}
	return made
}

// draw is the plan.
func (p *plan) draw() pages.Plan {
	made := pages.Plan{Reach: p.s.Radius / job.Foot, Corner: p.corner}
	order := p.s.Elements()
	for n, i := range order {
		e := &p.s.Footprint.Elements[i]
		drawn := pages.Element{Number: n + 1, Areas: p.polygons(e.Areas)}
		for _, line := range e.Lines {
			drawn.Lines = append(drawn.Lines, p.line(line))
		}
		made.Elements = append(made.Elements, drawn)
	}
	made.Lines, made.Grounds = p.mapped()
	made.Lines = append(made.Lines, p.limits()...)
	made.Dimensions = append(p.distances(), p.lengths(order)...)
	if t, why := p.s.Transect(); why == "" {
		made.Cut = [2]orb.Point{p.at(t.Foot), p.at(t.Toe)}
	}
	return made
}

// corner writes the latitude and longitude of a place of the plan.
func (p *plan) corner(feet orb.Point) string {
	at := p.s.Footprint.Plane.Inverse(orb.Point{p.middle[0] + feet[0]*job.Foot, p.middle[1] + feet[1]*job.Foot})
	side := func(v float64, positive, negative string) string {
		if v < 0 {
			positive, v = negative, -v
		}
		return fmt.Sprintf("%.6f %s", v, positive)
	}
	return side(at[1], "N", "S") + ", " + side(at[0], "E", "W") + ", " + string(p.r.p.Of.CRS().Datum)
}

// excluded are the paths of a result that are for other kinds of structures.
func (r *result) excluded() map[*rules.Path]bool {
	made := map[*rules.Path]bool{}
	for i := range r.decisions {
		for k := range r.decisions[i].Results {
			if of := &r.decisions[i].Results[k]; of.Measure.Name == "kind" && (of.Outcome == rules.Exceeds) {
				made[of.Path] = true
			}
		}
	}
	return made
}
