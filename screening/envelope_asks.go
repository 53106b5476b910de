package screening

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/rules"
)

// envelope is the state of a run that looks where structures could go.
type envelope struct {
	layers     *mapped
	books      []*rules.Book
	settings   EnvelopeSource
	radius     float64 // how far round a front other shores are looked for
	spotRadius float64 // how far round a place the other layers are
	paths      []*sited
	system     *crs.System // of all that is drawn
	limits     []placeLimit
	shares     []float64             // of the waterway
	asks       map[string]bool       // by layer
	siting     asked                 // of places
	wanted     map[*rules.Book]asked // of candidates
	structure  *proposal
	stated     map[string]rules.Value // what the structure states
}

// newEnvelope gathers what the books ask of a place.
func newEnvelope(layers *mapped, books []*rules.Book, settings EnvelopeSource, radius float64) (*envelope, error) {
	e := &envelope{
		layers: layers, books: books, settings: settings, radius: radius,
		// What is drawn along the shore lies where the shore does, on whichever datum that is.
		system: crs.DegreesOn(layers.layer("high_water").files[0].crs.Datum),
		asks:   map[string]bool{}, wanted: map[*rules.Book]asked{},
	}
	for _, b := range books {
		e.wanted[b] = askedBy(b)
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
	e.siting = e.siting.withNeeded()
	if l := layers.layer("channels"); l != nil {
		farthest += l.widest / 2 // of which only the middle is mapped
	}
	e.spotRadius = math.Min(radius, farthest+spotExcess)
	feature, err := e.candidateFeature("the structure", &sited{book: &rules.Book{}, path: &rules.Path{}}, orb.MultiLineString{{{0, 0}, {0, 1e-4}}})
	if err != nil {
		return nil, err
	}
	e.structure = newProposal(feature, ProposalsSource{File: "envelope.structure"})
	if e.structure.err != nil {
		return nil, &JobError{e.structure.err.Error()}
	}
	alone := &site{p: e.structure, values: map[string]rules.Value{}}
	alone.stated()
	e.stated = alone.values
	return e, nil
}

// spotExcess is how much farther than the greatest limit, in metres (50 ft), is looked
// round a place.
const spotExcess = 50 * foot

// demand notes what a siting criterion, or its condition, is measured from and
// returns its distance.
func (e *envelope) demand(d *rules.Demand) float64 {
	farthest := 0.0
	for _, in := range d.Inputs() {
		of, ok := placeRecord(in.Ref.Measure)
		if !ok {
			continue
		}
		e.siting = append(e.siting, of.name)
		e.asks[of.layer] = true
		if of.name == "waterway_share" && !slices.Contains(e.shares, d.Limit) {
			e.shares = append(e.shares, d.Limit)
		}
		if !of.drawn {
			continue
		}
		farthest = math.Max(farthest, d.Limit)
		if !slices.ContainsFunc(e.limits, func(l placeLimit) bool { return l.of.sameLines(of) && l.distance == d.Limit }) {
			e.limits = append(e.limits, placeLimit{of, d.Limit})
		}
	}
	return farthest
}

// placeLimit is a limit of a place: so far, in metres, from the lines of a measure.
type placeLimit struct {
	of       measureRecord
	distance float64
}
