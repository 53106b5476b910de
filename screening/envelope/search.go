package envelope

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/site"
)

// Search is the state of a run that looks where structures could go.
type Search struct {
	Layers     *layers.Set
	Books      []*rules.Book
	Settings   job.Envelope
	Radius     float64     // how far round a front other shores are looked for
	System     *crs.System // of all that is drawn
	LeftOut    []LeftOut   // paths that the structure can never take
	all        bool        // every path is worked out, not only the easiest that is open
	spotRadius float64     // how far round a place the other layers are
	around     *asks       // by all paths
	easiest    []*sited    // by book, the easiest path that the structure could take; nil if that is the last
	later      [][]*sited  // by book, those after it
	together   question    // the easiest paths that there are, all of them
	wanted     site.Asked  // of candidates, by all books
	structure  *site.Proposal
	stated     map[string]rules.Value // what the structure states
}

// LeftOut is a path that the structure of an envelope can take nowhere, and why.
type LeftOut struct {
	Book *rules.Book
	Path *rules.Path
	Why  string
}

// New gathers what the books ask of a place. If all, every path of a book is worked out and
// not only the easiest that is open.
func New(mapped *layers.Set, books []*rules.Book, settings job.Envelope, radius float64, all bool) (*Search, error) {
	e := &Search{
		Layers: mapped, Books: books, Settings: settings, Radius: radius, all: all,
		// What is drawn along the shore lies where the shore does, on whichever datum that is.
		System: crs.DegreesOn(mapped.Layer("high_water").Files[0].CRS.Datum),
	}
	feature, err := e.candidateFeature("the structure", nil, orb.MultiLineString{{{0, 0}, {0, 1e-4}}})
	if err != nil {
		return nil, err
	}
	e.structure = site.NewProposal(site.Alone(feature, "envelope.structure"))
	if e.structure.Err != nil {
		return nil, &job.Error{Message: e.structure.Err.Error()}
	}
	alone := &site.Site{Proposal: e.structure, Layers: mapped, Values: map[string]rules.Value{}}
	alone.Stated()
	e.stated = alone.Values
	var paths []*sited
	for i, b := range books {
		e.wanted = append(e.wanted, site.AskedBy(b)...)
		e.easiest, e.later = append(e.easiest, nil), append(e.later, nil)
		for _, path := range b.Paths {
			if len(path.Criteria) == 0 {
				continue
			}
			if why := never(path, alone); why != "" {
				e.LeftOut = append(e.LeftOut, LeftOut{b, path, why})
				continue
			}
			s := newSited(i, b, path, settings.Width.Metres)
			s.undrawn = undrawable(path, alone)
			paths = append(paths, s)
			if e.easiest[i] == nil {
				e.easiest[i] = s
			} else {
				e.later[i] = append(e.later[i], s)
			}
		}
	}
	for _, p := range e.easiest {
		if p != nil {
			e.together = append(e.together, p)
		}
	}
	e.around = newAsks(paths)
	farthest := e.around.farthest
	if l := mapped.Layer("channels"); l != nil {
		farthest += l.Widest / 2 // of which only the middle is mapped
	}
	e.spotRadius = math.Min(radius, farthest+spotExcess)
	return e, nil
}

// never is why the structure can take a path nowhere: what it states fails a criterion
// which hangs on nothing else. Empty if it may.
func never(path *rules.Path, stated rules.Facts) string {
	for _, c := range path.Criteria {
		if !onlyStated(c) || c.WaivableBy != "" {
			continue
		}
		if r := rules.Judge(path, c, stated); !r.Holds && r.Outcome == rules.Exceeds && len(r.Doubts) == 0 {
			return c.Demand.String()
		}
	}
	return ""
}

// undrawable is what of a path no drawing of the structure can show to hold: limits that nobody
// has read, and what hangs on nothing but what it states. Empty if there is nothing.
func undrawable(path *rules.Path, stated rules.Facts) string {
	var names []string
	for _, c := range path.Criteria {
		if c.Evidence == rules.Unread || onlyStated(c) && !rules.Judge(path, c, stated).Holds {
			names = append(names, c.ID)
		}
	}
	if names == nil {
		return ""
	}
	return "its " + strings.Join(names, ", ")
}

// spotExcess is how much farther than the greatest limit, in metres (50 ft), is looked
// round a place.
const spotExcess = 50 * job.Foot

// asks are what some paths ask of a place.
type asks struct {
	limits   []placeLimit
	shares   []float64       // of the waterway
	layers   map[string]bool // by name
	siting   site.Asked
	farthest float64 // metres, the greatest distance that any names
}

func newAsks(paths []*sited) *asks {
	a := &asks{layers: map[string]bool{}}
	for _, p := range paths {
		for _, c := range p.criteria {
			for _, d := range append([]*rules.Demand{&c.Demand}, c.When...) {
				a.add(d)
			}
		}
	}
	a.siting = a.siting.WithNeeded()
	return a
}

// add notes what a siting criterion, or its condition, is measured from.
func (a *asks) add(d *rules.Demand) {
	for _, in := range d.Inputs() {
		of, ok := site.PlaceRecord(in.Ref.Measure)
		if !ok {
			continue
		}
		a.siting = append(a.siting, of.Name)
		a.layers[of.Layer] = true
		if of.Name == "waterway_share" && !slices.Contains(a.shares, d.Limit) {
			a.shares = append(a.shares, d.Limit)
		}
		if !of.Drawn {
			continue
		}
		a.farthest = math.Max(a.farthest, d.Limit)
		if !slices.ContainsFunc(a.limits, func(l placeLimit) bool { return l.of.SameLines(of) && l.distance == d.Limit }) {
			a.limits = append(a.limits, placeLimit{of, d.Limit})
		}
	}
}

// placeLimit is a limit of a place: so far, in metres, from the lines of a measure.
type placeLimit struct {
	of       site.Record
	distance float64
}

// AskedOf are the layers, by name, that the paths of a book are asked of.
func (e *Search) AskedOf(book int) map[string]bool {
	paths := e.later[book]
	if p := e.easiest[book]; p != nil {
		paths = append([]*sited{p}, paths...)
	}
	return newAsks(paths).layers
}
