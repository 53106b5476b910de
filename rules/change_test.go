package rules

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestChanges(t *testing.T) {
	nan := math.NaN()
	of := func(measure string, c Comparison, limit string) *Criterion { return criterion(t, measure, c, limit) }
	ft := func(number float64) Value { return Value{Number: number * foot, Room: nan} }
	run := func(number, widened float64, narrow ...float64) Value {
		v := ft(number)
		v.Widened = widened * foot
		for _, clear := range narrow {
			v.Narrow = append(v.Narrow, clear*foot)
		}
		return v
	}
	for _, tt := range []struct {
		criterion *Criterion
		value     Value
		change    string
	}{
		{of("mhw_farthest", AtMost, "10 ft"), ft(10), ""},
		{of("mhw_farthest", AtMost, "10 ft"), ft(10.8), "move 0.8 ft landward"},
		{of("mhw_farthest", AtMost, "10 ft"), ft(10.80000001), "move 0.8 ft landward"},
		{of("mhw_farthest", AtMost, "10 ft"), ft(10.81), "move 0.9 ft landward"},
		{of("mhw_farthest", AtMost, "10 ft"), ft(10.0000001), "move 0.1 ft landward"},
		{of("mhw_farthest", AtMost, "10 ft"), ft(10.001), "move 0.1 ft landward"},
		{of("mhw_farthest", UnderLimit, "10 ft"), ft(10.8), "move 0.9 ft landward"},
		{of("mhw_farthest", UnderLimit, "10 ft"), Value{Number: 3.048, Room: nan}, "move 0.1 ft landward"},
		{of("mhw_farthest", AtMost, "10 ft"), Value{Number: 13 * foot, Room: 3.01 * foot}, "move 3.0 ft landward"},
		{of("mhw_farthest", AtMost, "10 ft"), Value{Number: 13 * foot, Room: 2.9 * foot}, "bring the waterward edge 3.0 ft landward (narrow it: moving alone would put it landward of mean high water)"},
		{of("mlw_farthest", AtMost, "30 ft"), Value{Number: 45 * foot, Room: 20 * foot}, "move 15.0 ft landward"},
		{of("mlw_farthest", AtMost, "30 ft"), Value{Number: 45 * foot, Room: 2 * foot}, "bring the waterward edge 15.0 ft landward (narrow it: moving alone would put it landward of mean high water)"},
		{of("mhw_farthest", AtLeast, "10 ft"), ft(9), "move 1.0 ft waterward"},
		{of("mhw_nearest", AtLeast, "3 ft"), ft(2.2), "move 0.8 ft waterward"},
		{of("mlw_nearest", AtMost, "3 ft"), ft(4.25), "move 1.3 ft landward"},
		{of("mhw_farthest", AtMost, "10 ft"), Value{Number: 20 * foot, Bound: MoreThan}, "bring the farthest reach from mean high water to at most 10 ft"},
		{of("overall_length", AtMost, "500 ft"), ft(503), "shorten by 3.0 ft"},
		{of("bank_length", AtMost, "500 ft"), ft(620), "shorten by 120.0 ft"},
		{of("element_length", AtLeast, "20 ft"), ft(18), "lengthen by 2.0 ft"},
		{of("longest_run", AtMost, "75 ft"), run(120, 75, 4.8), "widen the 4.8 ft opening by 0.2 ft"},
		{of("longest_run", AtMost, "75 ft"), run(120, 60, 4.8, 4.5), "widen the 4.8 ft and 4.5 ft openings by 0.2 ft and 0.5 ft"},
		{of("longest_run", AtMost, "75 ft"), run(120, 60, 1, 2, 3), "widen the 1.0 ft, 2.0 ft and 3.0 ft openings by 4.0 ft, 3.0 ft and 2.0 ft"},
		{of("longest_run", AtMost, "75 ft"), run(120, 80, 4.8), "leave an opening of at least 5.0 ft at least every 75.0 ft"},
		{of("longest_run", AtMost, "75 ft"), run(120, 120), "leave an opening of at least 5.0 ft at least every 75.0 ft"},
		{of("longest_run", UnderLimit, "75 ft"), run(120, 75, 4.8), "leave an opening of at least 5.0 ft at least every 74.9 ft"},
		{of("longest_run", AtLeast, "75 ft"), run(70, 70), "lengthen by 5.0 ft"},
		{of("opening_spacing", AtMost, "100 ft"), ft(130), "leave an opening of at least 5.0 ft at least every 100.0 ft"},
		{of("opening_spacing", AtLeast, "100 ft"), ft(90), "set the openings 10.0 ft farther apart"},
		{of("openings_lacking", AtMost, "0"), Value{Number: 2}, "add 2 openings of at least 5.0 ft"},
		{of("openings_lacking", AtLeast, "1"), Value{}, "close 1 opening"},
		{of("longest_overlap", AtMost, "10 ft"), ft(12.5), "overlap the elements 2.5 ft less"},
		{of("project_bank_length", AtMost, "500 ft"), ft(530), "shorten the project by 30.0 ft"},
		{of("mhw_landward_edge", AtMost, "30 ft"), ft(31), "move 1.0 ft landward"},
		{of("crest_above_wetland", AtMost, "6 in"), ft(0.75), "lower the crest by 0.3 ft"},
		{of("mhw_mean_depth", UnderLimit, "3 ft"), ft(3), "choose a place 0.1 ft shallower"},
		{of("fetch", AtMost, "0.5 mile"), ft(2745.6), "choose a site with 0.02 mile less fetch"},
		{of("fill_fines", UnderLimit, "10 %"), Value{Number: 0.12}, "use fill with 2.1 % less fines"},
		{of("fill_tide_ranges", AtMost, "1.5"), Value{Number: 1.6}, "lower the fill by 0.10 mean tide ranges"},
		{of("side_slope", AtLeast, "2"), Value{Number: 1.5}, "flatten the side slope by 0.50 to 1"},
		{of("stone_size", AtLeast, "1 ft"), ft(0.8), "use stone 0.2 ft larger"},
		{of("wetland_overlap", AtMost, "100 sqft"), Value{Number: 160 * foot * foot}, "clear the wetland: 160 sq ft overlap, at most 100 sq ft allowed"},
		{of("wetland_nearest", AtLeast, "3 ft"), ft(0), "move clear of the wetland, at least 3.0 ft from it"},
		{of("wetland_width", AtLeast, "8 ft"), ft(7), "widen the wetland by 1.0 ft"},
		{of("narrowest_opening", AtLeast, "5 ft"), ft(4.8), "widen the 4.8 ft opening by 0.2 ft"},
		{of("narrowest_opening", AtMost, "5 ft"), ft(6), "narrow the 6.0 ft opening by 1.0 ft"},
		{of("openings", AtLeast, "2"), Value{Number: 1}, "add 1 opening of at least 5.0 ft"},
		{of("openings", OverLimit, "2"), Value{Number: 1}, "add 2 openings of at least 5.0 ft"},
		{of("openings", AtMost, "2"), Value{Number: 5}, "close 3 openings"},
		{of("crest_above_mhw", AtMost, "0 ft"), ft(0.25), "lower the crest by 0.3 ft"},
		{of("crest_above_mhw", AtLeast, "-1 ft"), ft(-1.5), "raise the crest by 0.5 ft"},
		{of("seagrass_nearest", AtLeast, "50 ft"), ft(47.5), "move 2.5 ft away from the seagrass"},
		{of("seagrass_nearest", AtLeast, "50 ft"), ft(0), "move clear of the seagrass, at least 50.0 ft from it"},
		{of("channel_nearest", AtLeast, "50 ft"), ft(47.5), "move 2.5 ft away from the channel"},
		{of("channel_nearest", AtMost, "50 ft"), ft(52), "move 2.0 ft nearer to the channel"},
		{of("riparian_nearest", AtLeast, "25 ft"), ft(-5), "move 30.0 ft away from the riparian line"},
		{of("seagrass_overlap", AtMost, "0 sqft"), Value{Number: 160 * foot * foot}, "clear the seagrass: 160 sq ft overlap"},
		{of("seagrass_overlap", AtMost, "0 sqft"), Value{Number: 159.2 * foot * foot, Edge: metres(-1.95)}, "clear the seagrass: 159 sq ft overlap"},
		{of("riparian_nearest", AtLeast, "25 ft"), Value{Number: 10 * foot, Room: 40 * foot}, "move 15.0 ft away from the riparian line"},
		{of("riparian_nearest", AtLeast, "25 ft"), Value{Number: 10 * foot, Room: 20 * foot}, "shorten, to stay at least 25.0 ft from the riparian lines on both sides"},
		{of("longest_run", AtMost, "75 ft"), run(120, 75, 4.99), "widen the 4.99 ft opening by 0.1 ft"},
		{of("seagrass_overlap", AtMost, "10 sqft"), Value{Number: 160 * foot * foot}, "clear the seagrass: 160 sq ft overlap, at most 10 sq ft allowed"},
		{of("seagrass_overlap", AtLeast, "10 sqft"), Value{}, "cover 10 sq ft more of the seagrass"},
		{of("footprint_area", AtMost, "0.25 acre"), Value{Number: 11010 * foot * foot}, "reduce the footprint by 120 sq ft"},
		{of("footprint_area", AtLeast, "100 sqft"), Value{Number: 90 * foot * foot}, "enlarge the footprint by 10 sq ft"},
		{of("fill_volume", AtMost, "10 cuyd"), Value{Number: 13.05 * 27 * foot * foot * foot}, "reduce the fill by 3.1 cu yd"},
		{of("fill_per_length", AtMost, "1 cuyd/ft"), Value{Number: 1.25 * 27 * foot * foot}, "reduce the fill by 0.3 cu yd/ft"},
		{of("fill_volume", AtLeast, "10 cuyd"), Value{Number: 9 * 27 * foot * foot * foot}, "increase the fill by 1.0 cu yd"},
		{of("waterway_width", AtLeast, "100 ft"), ft(90), "choose a site where the waterway is 10.0 ft wider"},
		{of("waterway_width", AtMost, "100 ft"), ft(110), "choose a site where the waterway is 10.0 ft narrower"},
		{of("waterway_share", AtMost, "25 %"), Value{Number: 0.26, Whole: 100 * foot}, "bring the waterward edge 1.0 ft landward"},
		{of("waterway_share", AtLeast, "25 %"), Value{Number: 0.24, Whole: 100 * foot}, "bring the waterward edge 1.0 ft waterward"},
		{of("waterway_share", AtMost, "25 %"), Value{Number: 0.26}, "take at most 25 % of the waterway"},
		{of("waterway_share", AtLeast, "1/4"), Value{Number: 0.24}, "take at least 0.25 of the waterway"},
		{of("mhw_farthest", AtMost, "10 ft"), Value{Unknown: "no high water line: give one"}, ""},
		{of("seagrass_nearest", AtLeast, "50 ft"), Value{Number: 9 * foot, Bound: MoreThan}, ""},
		{wordCriterion(t, "material", AnyOf, "shell", "stone"), Value{Word: "tyre"}, "use one of: shell, stone"},
		{wordCriterion(t, "material", NoneOf, "tyre"), Value{Word: "tyre"}, "use none of: tyre"},
		{wordCriterion(t, "in_area:aquatic_preserve", Is, "outside"), Value{Names: []string{"Unit 3"}}, "move out of aquatic preserve"},
		{wordCriterion(t, "in_area:aquatic_preserve", Is, "inside"), Value{}, "move into aquatic preserve"},
		{wordCriterion(t, "in_area:x", NoneOf, "Unit 2", "Unit 3"), Value{Names: []string{"unit 3", "unit 9"}}, "move out of Unit 3"},
		{wordCriterion(t, "in_area:x", AnyOf, "Unit 2", "Unit 3"), Value{}, "move into one of: Unit 2, Unit 3"},
	} {
		require.Equal(t, tt.change, judged(tt.criterion, tt.value).Change, "%s %+v", tt.criterion.Measure.Name, tt.value)
	}
}

