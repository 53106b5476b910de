package envelope

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/rules"
	"waterward/screening/front"
	"waterward/screening/job"
	"waterward/screening/out"
)

// Column is one column of parcels.csv.
type Column struct {
	Name string
	Cell func(r *Result) out.Cell
}

// ParcelColumns are the columns of parcels.csv that are the same for all parcels of
// a holding.
func (e *Search) ParcelColumns() []Column {
	made := []Column{
		{"lon", func(r *Result) out.Cell { return out.Number(r.middle()[0], out.PositionDecimals) }},
		{"lat", func(r *Result) out.Cell { return out.Number(r.middle()[1], out.PositionDecimals) }},
		{"water", func(r *Result) out.Cell { return out.Text(e.Water(r)) }},
		{"frontage_ft", func(r *Result) out.Cell { return out.Number(r.Frontage()/job.Foot, 2) }},
		{"stations_ft", func(r *Result) out.Cell { return out.Text(e.stations(r)) }},
		{"gap_ft", func(r *Result) out.Cell { return out.Number(r.gap()/job.Foot, 2) }},
		{"riparian", func(r *Result) out.Cell { return out.Text(r.riparian()) }},
		{"waterway_width_ft", func(r *Result) out.Cell { return out.Number(r.width()/job.Foot, 2) }},
	}
	for i, b := range e.Books {
		add := func(name string, of func(best) out.Cell) {
			made = append(made, Column{b.Authority + "_" + name, func(r *Result) out.Cell {
				if r.Best == nil {
					return out.Text("")
				}
				return of(r.Best[i])
			}})
		}
		add("path", func(b best) out.Cell { return out.Text(b.Path.ID) })
		add("certainty", func(b best) out.Cell { return out.Text(string(b.certainty())) })
		add("could_be", func(b best) out.Cell { return out.Text(b.couldBe) })
		add("length_ft", func(b best) out.Cell {
			if b.Candidate == nil {
				return out.Text("")
			}
			return out.Number(b.Candidate.Length/job.Foot, 2)
		})
		add("tightest", func(b best) out.Cell { return out.Text(b.tightest) })
	}
	for i, p := range e.paths {
		add := func(name string, of func(*pathTotal) out.Cell) {
			made = append(made, Column{p.book.Authority + "_" + p.path.ID + "_" + name, func(r *Result) out.Cell {
				if r.Err != nil {
					return out.Text("")
				}
				return of(&r.paths[i])
			}})
		}
		add("open_ft", func(t *pathTotal) out.Cell { return out.Number(t.open/job.Foot, 1) })
		add("longest_ft", func(t *pathTotal) out.Cell { return out.Number(t.longest/job.Foot, 1) })
		add("reach_ft", func(t *pathTotal) out.Cell { return out.Number(t.deepest/job.Foot, 2) })
		add("fits_ft", func(t *pathTotal) out.Cell { return out.Number(t.length/job.Foot, 1) })
		add("area_sqft", func(t *pathTotal) out.Cell { return out.Number(t.area/job.SquareFoot, 0) })
		add("unknown_sqft", func(t *pathTotal) out.Cell { return out.Number(t.unknown/job.SquareFoot, 0) })
		for _, cause := range e.takers() {
			add("taken_"+underscored(cause)+"_pct", func(t *pathTotal) out.Cell { return t.shareCell(t.taken[cause]) })
		}
		add("taken_no_data_pct", func(t *pathTotal) out.Cell { return t.shareCell(t.blank()) })
		add("no_data_on", func(t *pathTotal) out.Cell { return out.Text(strings.Join(t.unmapped(), "; ")) })
	}
	return append(made, Column{"error", func(r *Result) out.Cell {
		return out.Text(ErrorText(r.Wrong()))
	}})
}

// takers are the causes that can take water from a path's band, named areas included.
func (e *Search) takers() []string {
	causes := slices.Clone(namedCauses)
	for _, l := range e.Layers.Areas {
		causes = append(causes, strings.TrimPrefix(l.Name, "areas."))
	}
	return causes
}

