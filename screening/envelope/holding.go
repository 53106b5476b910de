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
)

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

// Middle is the middle of the first front by its length, in degrees.
func (r *Result) Middle() orb.Point {
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
	for _, f := range r.Fronts {
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

// Riparian says how the lines at the ends of the fronts came to be.
func (r *Result) Riparian() []string {
	var made []string
	for _, f := range r.Fronts {
		for _, text := range f.riparian() {
			if !slices.Contains(made, text) {
				made = append(made, text)
			}
		}
	}
	return made
}

func (f *Outcome) riparian() []string {
	if f == nil || f.shore == nil {
		return nil
	}
	var made []string
	for _, l := range f.shore.lateral {
		text := l.method
		if l.method != asGiven {
			text = "constructed " + text
		}
		if !slices.Contains(made, text) {
			made = append(made, text)
		}
	}
	return made
}

// Water names the water body before a parcel: the reach its mean high water line
// states, or what the line is called.
func (e *Search) Water(r *Result) string {
	return e.WaterOf(r.Of.Fronts[0])
}

// WaterOf names the water body before a front.
func (e *Search) WaterOf(f *front.Front) string {
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
