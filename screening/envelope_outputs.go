package screening

import (
	"fmt"
	"slices"
	"strings"

	"waterward/geo/geojson"
	"waterward/screening/envelope"
	"waterward/screening/front"
	"waterward/screening/job"
	"waterward/screening/out"
)

// envelopeOutputs are the files of an envelope run.
type envelopeOutputs struct {
	*out.Sinks[*envelope.Result]
	parcels *parcelTable
}

// newEnvelopeOutputs creates the files.
func newEnvelopeOutputs(e *envelope.Search, notes *front.Notes, sums tally, to out.Outputs) (*envelopeOutputs, error) {
	before := geojson.CRSMember(e.System)
	collection := func(name string, of func(r *envelope.Result, labels []string) [][]byte) *out.Collection[*envelope.Result] {
		return &out.Collection[*envelope.Result]{Name: name, Before: before, Of: func(r *envelope.Result) [][]byte { return of(r, e.Labels(r.Of)) }}
	}
	o := &envelopeOutputs{parcels: newParcelTable(e.Layers.Layer("parcels"), e.ParcelColumns(), notes)}
	var err error
	o.Sinks, err = out.Open(to,
		collection("envelope.geojson", func(r *envelope.Result, labels []string) [][]byte {
			if r.Of.Item < 0 || r.Err != nil {
				return nil
			}
			return r.AreaFeatures(labels[0], shared(labels))
		}),
		collection("frontage.geojson", func(r *envelope.Result, labels []string) [][]byte {
			return [][]byte{e.FrontFeature(r, labels[0], shared(labels))}
		}),
		collection("riparian.geojson", func(r *envelope.Result, labels []string) [][]byte {
			if r.Of.Item < 0 || r.Err != nil {
				return nil
			}
			return r.LateralFeatures(labels[0])
		}),
		collection("candidates.geojson", candidateFeatures),
		o.parcels,
		&waterTable{e: e, sums: sums, Table: out.Table[*envelope.Result]{Name: "summary.csv", Header: []string{"water", "authority", "outcome", "parcels", "frontage_mi"}}},
	)
	return o, err
}

// shared are the other parcels of a holding.
func shared(labels []string) string { return strings.Join(labels[1:], "; ") }

func candidateFeatures(r *envelope.Result, labels []string) [][]byte {
	var features [][]byte
	for _, b := range r.Best {
		if c := b.Candidate; c != nil && r.Err == nil {
			feature, _ := c.Feature.Annotated([]geojson.Member{
				{Key: "parcel_id", Raw: out.Text(labels[0]).JSON},
				{Key: "certainty", Raw: out.Text(string(c.Decision.Certainty)).JSON},
				{Key: "overall_length_ft", Raw: out.Number(c.Length/job.Foot, 2).JSON},
			})
			features = append(features, feature)
		}
	}
	return features
}

// outcomes are what a holding comes to by each book.
func outcomes(e *envelope.Search, r *envelope.Result) []string {
	made := make([]string, len(e.Books))
	for i := range made {
		switch {
		case r.Of.Item < 0 && r.Err != nil:
			made[i] = "not known"
		case r.Of.Item < 0:
			made[i] = "nobody's"
		case r.Best == nil:
			made[i] = "no result"
		default:
			made[i] = r.Best[i].Path.ID
		}
	}
	return made
}

// tally adds up shore and parcels by water body, authority and outcome.
type tally map[[3]string]*struct {
	parcels int
	metres  float64
}

func (t tally) add(e *envelope.Search, r *envelope.Result) {
	parcels := 0
	if r.Of.Item >= 0 {
		parcels = len(e.Labels(r.Of))
	}
	for i, outcome := range outcomes(e, r) {
		key := [3]string{e.Water(r), e.Books[i].Authority, outcome}
		if t[key] == nil {
			t[key] = &struct {
				parcels int
				metres  float64
			}{}
		}
		t[key].parcels += parcels
		t[key].metres += r.Frontage()
	}
}

// byPath is how many parcels an authority's paths have.
func (t tally) byPath(authority string) map[string]int {
	made := map[string]int{}
	for key, sum := range t {
		if key[1] == authority && sum.parcels > 0 {
			made[key[2]] += sum.parcels
		}
	}
	return made
}

// waterTable is the table of a tally.
type waterTable struct {
	out.Table[*envelope.Result]
	e    *envelope.Search
	sums tally
}

func (w *waterTable) Prepare(r *envelope.Result) func() { return func() { w.sums.add(w.e, r) } }

func (w *waterTable) Finish() {
	var keys [][3]string
	for key := range w.sums {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b [3]string) int { return slices.Compare(a[:], b[:]) })
	for _, key := range keys {
		w.Write([]string{out.Text(key[0]).Table, key[1], key[2], fmt.Sprint(w.sums[key].parcels), job.Fixed(w.sums[key].metres/job.Mile, 3)})
	}
	w.Table.Finish()
}
