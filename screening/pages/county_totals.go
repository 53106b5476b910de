package pages

import (
	"cmp"
	"maps"
	"slices"
)

// sum is how many parcels and miles of shore come out so, and how surely. Parcels count by the
// best of their fronts, miles by front.
type sum struct {
	parcels int
	miles   float64
	sure    [3]float64 // miles by certainty
}

func (s *sum) add(parcels int, miles float64, sure Certainty, known bool) {
	s.parcels += parcels
	s.miles += miles
	if known {
		s.sure[sure] += miles
	}
}

// glance is what the page says first of a shore.
type glance struct {
	authorities []Authority
	parcels     int
	miles       float64
	joint       [classes]sum
	by          []map[int]*sum // by authority and path; see the numbers below
	waters      map[string]*water
	says        map[class]map[string]float64 // miles by what is said of them, of those in a class
	taken       map[string]float64           // miles, weighed by the share of the water before them
	chief       map[string]float64           // miles off an easiest path, by what keeps them off
	within      float64                      // miles of fronts with a result
	wants       map[wanted]*settled
	wanting     float64 // miles that some data would settle
}

// Numbers of what an authority's outcome is, if it is no path.
const (
	pathNotKnown = -1 - iota
	pathNoResult
	pathNobodys
	pathWhoseUnknown
)

// water is what is known of a water body.
type water struct {
	name    string
	parcels int
	miles   float64
	joint   [classes]sum
}

// wanted is what would settle outcomes, and where.
type wanted struct {
	Want
	water string
}

// settled are the miles that something would settle: alone, and only with something else.
type settled struct{ alone, together float64 }

func newGlance(authorities []Authority) *glance {
	g := &glance{
		authorities: authorities, waters: map[string]*water{}, says: map[class]map[string]float64{}, taken: map[string]float64{},
		chief: map[string]float64{}, wants: map[wanted]*settled{},
	}
	for range authorities {
		g.by = append(g.by, map[int]*sum{})
	}
	return g
}

func (g *glance) water(name string) *water {
	w := g.waters[name]
	if w == nil {
		w = &water{name: name}
		g.waters[name] = w
	}
	return w
}

// add counts the parcels and the fronts of a shore.
func (g *glance) add(s *Shore) {
	g.parcels += len(s.Parcels)
	if len(s.Parcels) > 0 {
		w := g.water(s.Water)
		w.parcels += len(s.Parcels)
		g.count(w, g.classOf(s, &s.Best), &s.Best, len(s.Parcels), 0)
	}
	for i := range s.Fronts {
		f := &s.Fronts[i]
		g.miles += f.Miles
		w := g.water(f.Water)
		w.miles += f.Miles
		c := g.classOf(s, &f.Outcome)
		g.count(w, c, &f.Outcome, 0, f.Miles)
		if f.Outcome.Result {
			g.reasons(f, c)
		}
	}
}

// classOf is the class of an outcome of a shore.
func (g *glance) classOf(s *Shore, o *Outcome) class {
	switch {
	case s.Unknown:
		return whoseUnknown
	case len(s.Parcels) == 0:
		return nobodys
	}
	return classOf(o, len(g.authorities))
}

// count adds parcels or miles to the totals.
func (g *glance) count(w *water, c class, o *Outcome, parcels int, miles float64) {
	g.joint[c].add(parcels, miles, o.Joint.Certainty, o.Result)
	w.joint[c].add(parcels, miles, o.Joint.Certainty, o.Result)
	if o.Result {
		if g.says[c] == nil {
			g.says[c] = map[string]float64{}
		}
		g.says[c][o.Joint.Says] += miles
	}
	for i := range g.by {
		at, sure := 0, Firm
		switch {
		case o.Result:
			at, sure = o.By[i].Path, o.By[i].Certainty
		case c == noResult:
			at = pathNoResult
		case c == nobodys:
			at = pathNobodys
		default:
			at = pathWhoseUnknown
		}
		if g.by[i][at] == nil {
			g.by[i][at] = &sum{}
		}
		g.by[i][at].add(parcels, miles, sure, o.Result)
	}
}

// reasons notes what takes the water before a front, what keeps it off an easiest path, and
// what would settle it.
func (g *glance) reasons(f *Front, c class) {
	g.within += f.Miles
	for _, t := range f.Taken {
		g.taken[t.Cause] += f.Miles * t.Percent / 100
	}
	if c == butOne || c == butMore || c == noneOf {
		g.chief[f.Outcome.Joint.Blocker] += f.Miles
	}
	if len(f.Wants) == 0 {
		return
	}
	g.wanting += f.Miles
	for _, want := range f.Wants {
		key := wanted{Want: want}
		if want.Of {
			key.water = f.Water
		}
		if g.wants[key] == nil {
			g.wants[key] = &settled{}
		}
		if len(f.Wants) == 1 {
			g.wants[key].alone += f.Miles
		} else {
			g.wants[key].together += f.Miles
		}
	}
}

// byMiles are water bodies, those with the most shore first.
func (g *glance) byMiles() []*water {
	return slices.SortedFunc(maps.Values(g.waters), func(a, b *water) int {
		return cmp.Or(cmp.Compare(b.miles, a.miles), cmp.Compare(a.name, b.name))
	})
}

// mostMiles are texts by the miles they are said of, the most first.
func mostMiles(of map[string]float64) []string {
	return slices.SortedFunc(maps.Keys(of), func(a, b string) int {
		return cmp.Or(cmp.Compare(of[b], of[a]), cmp.Compare(a, b))
	})
}
