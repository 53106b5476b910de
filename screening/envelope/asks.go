package envelope

import (
	"math"
	"slices"

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
	Radius     float64 // how far round a front other shores are looked for
	spotRadius float64 // how far round a place the other layers are
	paths      []*sited
	System     *crs.System // of all that is drawn
	limits     []placeLimit
	shares     []float64                  // of the waterway
	asks       map[string]bool            // by layer
	siting     site.Asked                 // of places
	wanted     map[*rules.Book]site.Asked // of candidates
	structure  *site.Proposal
	stated     map[string]rules.Value // what the structure states
}

// New gathers what the books ask of a place.
func New(mapped *layers.Set, books []*rules.Book, settings job.Envelope, radius float64) (*Search, error) {
	e := &Search{
		Layers: mapped, Books: books, Settings: settings, Radius: radius,
		// What is drawn along the shore lies where the shore does, on whichever datum that is.
		System: crs.DegreesOn(mapped.Layer("high_water").Files[0].CRS.Datum),
		asks:   map[string]bool{}, wanted: map[*rules.Book]site.Asked{},
	}
	for _, b := range books {
		e.wanted[b] = site.AskedBy(b)
		for _, path := range b.Paths {
			if len(path.Criteria) > 0 {
				e.paths = append(e.paths, newSited(b, path, settings.Width.Metres))
			}
		}
	}
	farthest := 0.0
	for _, p := range e.paths {
		for _, c := range p.criteria {
			for _, d := range append([]*rules.Demand{&c.Demand}, c.When...) {
				farthest = math.Max(farthest, e.demand(d))
			}
		}
	}
	e.siting = e.siting.WithNeeded()
	if l := mapped.Layer("channels"); l != nil {
		farthest += l.Widest / 2 // of which only the middle is mapped
	}
	e.spotRadius = math.Min(radius, farthest+spotExcess)
	feature, err := e.candidateFeature("the structure", &sited{book: &rules.Book{}, path: &rules.Path{}}, orb.MultiLineString{{{0, 0}, {0, 1e-4}}})
	if err != nil {
		return nil, err
	}
	e.structure = site.NewProposal(site.Alone(feature, "envelope.structure"))
	if e.structure.Err != nil {
		return nil, &job.Error{Message: e.structure.Err.Error()}
	}
	alone := &site.Site{Proposal: e.structure, Values: map[string]rules.Value{}}
	alone.Stated()
	e.stated = alone.Values
	return e, nil
}

// spotExcess is how much farther than the greatest limit, in metres (50 ft), is looked
// round a place.
const spotExcess = 50 * job.Foot

// demand notes what a siting criterion, or its condition, is measured from and
// returns its distance.
func (e *Search) demand(d *rules.Demand) float64 {
	farthest := 0.0
	for _, in := range d.Inputs() {
		of, ok := site.PlaceRecord(in.Ref.Measure)
		if !ok {
			continue
		}
		e.siting = append(e.siting, of.Name)
		e.asks[of.Layer] = true
		if of.Name == "waterway_share" && !slices.Contains(e.shares, d.Limit) {
			e.shares = append(e.shares, d.Limit)
		}
		if !of.Drawn {
			continue
		}
		farthest = math.Max(farthest, d.Limit)
		if !slices.ContainsFunc(e.limits, func(l placeLimit) bool { return l.of.SameLines(of) && l.distance == d.Limit }) {
			e.limits = append(e.limits, placeLimit{of, d.Limit})
		}
	}
	return farthest
}

// placeLimit is a limit of a place: so far, in metres, from the lines of a measure.
type placeLimit struct {
	of       site.Record
	distance float64
}
