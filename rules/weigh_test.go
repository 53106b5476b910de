package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A doubt bears on any value, or on one nearer to its limit than it reaches.
func TestDoubtsBearWhereTheyReach(t *testing.T) {
	reach := criterion(t, "mhw_farthest", AtMost, "10 ft")
	area := criterion(t, "footprint_area", AtMost, "10 sqft")
	far, near := Doubt{Says: "of 1950"}, Doubt{Says: "a gap", Within: 3 * foot}
	for _, tt := range []struct {
		criterion *Criterion
		number    float64
		doubts    []string
	}{
		{reach, 500 * foot, []string{"of 1950"}},
		{reach, 13.01 * foot, []string{"of 1950"}},
		{reach, 12.99 * foot, []string{"of 1950", "a gap"}},
		{reach, 7.01 * foot, []string{"of 1950", "a gap"}},
		// Of an area it is not known how far its edge is off.
		{area, 1, []string{"of 1950", "a gap"}},
	} {
		r := judged(tt.criterion, Value{Number: tt.number, Doubts: []Doubt{far, near}})
		require.Equal(t, tt.doubts, r.Doubts, "%g", tt.number)
		require.False(t, r.sure())
	}
}

// Another number counts only if it falls on the other side; after a shift it is as far
// off as the shift. near has a tolerance of 2.13 ft.
func TestOtherNumbersOfAValue(t *testing.T) {
	reach := criterion(t, "mhw_farthest", AtMost, "10 ft")
	near := stated(3, 1)
	for _, tt := range []struct {
		also    Also
		bound   Bound
		outcome Outcome
		doubts  []string
	}{
		{Also{Number: 9 * foot, Says: "by the far shore"}, Exact, Meets, nil},
		{Also{Number: 11 * foot, Says: "by the far shore"}, Exact, Meets, []string{"by the far shore"}},
		{Also{Number: math.NaN(), Says: "by the far shore"}, Exact, Meets, []string{"by the far shore"}},
		{Also{Number: 11 * foot, Says: "by the far shore"}, LessThan, Meets, []string{"by the far shore"}},
		{Also{Number: 11 * foot, Shift: 2 * foot}, Exact, Close, nil},
		{Also{Number: 11 * foot, Shift: 2.2 * foot}, Exact, Meets, nil},
		{Also{Number: 9 * foot, Shift: 2 * foot}, Exact, Meets, nil},
	} {
		r := judged(reach, Value{Number: 5 * foot, Bound: tt.bound, Accuracy: near, Also: []Also{tt.also}})
		require.Equal(t, tt.outcome.String(), r.Outcome.String(), "%+v", tt)
		require.Equal(t, tt.doubts, r.Doubts, "%+v", tt)
	}
}

// The worst of all that could have decided counts, a coarse one less what it lies
// farther. Worked by hand: 10 ft and 1 ft leave 6.75 ft, of which 4 ft farther 2.75.
func TestTheWorstAccuracyCounts(t *testing.T) {
	reach := criterion(t, "mhw_farthest", AtMost, "30 ft")
	coarse := stated(10, 1)[0]
	coarse.Farther = 4 * foot
	r := judged(reach, Value{Number: 27.3 * foot, Accuracy: []Accuracy{stated(1, 1)[0], coarse}})
	require.Equal(t, Close, r.Outcome)
	require.InDelta(t, 2.7537, r.Tolerance/foot, 5e-5)
	r = judged(reach, Value{Number: 27.2 * foot, Accuracy: []Accuracy{stated(1, 1)[0], coarse}})
	require.Equal(t, Meets, r.Outcome)
	require.Empty(t, r.Doubts)
}

// Unstated vertical accuracy matters within 0.5 ft of the limit, horizontal within 100
// ft (common practice, no source).
func TestUnstatedHeightsMatterNearTheLimit(t *testing.T) {
	crest := criterion(t, "crest_above_mhw", AtMost, "0 ft")
	unstated := []Accuracy{{Of: "MHW-2", Line: math.NaN(), OfHeights: true}}
	require.Equal(t, []string{"the vertical accuracy of MHW-2 is not stated"}, judged(crest, Value{Number: -0.49 * foot, Accuracy: unstated}).Doubts)
	require.Empty(t, judged(crest, Value{Number: -0.51 * foot, Accuracy: unstated}).Doubts)
	unstated[0].OfHeights = false
	require.Equal(t, []string{"the accuracy of MHW-2 is not stated"}, judged(crest, Value{Number: -99 * foot, Accuracy: unstated}).Doubts)
}

