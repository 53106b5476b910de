package screening

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"waterward/geo/geojson"
	"waterward/screening/envelope"
	"waterward/screening/job"
	"waterward/screening/out"
)

// envelopeOutputs are the files of an envelope run.
type envelopeOutputs struct {
	*out.Sinks[*envelope.Result]
	parcels *parcelTable
}

// newOutputs creates the files.
func (s *envelopeRun) newOutputs(to out.Outputs) (*envelopeOutputs, error) {
	e := s.search
	before := geojson.CRSMember(e.System)
	collection := func(name string, of func(r *envelope.Result, label string) [][]byte) *out.Collection[*envelope.Result] {
		return &out.Collection[*envelope.Result]{Name: name, Before: before, Of: func(r *envelope.Result) [][]byte { return of(r, e.Labels(r.Of)[0]) }}
	}
	// What is drawn stands for its holding under the name of its first parcel; of shore of
	// nobody's, and without a result, nothing is.
	ofHolding := func(of func(r *envelope.Result, label string) [][]byte) func(r *envelope.Result, label string) [][]byte {
		return func(r *envelope.Result, label string) [][]byte {
			if r.Of.Item < 0 || r.Err != nil {
				return nil
			}
			return of(r, label)
		}
	}
	paths := e.PathColumns()
	pathHeader := []string{"parcel_id"}
	for _, c := range paths {
		pathHeader = append(pathHeader, c.Name)
	}
	o := &envelopeOutputs{parcels: newParcelTable(e.Layers.Layer("parcels"), e.ParcelColumns(), s.notes)}
	sinks := []out.Sink[*envelope.Result]{
		collection("frontage.geojson", e.FrontFeatures),
		collection("envelope.geojson", ofHolding(e.AreaFeatures)),
		collection("riparian.geojson", ofHolding((*envelope.Result).LateralFeatures)),
		collection("candidates.geojson", ofHolding(e.CandidateFeatures)),
		o.parcels,
		&out.Table[*envelope.Result]{Name: "parcel_paths.csv", Header: pathHeader, Filled: true, Of: func(r *envelope.Result) [][]string {
			if r.Of.Item < 0 || r.Err != nil {
				return nil
			}
			var rows [][]string
			totals := e.Totals(r)
			for _, label := range e.Labels(r.Of) {
				for i := range totals {
					row := []string{out.ID(label).Table}
					for _, c := range paths {
						row = append(row, c.Cell(&totals[i]).Table)
					}
					rows = append(rows, row)
				}
			}
			return rows
		}},
		&waterTable{e: e, sums: s.sums, Table: out.Table[*envelope.Result]{Name: "summary.csv", Header: []string{"water", "authority", "outcome", "certainty", "parcels", "frontage_mi"}}},
		newCounty(e, s.notes).sink(s.aboutCounty),
	}
	if s.since != nil {
		sinks = append(sinks, newParcelChanges(s, o.parcels))
	}
	var err error
	o.Sinks, err = out.Open(to, sinks...)
	return o, err
}

// tallied is what is counted of a holding or a front under one authority, or under all
// together.
type tallied struct{ water, authority, outcome, certainty string }

// jointly is the authority of what all authorities come to together.
const jointly = "joint"

// tally adds up shore and parcels: shore by what each front comes to, parcels by the best of
// their fronts.
type tally map[tallied]*struct {
	parcels int
	metres  float64
}

func (t tally) add(e *envelope.Search, r *envelope.Result) {
	water := e.Water(r)
	count := func(of tallied, parcels int, metres float64) {
		if t[of] == nil {
			t[of] = &struct {
				parcels int
				metres  float64
			}{}
		}
		t[of].parcels += parcels
		t[of].metres += metres
	}
	// all counts something under every authority: as it is said, or else in one word.
	all := func(water string, by []envelope.Answer, joint *envelope.Joint, otherwise string, parcels int, metres float64) {
		of := tallied{water, jointly, otherwise, ""}
		if by != nil {
			of.outcome, of.certainty = e.JointText(joint), string(joint.Certainty)
		}
		count(of, parcels, metres)
		for i, b := range e.Books {
			of := tallied{water, b.Authority, otherwise, ""}
			if by != nil {
				of.outcome, of.certainty = envelope.NotKnown, string(by[i].Certainty)
				if by[i].Path != nil {
					of.outcome = by[i].Path.ID
				}
			}
			count(of, parcels, metres)
		}
	}
	switch {
	case r.Of.Item < 0 && r.Err != nil:
		all(water, nil, nil, "owner not known", 0, r.Frontage())
		return
	case r.Of.Item < 0:
		all(water, nil, nil, "nobody's", 0, r.Frontage())
		return
	}
	all(water, r.By, &r.Joint, withoutResult, len(e.Labels(r.Of)), 0)
	for i, f := range r.Of.Fronts {
		var by []envelope.Answer
		var joint *envelope.Joint
		if r.Fronts[i].Err == nil {
			by, joint = r.Fronts[i].By, &r.Fronts[i].Joint
		}
		all(e.WaterOf(f), by, joint, withoutResult, 0, f.To-f.From)
	}
}

const withoutResult = "no result"

// byPath is how many parcels an authority's outcomes have.
func (t tally) byPath(authority string) map[string]int {
	made := map[string]int{}
	for key, sum := range t {
		if key.authority == authority && sum.parcels > 0 {
			made[key.outcome] += sum.parcels
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
	keys := slices.Collect(maps.Keys(w.sums))
	slices.SortFunc(keys, func(a, b tallied) int {
		return cmp.Or(cmp.Compare(a.water, b.water), cmp.Compare(a.authority, b.authority), cmp.Compare(a.outcome, b.outcome), cmp.Compare(a.certainty, b.certainty))
	})
	for _, key := range keys {
		w.Write([]string{out.Text(key.water).Table, key.authority, key.outcome, key.certainty, fmt.Sprint(w.sums[key].parcels), job.Fixed(w.sums[key].metres/job.Mile, 3)})
	}
	w.Table.Finish()
}
