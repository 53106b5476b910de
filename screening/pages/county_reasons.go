package pages

import (
	"cmp"
	"html/template"
	"maps"
	"slices"

	written "waterward/geo/text"
)

// reason is something that keeps structures off, with how much shore.
type reason struct {
	Says, Miles, Share string
	Bar                template.HTML
}

// reasonsOf are the causes with the most miles, of so many of all fronts with a result.
func (g *glance) reasonsOf(of map[string]float64, whole float64, d digits) []reason {
	var made []reason
	rest := 0.0
	for i, cause := range mostMiles(of) {
		if i >= mostCauses {
			rest += of[cause]
			continue
		}
		made = append(made, reason{
			Says: written.Visible(cause), Miles: d.text(d.units(of[cause])), Share: tenth(of[cause], whole),
			Bar: bar([3]int{d.units(of[cause])}, d.units(whole)),
		})
	}
	if rest > 0 {
		made = append(made, reason{Says: "others", Miles: d.text(d.units(rest)), Share: tenth(rest, whole)})
	}
	return made
}

func (g *glance) takers(d digits) []reason { return g.reasonsOf(g.taken, g.within, d) }

func (g *glance) chiefs(d digits) []reason { return g.reasonsOf(g.chief, g.within, d) }

// settling says what would settle the most miles: of each kind, and where.
func (g *glance) settling(d digits) (kinds []reason, there []string) {
	miles, bodies := map[string]float64{}, map[string][]wanted{}
	for key, s := range g.wants {
		miles[key.Says] += s.alone + s.together
		bodies[key.Says] = append(bodies[key.Says], key)
	}
	for _, says := range mostMiles(miles) {
		made := reason{Says: bodies[says][0].text(), Miles: d.text(d.units(miles[says])), Share: tenth(miles[says], g.miles), Bar: bar([3]int{d.units(miles[says])}, d.units(g.miles))}
		if n := len(bodies[says]); n > 1 {
			made.Says = written.Visible(says) + " " + grouped(n) + " water bodies"
		}
		kinds = append(kinds, made)
	}
	keys := slices.SortedFunc(maps.Keys(g.wants), func(a, b wanted) int {
		x, y := g.wants[a], g.wants[b]
		return cmp.Or(cmp.Compare(y.alone, x.alone), cmp.Compare(y.together, x.together), cmp.Compare(a.Says, b.Says), cmp.Compare(a.water, b.water))
	})
	for _, key := range keys[:min(len(keys), mostWants)] {
		there = append(there, key.text()+" "+g.wants[key].text(d)+".")
	}
	return kinds, there
}

// text is what would settle something, and where.
func (w wanted) text() string {
	text := written.Visible(w.Says)
	if w.Of {
		text += " " + written.Visible(w.water)
	}
	return text
}

// text says how many miles are settled.
func (s *settled) text(d digits) string {
	alone, together := d.text(d.units(s.alone)), d.text(d.units(s.together))
	switch {
	case s.together == 0:
		return "would settle " + alone + " miles"
	case s.alone == 0:
		return "would help to settle " + together + " miles, which want other things too"
	}
	return "would settle " + alone + " miles, and " + together + " more with other things"
}
