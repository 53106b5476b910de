package screening

import (
	"fmt"
	"strings"

	"waterward/geo/geojson"
	"waterward/rules"
)

// result is what a run says of one proposal.
type result struct {
	p         *proposal
	site      *site   // nil if the proposal could not be measured
	parts     []*site // of its project, those that adjoin it, one to the next
	decisions []rules.Decision
	notices   []string
	limits    []drawnLimit
}

// column is one column of the summary.
type column struct {
	name string
	cell func(*result) cell
}

// decisionColumns are the columns of each authority, in order; withCures adds
// what keeps the proposal off the easier paths.
func decisionColumns(books []*rules.Book, withCures bool) []column {
	var out []column
	for i, b := range books {
		add := func(name string, of func(*rules.Decision) cell) {
			out = append(out, column{b.Authority + "_" + name, func(r *result) cell {
				if r.decisions == nil {
					return textCell("")
				}
				return of(&r.decisions[i])
			}})
		}
		add("path", func(d *rules.Decision) cell { return textCell(d.Path.ID) })
		add("certainty", func(d *rules.Decision) cell { return textCell(string(d.Certainty)) })
		add("rests_on", func(d *rules.Decision) cell { return textCell(restsOnText[d.RestsOn]) })
		add("could_be", func(d *rules.Decision) cell { return textCell(d.CouldBe) })
		add("waiver", func(d *rules.Decision) cell { return textCell(waiverText(d)) })
		add("binding", func(d *rules.Decision) cell {
			if d.Binding == nil {
				return textCell("")
			}
			return textCell(d.Binding.Criterion.ID)
		})
		add("margin", func(d *rules.Decision) cell { return marginCell(d.Binding) })
		add("requests", func(d *rules.Decision) cell { return listCell(d.Lacks) })
		if withCures {
			add("blocked_by", func(d *rules.Decision) cell { return textCell(blockedText(d)) })
		}
	}
	return out
}

// restsOnText is evidence in the words of a table.
var restsOnText = map[rules.Evidence]string{
	rules.Read: "rule text", rules.Secondary: "account of the rule", rules.Practice: "common practice", rules.Memory: "memory",
	rules.Unread: "text nobody has read",
}

func waiverText(d *rules.Decision) string {
	var out []string
	for _, r := range d.Waiver {
		out = append(out, fmt.Sprintf("%s by %s", r.Criterion.ID, r.Criterion.WaivableBy))
	}
	return strings.Join(out, "; ")
}

// marginCell is the binding margin in the unit of its limit.
func marginCell(r *rules.Result) cell {
	if r == nil {
		return textCell("")
	}
	return numberCell(r.Criterion.Unit.FromSI(r.Margin), 2)
}

