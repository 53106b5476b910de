package screening

import (
	"fmt"
	"slices"
	"strings"

	"waterward/geo/geojson"
	"waterward/rules"
	"waterward/screening/field"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/out"
	"waterward/screening/site"
)

// result is what a run says of one proposal.
type result struct {
	p         *site.Proposal
	site      *site.Site   // nil if the proposal could not be measured
	others    []other      // of its project, those that adjoin it, one to the next
	variants  []*site.Site // by what its parts state otherwise
	decisions []rules.Decision
	notices   []string
	limits    []site.DrawnLimit
	marked    *field.Site  // what of it is taken to the shore; nil if that is not asked for
	renamed   []string     // properties of the proposal that bore the name of one of ours
	sheet     string       // the file with its sheets, if they are drawn
	changes   []difference // since an earlier run, if it is compared with one
}

// other is another proposal of one structure, and the path it comes to by each book.
type other struct {
	id      string
	choices []rules.Choice
}

// column is one column of a table, and one property of a feature.
type column struct {
	name string
	cell func(*result) out.Cell
}

// decisionColumns are what is said of the decision of each authority.
func decisionColumns(books []*rules.Book) []column {
	var made []column
	for i, b := range books {
		add := func(name string, of func(*rules.Decision) out.Cell) {
			made = append(made, column{b.Authority + "_" + name, func(r *result) out.Cell {
				if r.decisions == nil {
					return out.Text("")
				}
				return of(&r.decisions[i])
			}})
		}
		add("title", func(d *rules.Decision) out.Cell { return out.Text(titleText(d)) })
		add("path", func(d *rules.Decision) out.Cell { return out.Text(d.Path.ID) })
		add("certainty", func(d *rules.Decision) out.Cell { return out.Text(string(d.Certainty)) })
		add("could_be", func(d *rules.Decision) out.Cell { return out.Text(d.CouldBe) })
		add("waiver", func(d *rules.Decision) out.Cell { return out.Text(waiverText(d)) })
		add("tightest", func(d *rules.Decision) out.Cell {
			if d.Tightest == nil {
				return out.Text("")
			}
			return out.Text(d.Tightest.Criterion.ID)
		})
		add("margin", func(d *rules.Decision) out.Cell { return marginCell(d.Tightest) })
		add("rests_on", func(d *rules.Decision) out.Cell { return out.Text(restsOnText[d.RestsOn]) })
		add("blocked_by", func(d *rules.Decision) out.Cell { return out.Text(blockedText(d)) })
		add("change", func(d *rules.Decision) out.Cell { return out.Text(changeText(d)) })
	}
	return made
}

// requestColumns are what each authority's decision lacks.
func requestColumns(books []*rules.Book) []column {
	var made []column
	for i, b := range books {
		made = append(made, column{b.Authority + "_requests", func(r *result) out.Cell {
			if r.decisions == nil {
				return out.Text("")
			}
			return out.List(r.decisions[i].Lacks)
		}})
	}
	return made
}

// withWaiver follows the title of a path that must be waived to.
const withWaiver = ", with waiver"

// waived follows the id of such a path.
const waived = " with waiver"

// titleText names the path of a decision; what it needs a waiver for is no path cleared.
func titleText(d *rules.Decision) string {
	if len(d.Waiver) > 0 {
		return d.Path.Title + withWaiver
	}
	return d.Path.Title
}

// restsOnText is evidence in the words of a table.
var restsOnText = map[rules.Evidence]string{
	rules.Read: "rule text", rules.Secondary: "account of the rule", rules.Practice: "common practice", rules.Memory: "memory",
	rules.Unread: "text nobody has read",
}

func waiverText(d *rules.Decision) string {
	var made []string
	for _, r := range d.Waiver {
		made = append(made, fmt.Sprintf("%s by %s", r.Criterion.ID, r.Criterion.WaivableBy))
	}
	return strings.Join(made, "; ")
}

// marginCell is the tightest margin in the unit of its limit.
func marginCell(r *rules.Result) out.Cell {
	if r == nil {
		return out.Text("")
	}
	return out.Number(r.Criterion.Unit.FromSI(r.Margin), 2)
}

// blockedText is what keeps the proposal off the next easier path.
func blockedText(d *rules.Decision) string {
	var made []string
	for _, r := range d.BlockedBy {
		made = append(made, r.Path.ID+"/"+r.Criterion.ID)
	}
	return strings.Join(made, "; ")
}

// changeText is what would bring it there.
func changeText(d *rules.Decision) string {
	var made []string
	for _, r := range d.BlockedBy {
		if r.Change != "" {
			made = append(made, r.Path.ID+"/"+r.Criterion.ID+": "+r.Change)
		}
	}
	return strings.Join(made, "; ")
}