func TestCloseOnTheRightSideNeedsNoCure(t *testing.T) {
	c := criterion(t, "mhw_farthest", AtMost, "10 ft")
	r := judged(c, Value{Number: 9.9 * foot, Accuracy: stated(3, 1)})
	require.Equal(t, Close, r.Outcome)
	require.Empty(t, r.Change)
	r = judged(c, Value{Number: 10.2 * foot, Accuracy: stated(3, 1), Room: math.NaN()})
	require.Equal(t, Close, r.Outcome)
	require.Equal(t, "move 0.2 ft landward", r.Change)
}

// The last length in a change is its amount: an opening's own width comes before.
var amountForm = regexp.MustCompile(`^.*?([0-9]+\.[0-9]) ft(?: [^0-9]*)?$`)

// Doing what a change says makes the criterion hold, to within the millionth of a
// foot that rounding up leaves to arithmetic, and asks for no more than a tenth
// of a foot too much.
func TestChangesOfLengthsCure(t *testing.T) {
	var lengths []string
	for _, m := range measures {
		if m.Quantity == Length && m.Name != "longest_run" && m.Name != "opening_spacing" {
			lengths = append(lengths, m.Name)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		measure := rapid.SampledFrom(lengths).Draw(rt, "measure")
		comparison := rapid.SampledFrom([]Comparison{AtMost, AtLeast, UnderLimit, OverLimit}).Draw(rt, "comparison")
		limit := float64(rapid.IntRange(-50, 900).Draw(rt, "limit"))
		off := rapid.OneOf(
			rapid.Float64Range(0, 90),
			rapid.Map(rapid.IntRange(0, 900), func(tenth int) float64 { return float64(tenth) / 10 }),
		).Draw(rt, "off")
		room := rapid.Float64Range(-5, 100).Draw(rt, "room")
		c := criterion(t, measure, comparison, fmt.Sprintf("%g ft", limit))
		sign := -1.0
		if comparison.capped() {
			sign = 1
		}
		v := Value{Number: (limit + sign*off) * foot, Room: room * foot}
		r := judged(c, v)
		if r.Holds {
			require.Empty(rt, r.Change)
			return
		}
		found := amountForm.FindStringSubmatch(r.Change)
		require.NotNil(rt, found, r.Change)
		amount, err := strconv.ParseFloat(found[1], 64)
		require.NoError(rt, err)
		if strings.HasPrefix(r.Change, "move clear of") || strings.HasPrefix(r.Change, "shorten, to stay") {
			v.Number = 0 // the amount is the distance to be left
		}
		v.Number -= sign * amount * foot
		margin, holds, _ := compare(&c.Demand, v)
		require.True(rt, holds || !comparison.strict() && margin >= -noise*foot, "%s leaves a margin of %g m", r.Change, margin)
		require.LessOrEqual(rt, margin, 0.1*foot+2*noise, "%s asks for too much", r.Change)
	})
}

// Widening by what the change says makes every narrow opening count.
func TestChangesOfRunsCure(t *testing.T) {
	c := criterion(t, "longest_run", AtMost, "75 ft")
	rapid.Check(t, func(rt *rapid.T) {
		clear := rapid.Float64Range(0, 4.999).Draw(rt, "clear")
		r := judged(c, Value{Number: 90 * foot, Narrow: []float64{clear * foot}, Widened: 50 * foot})
		found := regexp.MustCompile(`by ([0-9.]+) ft$`).FindStringSubmatch(r.Change)
		require.NotNil(rt, found, r.Change)
		amount, err := strconv.ParseFloat(found[1], 64)
		require.NoError(rt, err)
		require.GreaterOrEqual(rt, clear+amount, 5-noise)
		require.Less(rt, clear+amount, 5.1+noise)
	})
}