// shareCell is a share of the band in percent; empty if it is none.
func (t *pathTotal) shareCell(shape float64) out.Cell {
	if shape == 0 {
		return out.Text("")
	}
	return out.Number(t.share(shape), 1)
}

// blank is how much of the band is not known for want of any one thing.
func (t *pathTotal) blank() float64 {
	most := 0.0
	for cause, shape := range t.taken {
		if wantOf(cause) != "" {
			most = math.Max(most, shape)
		}
	}
	return most
}

// unmapped are the things for want of which some of the band is not known.
func (t *pathTotal) unmapped() []string {
	var things []string
	for cause := range t.taken {
		if thing := wantOf(cause); thing != "" {
			things = append(things, thing)
		}
	}
	slices.Sort(things)
	return things
}

// wantOf is what is not known, of a cause that is a want of it; empty of others.
func wantOf(cause string) string {
	if thing, missing := strings.CutPrefix(cause, noDataOn); missing {
		return thing
	}
	if strings.HasPrefix(cause, besideOf) {
		return cause
	}
	return ""
}

// underscored is a cause as part of a column's name.
func underscored(cause string) string { return strings.ReplaceAll(cause, " ", "_") }

// Frontage is the length of shore that the holding fronts, in metres.
func (r *Result) Frontage() float64 {
	sum := 0.0
	for _, f := range r.Of.Fronts {
		sum += f.To - f.From
	}
	return sum
}

func (r *Result) gap() float64 {
	widest := 0.0
	for _, f := range r.Of.Fronts {
		widest = math.Max(widest, f.Gap)
	}
	return widest
}

// middle is the middle of the first front by its length, in degrees.
func (r *Result) middle() orb.Point {
	points := r.Of.Fronts[0].Points
	plane := crs.NewPlane(points[0])
	line := make([]orb.Point, len(points))
	for i, at := range points {
		line[i] = plane.Forward(at)
	}
	base := geo.NewBaseline(line)
	return plane.Inverse(base.At(base.Length() / 2))
}

// width is the least width of water across any of the fronts, NaN if none is known.
func (r *Result) width() float64 {
	least := math.NaN()
	for _, f := range r.fronts {
		if f.shore == nil || f.shore.Bank == nil {
			continue
		}
		for _, w := range f.shore.waters {
			if v := w.width; v.Unknown == "" && v.Bound == rules.Exact && !(v.Number >= least) {
				least = v.Number
			}
		}
	}
	return least
}

// riparian says how the lines at the ends of the fronts came to be.
func (r *Result) riparian() string {
	var made []string
	for _, f := range r.fronts {
		if f.shore == nil {
			continue
		}
		for _, l := range f.shore.lateral {
			text := l.method
			if l.method != asGiven {
				text = "constructed " + text
			}
			if !slices.Contains(made, text) {
				made = append(made, text)
			}
		}
	}
	return strings.Join(made, "; ")
}

// Water names the water body before a parcel: the reach its mean high water line
// states, or what the line is called.
func (e *Search) Water(r *Result) string {
	return e.waterOf(r.Of.Fronts[0])
}

func (e *Search) waterOf(f *front.Front) string {
	high := e.Layers.Layer("high_water")
	item := high.Items[f.Item]
	if item.Reach != "" {
		return item.Reach
	}
	return item.Label
}

// stations are where along which line the fronts lie.
func (e *Search) stations(r *Result) string {
	var made []string
	for _, f := range r.Of.Fronts {
		made = append(made, f.Stations(e.Layers.Layer("high_water")))
	}
	return strings.Join(made, "; ")
}

// Labels are the parcel's name and those of the parcels that share its fronts.
func (e *Search) Labels(h Holding) []string {
	if h.Item < 0 {
		return []string{""}
	}
	items := e.Layers.Layer("parcels").Items
	made := []string{items[h.Item].Label}
	for _, other := range h.shared {
		made = append(made, items[other].Label)
	}
	return made
}
