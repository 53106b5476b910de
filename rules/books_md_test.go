package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The figures are those of the published rules, which were read; they are typed here
// from notes on the sections named, not from the book.
var marylandFigures = []figure{
	{"B(3)", "marsh-creation/reach", "measure mhw_farthest at most 35 ft", "COMAR 26.24.02.04 B(3)"},
	{"B(3)", "marsh-creation/length", "measure bank_length less than 500 ft", "COMAR 26.24.02.04 B(3)"},
	{"B(2)", "revetment/reach", "measure mhw_farthest at most 10 ft", "COMAR 26.24.02.04 B(2)"},
	{"B(2)", "revetment/reach/landward-edge", "measure mhw_landward_edge at most 10 ft", "COMAR 26.24.02.04 B(2)"},
	{"B(2)", "revetment/length", "measure bank_length less than 500 ft", "COMAR 26.24.02.04 B(2)"},
	{"A(2)", "revetment/length/delegation", "measure bank_length at most 500 ft", "COMAR 23.02.04.05 A(2)"},
}

func TestLimitsOfMaryland(t *testing.T) {
	demands, sources := demandsOf(editionOf(t, "us-md-state", "2024"))
	for _, f := range marylandFigures {
		require.Contains(t, demands, f.demand)
		require.Equal(t, f.asks, asks(demands[f.demand]), f.demand)
		require.Equal(t, f.section+", read", sources[f.demand], f.demand)
		delete(demands, f.demand)
	}
	require.Empty(t, demands)
}

// The license wants less than 500 ft of a revetment, the Board's delegation no more
// than 500 ft: they differ at 500 ft itself alone. Worked by hand.
func TestMarylandsTwoRulesOnARevetment(t *testing.T) {
	book := editionOf(t, "us-md-state", "2024")
	wall := func(ft float64) table {
		return table{"kind": {Word: "revetment"}, "mhw_farthest": lengthOf(6), "mhw_landward_edge": lengthOf(1), "bank_length": lengthOf(ft)}
	}
	for _, tt := range []struct {
		ft        float64
		path      string
		certainty Certainty
		other     string
	}{
		{499.99, "revetment", Firm, ""},
		{500, "individual", CloseCall, "revetment"},
		{500.01, "individual", Firm, ""},
	} {
		d := book.Decide(wall(tt.ft))
		require.Equal(t, tt.path, d.Path.ID, "%g ft", tt.ft)
		require.Equal(t, tt.certainty, d.Certainty, "%g ft", tt.ft)
		other := ""
		for _, r := range d.Rereads {
			other = r.Path.ID
		}
		require.Equal(t, tt.other, other, "%g ft", tt.ft)
	}
}

// The 35 ft bind the fill, not the sill that holds it; whether the sill goes by them
// is told beside.
func TestMarylandsFillAndItsSill(t *testing.T) {
	book := editionOf(t, "us-md-state", "2024")
	facts := func(kind string) table {
		return table{"kind": {Word: kind}, "mhw_farthest": lengthOf(30), "bank_length": lengthOf(120)}
	}
	require.Equal(t, "marsh-creation", book.Decide(facts("marsh fill")).Path.ID)
	d := book.Decide(facts("sill"))
	require.Equal(t, "individual", d.Path.ID)
	require.Len(t, d.Rereads, 1)
	require.Equal(t, "marsh-creation", d.Rereads[0].Path.ID)
	require.Equal(t, 1, saying(d.Notices, "Marsh is the rule"))
	require.Equal(t, 1, saying(book.Decide(facts("groin")).Notices, "25 ft"))
	require.Equal(t, 1, saying(book.Decide(facts("bulkhead")).Notices, "3 ft beyond"))
	require.Equal(t, 1, saying(book.Decide(facts("bulkhead")).Notices, "300 ft and 10 ft"))
}
