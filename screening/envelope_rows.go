package screening

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/rules"
)

// parcelColumn is one column of parcels.csv.
type parcelColumn struct {
	name string
	cell func(r *parcelResult) cell
}

// parcelColumns are the columns of parcels.csv that are the same for all parcels of
// a holding.
func (e *envelope) parcelColumns() []parcelColumn {
	out := []parcelColumn{
		{"lon", func(r *parcelResult) cell { return numberCell(r.middle()[0], positionDecimals) }},
		{"lat", func(r *parcelResult) cell { return numberCell(r.middle()[1], positionDecimals) }},
		{"water", func(r *parcelResult) cell { return textCell(e.water(r)) }},
		{"frontage_ft", func(r *parcelResult) cell { return numberCell(r.frontage()/foot, 2) }},
		{"stations_ft", func(r *parcelResult) cell { return textCell(e.stations(r)) }},
		{"gap_ft", func(r *parcelResult) cell { return numberCell(r.gap()/foot, 2) }},
		{"riparian", func(r *parcelResult) cell { return textCell(r.riparian()) }},
		{"waterway_width_ft", func(r *parcelResult) cell { return numberCell(r.width()/foot, 2) }},
	}
	for i, b := range e.books {
		add := func(name string, of func(best) cell) {
			out = append(out, parcelColumn{b.Authority + "_" + name, func(r *parcelResult) cell {
				if r.best == nil {
					return textCell("")
				}
				return of(r.best[i])
			}})
		}
		add("path", func(b best) cell { return textCell(b.path.ID) })
		add("certainty", func(b best) cell { return textCell(string(b.certainty())) })
		add("could_be", func(b best) cell { return textCell(b.couldBe) })
		add("length_ft", func(b best) cell {
			if b.candidate == nil {
				return textCell("")
			}
			return numberCell(b.candidate.length/foot, 2)
		})
		add("binds", func(b best) cell { return textCell(b.binds) })
	}
	for i, p := range e.paths {
		add := func(name string, of func(*pathTotal) cell) {
			out = append(out, parcelColumn{p.book.Authority + "_" + p.path.ID + "_" + name, func(r *parcelResult) cell {
				if r.err != nil {
					return textCell("")
				}
				return of(&r.paths[i])
			}})
		}
		add("open_ft", func(t *pathTotal) cell { return numberCell(t.open/foot, 1) })
		add("longest_ft", func(t *pathTotal) cell { return numberCell(t.longest/foot, 1) })
		add("reach_ft", func(t *pathTotal) cell { return numberCell(t.deepest/foot, 2) })
		add("fits_ft", func(t *pathTotal) cell { return numberCell(t.length/foot, 1) })
		add("area_sqft", func(t *pathTotal) cell { return numberCell(t.area/squareFoot, 0) })
		add("unknown_sqft", func(t *pathTotal) cell { return numberCell(t.unknown/squareFoot, 0) })
		add("taken", func(t *pathTotal) cell { return textCell(t.takenText()) })
	}
	return append(out, parcelColumn{"error", func(r *parcelResult) cell {
		return textCell(errorText(r.wrong()))
	}})
}

// takenText lists what takes water from the path's band, most first.
func (t *pathTotal) takenText() string {
	causes := slices.SortedFunc(maps.Keys(t.taken), func(a, b string) int {
		if t.taken[a] != t.taken[b] {
			return int(math.Copysign(1, t.taken[b]-t.taken[a]))
		}
		return strings.Compare(a, b)
	})
	var out []string
	for _, cause := range causes {
		out = append(out, fmt.Sprintf("%s %s %%", cause, formatFixed(100*t.taken[cause]/t.band, 1)))
	}
	return strings.Join(out, "; ")
}

func (r *parcelResult) frontage() float64 {
	sum := 0.0
	for _, f := range r.of.fronts {
		sum += f.to - f.from
	}
	return sum
}

func (r *parcelResult) gap() float64 {
	widest := 0.0
	for _, f := range r.of.fronts {
		widest = math.Max(widest, f.gap)
	}
	return widest
}

// middle is the middle of the first front, in degrees.
func (r *parcelResult) middle() orb.Point {
	line := orb.LineString(r.of.fronts[0].points)
	return line[len(line)/2]
}

// width is the least width of water across any of the fronts, NaN if none is known.
func (r *parcelResult) width() float64 {
	least := math.NaN()
	for _, f := range r.fronts {
		if f.shore == nil || f.shore.bank == nil {
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
func (r *parcelResult) riparian() string {
	var out []string
	for _, f := range r.fronts {
		if f.shore == nil {
			continue
		}
		for _, l := range f.shore.lateral {
			text := l.method
			if l.method != asGiven {
				text = "constructed " + text
			}
			if !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return strings.Join(out, "; ")
}

// water names the water body before a parcel: the reach its mean high water line
// states, or what the line is called.
func (e *envelope) water(r *parcelResult) string {
	return e.waterOf(r.of.fronts[0])
}

func (e *envelope) waterOf(f *front) string {
	high := e.layers.layer("high_water")
	item := high.items[f.item]
	if item.reach != "" {
		return item.reach
	}
	return item.label
}

// stations are where along which line the fronts lie.
func (e *envelope) stations(r *parcelResult) string {
	var out []string
	for _, f := range r.of.fronts {
		out = append(out, fmt.Sprintf("%s %s-%s", e.waterOf(f), formatFixed(f.from/foot, 2), formatFixed(f.to/foot, 2)))
	}
	return strings.Join(out, "; ")
}

// labels are the parcel's name and those of the parcels that share its fronts.
func (e *envelope) labels(h holding) []string {
	if h.item < 0 {
		return []string{""}
	}
	items := e.layers.layer("parcels").items
	out := []string{items[h.item].label}
	for _, other := range h.shared {
		out = append(out, items[other].label)
	}
	return out
}