// measureCells are the columns of the measures; opening is the width of opening
// the runs are shown for, every how much length an opening is asked for.
func measureCells(areas []*layers.Layer, opening, every float64) []column {
	var made []column
	add := func(name string, of func(*site.Site) out.Cell) {
		made = append(made, column{name, func(r *result) out.Cell {
			if r.site == nil {
				return out.Text("")
			}
			return of(r.site)
		}})
	}
	for _, r := range site.Shown {
		add(r.Column.Name, func(s *site.Site) out.Cell { return s.Cell(r, opening, every) })
	}
	add("fill_elements_cuyd", func(s *site.Site) out.Cell { return out.Text(s.FillOfElements()) })
	add("fill_solid_cuyd", func(s *site.Site) out.Cell { return out.Number(s.Solid()/job.CubicYard, 2) })
	add("fill_placed_cuyd", func(s *site.Site) out.Cell { return out.Number(s.Placed()/job.CubicYard, 2) })
	for _, r := range site.ShownPlaced {
		add("placed_"+r.Column.Name, func(s *site.Site) out.Cell { return s.PlacedCell(r) })
	}
	add("units", func(s *site.Site) out.Cell { return out.Number(s.Units(), 0) })
	add("crest_elevations", func(s *site.Site) out.Cell { return out.Text(s.InDatums(s.Proposal.Crest)) })
	add("bed_elevations", func(s *site.Site) out.Cell { return out.Text(s.InDatums(s.Proposal.Bed())) })
	add("growth_band", func(s *site.Site) out.Cell { return out.Text(s.Growth.Band) })
	add("growth_elevations", func(s *site.Site) out.Cell { return out.Text(s.Growth.Targets) })
	add("oysters_live", func(s *site.Site) out.Cell { return out.Text(s.Growth.Living) })
	for _, r := range site.ShownWords(areas) {
		add(r.Column.Name, func(s *site.Site) out.Cell { return s.Cell(r, opening, every) })
	}
	return made
}

var (
	idColumn      = column{"id", func(r *result) out.Cell { return out.ID(r.p.ID) }}
	noticesColumn = column{"notices", func(r *result) out.Cell { return out.List(r.notices) }}
	parcelsColumn = column{"parcels", func(r *result) out.Cell {
		if r.site == nil {
			return out.Text("")
		}
		return out.Text(strings.Join(r.site.Parcels, "; "))
	}}
	versionColumn = column{"version", func(r *result) out.Cell { return out.Text(r.p.Of.Version()) }}
	sourceColumn  = column{"source_file", func(r *result) out.Cell { return out.Text(r.p.Of.From.Name) }}
	asideColumn   = column{"not_decided", func(r *result) out.Cell { return out.Text(r.p.Of.Aside) }}
	errorColumn   = column{"error", func(r *result) out.Cell {
		if r.p.Err == nil {
			return out.Text("")
		}
		return out.Text(r.p.Err.Error())
	}}
)

// summaryColumns are the columns of summary.csv: what was decided, and why.
func summaryColumns(books []*rules.Book) []column {
	position := func(axis int) func(*result) out.Cell {
		return func(r *result) out.Cell {
			if r.p.Of.Geometry == nil {
				return out.Text("")
			}
			return out.Number(r.p.Of.Bound().Center()[axis], out.PositionDecimals)
		}
	}
	made := []column{
		idColumn,
		{"kind", func(r *result) out.Cell { return out.Text(r.p.Words["kind"]) }},
		{"lon", position(0)},
		{"lat", position(1)},
	}
	made = append(made, decisionColumns(books)...)
	return append(made, parcelsColumn, column{"requests", func(r *result) out.Cell {
		if r.decisions == nil {
			return out.Text("")
		}
		return out.Number(float64(len(r.requests())), 0)
	}}, sourceColumn, versionColumn, asideColumn, errorColumn)
}

// measuresColumns are the columns of measures.csv: what was measured, what the proposals
// state of themselves, and what must be seen beside it.
func measuresColumns(areas []*layers.Layer, opening, every float64) []column {
	made := append([]column{idColumn}, measureCells(areas, opening, every)...)
	made = append(made, statedColumns()...)
	return append(made, noticesColumn)
}

// statedColumns repeat what proposals state of themselves; in the features they
// stand already.
func statedColumns() []column {
	var made []column
	for i, m := range site.StatedNumbers {
		made = append(made, column{m.Property, func(r *result) out.Cell {
			if r.p.StatedValues == nil {
				return out.Text("")
			}
			return out.Number(r.p.StatedValues[i]/job.PerUnit(m.Property), 2)
		}})
	}
	return append(made,
		column{"fill", func(r *result) out.Cell { return out.Text(r.p.Words["fill"]) }},
		column{"material", func(r *result) out.Cell { return out.Text(r.p.Words["material"]) }})
}

// featureColumns are the properties added to every proposal.
func featureColumns(books []*rules.Book, areas []*layers.Layer, opening, every float64) []column {
	made := slices.Concat(overallColumns(), decisionColumns(books), requestColumns(books))
	made = append(made, measureCells(areas, opening, every)...)
	return append(made, parcelsColumn, noticesColumn, sourceColumn, asideColumn, errorColumn)
}

// properties makes columns the members of a GeoJSON object.
func (r *result) properties(columns []column) []geojson.Member {
	made := make([]geojson.Member, len(columns))
	for i, c := range columns {
		made[i] = geojson.Member{Key: c.name, Raw: c.cell(r).JSON}
	}
	return made
}

func (r *result) row(columns []column) []string {
	made := make([]string, len(columns))
	for i, c := range columns {
		made[i] = c.cell(r).Table
	}
	return made
}