func blockedText(d *rules.Decision) string {
	var out []string
	for _, r := range d.BlockedBy {
		text := r.Path.ID + "/" + r.Criterion.ID
		if r.Cure != "" {
			text += ": " + r.Cure
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}

// measureCells are the columns of the measures; opening is the width of opening
// the runs are shown for, every how much length an opening is asked for.
func measureCells(areas []*layer, opening, every float64) []column {
	var out []column
	add := func(name string, of func(*site) cell) {
		out = append(out, column{name, func(r *result) cell {
			if r.site == nil {
				return textCell("")
			}
			return of(r.site)
		}})
	}
	for _, c := range measureColumns {
		m, _ := rules.FindMeasure(c.measure)
		ref := rules.Ref{Measure: c.measure}
		for _, parameter := range m.Parameters {
			switch parameter {
			case rules.OpeningParameter:
				ref.Opening = opening
			case rules.EveryParameter:
				ref.Every = every
			}
		}
		add(c.name, func(s *site) cell {
			if c.measure == "narrowest_opening" && len(s.fp.Links) == 0 {
				return textCell("") // a 0 would read as an opening that is shut
			}
			return measureCell(s.Measure(ref), c)
		})
	}
	add("fill_elements_cuyd", func(s *site) cell { return textCell(s.fillOfElements()) })
	add("fill_solid_cuyd", func(s *site) cell { return numberCell(s.solid()/cubicYard, 2) })
	add("fill_placed_cuyd", func(s *site) cell { return numberCell(s.placed()/cubicYard, 2) })
	add("placed_mhw_farthest_ft", placedCell("mhw_farthest", foot, 2))
	add("placed_narrowest_opening_ft", placedCell("narrowest_opening", foot, 2))
	add("placed_footprint_sqft", placedCell("footprint_area", squareFoot, 1))
	add("units", func(s *site) cell { return numberCell(s.units(), 0) })
	add("crest_elevations", func(s *site) cell { return textCell(s.inDatums(s.p.crest)) })
	add("bed_elevations", func(s *site) cell { return textCell(s.inDatums(s.p.bed())) })
	add("growth_band", func(s *site) cell { return textCell(s.growth.band) })
	add("growth_elevations", func(s *site) cell { return textCell(s.growth.targets) })
	add("oysters_live", func(s *site) cell { return textCell(s.growth.living) })
	add("channel_reach", func(s *site) cell { return textCell(s.values["channel_reach"].Word) })
	for _, l := range areas {
		name := strings.TrimPrefix(l.name, "areas.")
		add("in_area_"+name, func(s *site) cell { return areaCell(s.values["in_area:"+name]) })
	}
	return out
}

// closingColumns end every row.
func closingColumns() []column {
	return []column{
		{"parcels", func(r *result) cell {
			if r.site == nil {
				return textCell("")
			}
			return textCell(strings.Join(r.site.parcels, "; "))
		}},
		{"notices", func(r *result) cell { return listCell(r.notices) }},
		{"error", func(r *result) cell {
			if r.p.err == nil {
				return textCell("")
			}
			return textCell(r.p.err.Error())
		}},
	}
}

// summaryColumns are the columns of summary.csv.
func summaryColumns(books []*rules.Book, areas []*layer, opening, every float64) []column {
	position := func(axis int) func(*result) cell {
		return func(r *result) cell {
			if r.p.feature.Geometry == nil {
				return textCell("")
			}
			return numberCell(r.p.feature.Geometry.Bound().Center()[axis], positionDecimals)
		}
	}
	out := []column{
		{"id", func(r *result) cell { return textCell(r.p.id) }},
		{"kind", func(r *result) cell { return textCell(r.p.words["kind"]) }},
		{"lon", position(0)},
		{"lat", position(1)},
	}
	out = append(out, decisionColumns(books, false)...)
	out = append(out, measureCells(areas, opening, every)...)
	out = append(out, statedColumns()...)
	return append(out, closingColumns()...)
}

// statedColumns repeat what proposals state of themselves; in the features they
// stand already.
func statedColumns() []column {
	var out []column
	for i, m := range statedMeasures {
		out = append(out, column{m.property, func(r *result) cell {
			if r.p.statedValues == nil {
				return textCell("")
			}
			return numberCell(r.p.statedValues[i]/perUnit(m.property), 2)
		}})
	}
	return append(out,
		column{"fill", func(r *result) cell { return textCell(r.p.words["fill"]) }},
		column{"material", func(r *result) cell { return textCell(r.p.words["material"]) }})
}

// featureColumns are the properties added to every proposal.
func featureColumns(books []*rules.Book, areas []*layer, opening, every float64) []column {
	out := decisionColumns(books, true)
	out = append(out, measureCells(areas, opening, every)...)
	return append(out, closingColumns()...)
}

// properties makes columns the members of a GeoJSON object.
func (r *result) properties(columns []column) []geojson.Member {
	out := make([]geojson.Member, len(columns))
	for i, c := range columns {
		out[i] = geojson.Member{Key: c.name, Raw: c.cell(r).json}
	}
	return out
}

func (r *result) row(columns []column) []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = c.cell(r).table
	}
	return out
}
