package envelope

import (
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
)

// Column is one column of a table, of what it is made of.
type Column[R any] struct {
	Name string
	Cell func(r R) out.Cell
}

// said is what a front or a holding comes to; empty if it has no result.
type said struct {
	by    []Answer
	joint *Joint
}

func (r *Result) said() said {
	if r.By == nil {
		return said{}
	}
	return said{r.By, &r.Joint}
}

func (f *Outcome) said() said {
	if f == nil || f.Err != nil {
		return said{}
	}
	return said{f.By, &f.Joint}
}

// outcomeColumns are what is said of a front and of a holding alike: by all authorities
// together, then by each.
func (e *Search) outcomeColumns() []Column[said] {
	var made []Column[said]
	joint := func(name string, of func(*Joint) out.Cell) {
		made = append(made, Column[said]{"joint" + name, func(s said) out.Cell {
			if s.joint == nil {
				return out.Text("")
			}
			return of(s.joint)
		}})
	}
	joint("", func(j *Joint) out.Cell { return out.Text(e.JointText(j)) })
	joint("_certainty", func(j *Joint) out.Cell { return out.Text(string(j.Certainty)) })
	joint("_length_ft", func(j *Joint) out.Cell {
		if j.Candidate == nil {
			return out.Text("")
		}
		return out.Number(j.Candidate.Length/job.Foot, 2)
	})
	joint("_blocked_by", func(j *Joint) out.Cell { return out.Text(j.Blocker) })
	joint("_blocked_pct", func(j *Joint) out.Cell { return shareCell(j.Share) })
	for i, b := range e.Books {
		add := func(name string, of func(*Answer) out.Cell) {
			made = append(made, Column[said]{b.Authority + "_" + name, func(s said) out.Cell {
				if s.by == nil {
					return out.Text("")
				}
				return of(&s.by[i])
			}})
		}
		add("title", func(a *Answer) out.Cell {
			if a.Path == nil {
				return out.Text(NotKnown)
			}
			return out.Text(a.Path.Title)
		})
		add("certainty", func(a *Answer) out.Cell { return out.Text(string(a.Certainty)) })
		add("could_be", func(a *Answer) out.Cell { return out.Text(titleOf(a.CouldBe)) })
		add("longest_ft", func(a *Answer) out.Cell {
			if a.Candidate == nil {
				return out.Text("")
			}
			return out.Number(a.Longest/job.Foot, 1)
		})
		add("tightest", func(a *Answer) out.Cell { return out.Text(a.Tightest) })
		add("blocked_by", func(a *Answer) out.Cell { return out.Text(a.Blocker) })
		add("blocked_pct", func(a *Answer) out.Cell { return shareCell(a.Share) })
	}
	return made
}

// NotKnown is the path of which it is not known which it is, for want of data.
const NotKnown = "not known"

func titleOf(p *rules.Path) string {
	if p == nil {
		return ""
	}
	return p.Title
}

// JointText says in a few words on how many easiest paths one structure comes out.
func (e *Search) JointText(j *Joint) string {
	switch {
	case !j.Known:
		return NotKnown
	case j.Easiest():
		return "every easiest path"
	case j.Candidate == nil || j.off() == len(e.Books) && len(j.Open) == 0:
		return "no easiest path"
	}
	var but []string
	for _, i := range j.Beyond {
		but = append(but, e.Books[i].Authority)
	}
	for _, i := range j.Open {
		but = append(but, e.Books[i].Authority+" ("+NotKnown+")")
	}
	return "all but " + strings.Join(but, ", ")
}

// shareCell is a share in percent; empty if it is none.
func shareCell(percent float64) out.Cell {
	if percent == 0 {
		return out.Text("")
	}
	return out.Number(percent, 1)
}

// ParcelColumns are the columns of parcels.csv that are the same for all parcels of
// a holding.
func (e *Search) ParcelColumns() []Column[*Result] {
	made := []Column[*Result]{
		{"lon", func(r *Result) out.Cell { return out.Number(r.Middle()[0], out.ShortDecimals) }},
		{"lat", func(r *Result) out.Cell { return out.Number(r.Middle()[1], out.ShortDecimals) }},
		{"water", func(r *Result) out.Cell { return out.Text(e.Water(r)) }},
		{"frontage_ft", func(r *Result) out.Cell { return out.Number(r.Frontage()/job.Foot, 2) }},
	}
	for _, c := range e.outcomeColumns() {
		made = append(made, Column[*Result]{c.Name, func(r *Result) out.Cell { return c.Cell(r.said()) }})
	}
	return append(made,
		Column[*Result]{"stations_ft", func(r *Result) out.Cell { return out.Text(e.stations(r)) }},
		Column[*Result]{"gap_ft", func(r *Result) out.Cell { return out.Number(r.gap()/job.Foot, 2) }},
		Column[*Result]{"riparian", func(r *Result) out.Cell { return out.Text(strings.Join(r.Riparian(), "; ")) }},
		Column[*Result]{"waterway_width_ft", func(r *Result) out.Cell { return out.Number(r.width()/job.Foot, 2) }},
		Column[*Result]{"error", func(r *Result) out.Cell { return out.Text(ErrorText(r.Wrong())) }})
}

// PathColumns are the columns of parcel_paths.csv that are the same for all parcels of a
// holding: a row for all authorities together, and one for each path that was asked.
func (e *Search) PathColumns() []Column[*total] {
	text := func(of func(*total) string) func(*total) out.Cell {
		return func(t *total) out.Cell { return out.Text(of(t)) }
	}
	feet := func(of func(*total) float64, decimals int) func(*total) out.Cell {
		return func(t *total) out.Cell { return out.Number(of(t)/job.Foot, decimals) }
	}
	made := []Column[*total]{
		{"authority", text(func(t *total) string {
			if t.path == nil {
				return "joint"
			}
			return t.path.book.Authority
		})},
		{"path", text(func(t *total) string {
			if t.path == nil {
				return ""
			}
			return t.path.path.ID
		})},
		{"title", text(func(t *total) string {
			if t.path == nil {
				return "Every easiest path"
			}
			return t.path.path.Title
		})},
		{"outcome", text(func(t *total) string { return t.outcome(e) })},
		{"certainty", text(func(t *total) string { return string(t.sure(e)) })},
		{"length_ft", func(t *total) out.Cell {
			if t.candidate == nil {
				return out.Text("")
			}
			return out.Number(t.candidate.Length/job.Foot, 2)
		}},
		{"fits_ft", feet(func(t *total) float64 { return t.length }, 1)},
		{"open_ft", feet(func(t *total) float64 { return t.open }, 1)},
		{"longest_ft", feet(func(t *total) float64 { return t.longest }, 1)},
		{"reach_ft", feet(func(t *total) float64 { return t.deepest }, 2)},
		{"area_sqft", func(t *total) out.Cell { return out.Number(t.area/job.SquareFoot, 0) }},
		{"unknown_sqft", func(t *total) out.Cell { return out.Number(t.unknown/job.SquareFoot, 0) }},
	}
	for _, cause := range e.takers() {
		made = append(made, Column[*total]{"taken_" + strings.ReplaceAll(cause, " ", "_") + "_pct", func(t *total) out.Cell { return shareCell(t.share(t.taken[cause])) }})
	}
	return append(made,
		Column[*total]{"taken_no_data_pct", func(t *total) out.Cell { return shareCell(t.share(t.blank())) }},
		Column[*total]{"no_data_on", text(func(t *total) string { return strings.Join(t.unmapped(), "; ") })})
}