func TestTheEdgeDecidesCloseness(t *testing.T) {
	overlap := criterion(t, "seagrass_overlap", AtMost, "0 sqft")
	area := wordCriterion(t, "in_area:x", Is, "outside")
	reach := criterion(t, "mhw_farthest", AtMost, "10 ft")
	for _, tt := range []struct {
		criterion *Criterion
		value     Value
		outcome   Outcome
		holds     bool
	}{
		{overlap, Value{Edge: metres(2), Accuracy: stated(3, 1)}, Close, true},
		{overlap, Value{Edge: metres(-2), Accuracy: stated(3, 1)}, Close, true},
		{overlap, Value{Edge: metres(2.2), Accuracy: stated(3, 1)}, Meets, true},
		{overlap, Value{Number: 9, Edge: metres(2), Accuracy: stated(3, 1)}, Close, false},
		{overlap, Value{Number: 9, Edge: metres(2.2), Accuracy: stated(3, 1)}, Exceeds, false},
		{overlap, Value{Edge: metres(0)}, Meets, true}, // the resolution is of lengths
		{overlap, Value{Edge: metres(0), Accuracy: stated(0, 0)}, Meets, true},
		{reach, Value{Number: 2, Edge: metres(5)}, Meets, true},
		{reach, Value{Number: 3.048, Edge: metres(5)}, Close, true}, // its margin is within the resolution
		{reach, Value{Number: 2, Edge: metres(0.001)}, Close, true}, // its edge is
		{reach, Value{Number: 3.048, Edge: metres(2), Accuracy: stated(3, 1)}, Close, true},
		{area, Value{Edge: metres(2), Accuracy: stated(3, 1)}, Close, true},
		{area, Value{Names: []string{"a"}, Edge: metres(2), Accuracy: stated(3, 1)}, Close, false},
		{area, Value{Names: []string{"a"}, Edge: metres(3), Accuracy: stated(3, 1)}, Exceeds, false},
	} {
		r := judged(tt.criterion, tt.value)
		require.Equal(t, tt.outcome.String(), r.Outcome.String(), "%+v", tt.value)
		require.Equal(t, tt.holds, r.Holds, "%+v", tt.value)
	}
}

func TestAShareIsWeighedByItsWidth(t *testing.T) {
	c := criterion(t, "waterway_share", AtMost, "25 %")
	// 1 % of 100 ft is 1 ft, inside the tolerance of 2.13 ft; of 1,000 ft it is 10 ft.
	narrow := judged(c, Value{Number: 0.24, Whole: 100 * foot, Accuracy: stated(3, 1)})
	require.Equal(t, Close, narrow.Outcome)
	wide := judged(c, Value{Number: 0.24, Whole: 1000 * foot, Accuracy: stated(3, 1)})
	require.Equal(t, Meets, wide.Outcome)
}

func TestUnstatedAccuracyIsListedWhereItMightMatter(t *testing.T) {
	const line, footprint = "the accuracy of the line is not stated", "the accuracy of the proposal is not stated"
	nan := math.NaN()
	c := criterion(t, "mhw_farthest", AtMost, "10 ft")
	for _, tt := range []struct {
		distance  float64
		accuracy  []Accuracy
		outcome   Outcome
		unstated  []string
		tolerance float64
	}{
		{8, []Accuracy{{Of: "the line", Line: nan, Footprint: nan}}, Meets, []string{line, footprint}, nan},
		{8, []Accuracy{{Of: "the line", Line: nan, Footprint: 0.3}}, Meets, []string{line}, 1.6449 * 0.3 / 2.4477},
		{9.9, []Accuracy{{Of: "the line", Line: 0.3, Footprint: nan}}, Close, []string{footprint}, 1.6449 * 0.3 / 2.4477},
		{8, []Accuracy{{Of: "the line", Line: nan, Footprint: nan, Bias: 0.2}}, Meets, []string{line, footprint}, 0.2},
		{109, []Accuracy{{Of: "the line", Line: nan, Footprint: nan}}, Exceeds, []string{line, footprint}, nan},
		{111, []Accuracy{{Of: "the line", Line: nan, Footprint: nan}}, Exceeds, nil, nan},
		{8, nil, Meets, nil, nan},
	} {
		r := judged(c, Value{Number: tt.distance * foot, Accuracy: tt.accuracy})
		require.Equal(t, tt.outcome.String(), r.Outcome.String(), "%+v", tt)
		require.Equal(t, tt.unstated, r.Doubts, "%+v", tt)
		if math.IsNaN(tt.tolerance) {
			require.True(t, math.IsNaN(r.Tolerance), "%+v", tt)
			continue
		}
		require.InDelta(t, tt.tolerance, r.Tolerance, 1e-12)
	}
}
