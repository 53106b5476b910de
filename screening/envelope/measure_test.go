package envelope

import (
	"fmt"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/site"
)

// TestCandidatesAreDecidedAsWhenAllIsMeasured: what is measured of a candidate is enough
// for every built-in book, and the demo's own, to say all that it says of a structure of
// which everything is measured.
func TestCandidatesAreDecidedAsWhenAllIsMeasured(t *testing.T) {
	e, outcomes := demoOutcomes(t)
	books := e.Books
	for _, name := range rules.BuiltInNames() {
		editions, err := rules.BuiltIn(name)
		require.NoError(t, err)
		books = append(books, editions...)
	}
	decided := 0
	for i, at := range outcomes {
		if i%2 == 1 {
			continue
		}
		for _, p := range e.everyPool(at) {
			c := e.tried(at, p.of, "x").Candidate
			if c == nil {
				continue
			}
			all := site.New(c.site.Proposal, e.Layers, nil, e.Radius)
			for _, b := range books {
				want, got := b.Decide(all), b.Decide(e.measured(c.site.Proposal, site.AskedBy(b)))
				require.Equal(t, allSaid(want), allSaid(got), "%s for %s", b.Name, p.of[0].path.ID)
				decided++
			}
			break
		}
	}
	require.Greater(t, decided, 100)
}

// TestCandidatesAreMeasuredAlikeWhateverIsAsked: each measure of a candidate is what it is
// when everything is measured.
func TestCandidatesAreMeasuredAlikeWhateverIsAsked(t *testing.T) {
	e, outcomes := demoOutcomes(t)
	compared := 0
	for _, at := range outcomes {
		c := e.tried(at, question{e.easiest[0]}, "x").Candidate
		if c == nil || compared > 100 {
			continue
		}
		all := site.New(c.site.Proposal, e.Layers, nil, e.Radius)
		for m := range rules.Measures() {
			if m.Quantity == rules.Names {
				continue
			}
			ref := rules.Ref{Measure: m.Name, Opening: 5 * job.Foot, Every: 75 * job.Foot}
			require.Equal(t, allOf(all.Measure(ref)), allOf(e.measured(c.site.Proposal, site.Asked{m.Name}).Measure(ref)), m.Name)
			compared++
		}
	}
	require.Greater(t, compared, 100)
}

// allSaid is all that a decision says.
func allSaid(d rules.Decision) []string {
	out := []string{d.Path.ID, string(d.Certainty), fmt.Sprint(len(d.Waiver), len(d.CouldBe), len(d.Notices), len(d.Unchecked))}
	for _, r := range d.Results {
		for _, r := range append([]rules.Result{r}, r.Interpretations...) {
			v := r.Value
			out = append(out, fmt.Sprint(r.Criterion.ID, r.Outcome, r.Holds, r.Margin, r.Tolerance, r.Doubts, r.Reason, r.Change,
				v.Number, v.Bound, v.Word, v.Names, v.Unknown, v.Also, v.Doubts, v.Detail))
		}
	}
	return out
}

// TestPlacesAreMeasuredAlikeWhateverIsAsked: each measure of a place alone is what it is
// when all are asked for.
func TestPlacesAreMeasuredAlikeWhateverIsAsked(t *testing.T) {
	e, fronts := demoFronts(t)
	var all site.Asked
	for m := range rules.Measures() {
		if _, ofPlace := site.PlaceRecord(m.Name); ofPlace && m.Quantity != rules.Names {
			all = append(all, m.Name)
		}
	}
	for _, a := range e.Layers.Areas {
		all = append(all, "in_area:"+a.Name[len("areas."):])
	}
	of := func(wanted site.Asked) *asks {
		return &asks{siting: wanted.WithNeeded(), layers: e.around.layers}
	}
	compared := 0
	for i := range fronts {
		if fronts[i].Parcel < 0 {
			continue
		}
		h, err := e.newShore(&fronts[i], e.structure)
		require.NoError(t, err)
		if h.Bank == nil {
			continue
		}
		// A little off the middle of the front, to the water.
		place := h.Bank.Lines.Nearest(h.line[len(h.line)/2])
		trend := h.Bank.TrendAt(place.At)
		at := orb.Point{place.At[0] - 12*job.Foot*trend[1], place.At[1] + 12*job.Foot*trend[0]}
		want := h.spot(at, e, of(slices.Clone(all)))
		for _, measure := range all {
			require.Equal(t, allOf(want.Values[measure]), allOf(h.spot(at, e, of(site.Asked{measure})).Values[measure]), measure)
			compared++
		}
	}
	require.Greater(t, compared, 200)
}

// allOf is a value as text, in which unstated is the same as unstated.
func allOf(v rules.Value) string {
	var edge float64
	if v.Edge != nil {
		edge = *v.Edge
	}
	v.Edge = nil
	return fmt.Sprint(v, edge)
}
