package rules

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the record of each quantity comes to, written down by hand from what it measures:
// what to do where it is one unit over the limit of 2, and one under; what is said where
// it is known to be more than a number; and whether it can be less than 0.
var quantitiesByHand = map[string]struct {
	over, under string
	looked      bool // for something mapped: more than 2 ft is none within 2 ft
	signed      bool
}{
	"element_length":        {over: "shorten by 1.0 ft", under: "lengthen by 1.0 ft"},
	"overall_length":        {over: "shorten by 1.0 ft", under: "lengthen by 1.0 ft"},
	"project_length":        {over: "shorten the project by 1.0 ft", under: "lengthen the project by 1.0 ft"},
	"longest_run":           {over: "leave an opening of at least 5.0 ft at least every 2.0 ft", under: "lengthen by 1.0 ft"},
	"opening_spacing":       {over: "leave an opening of at least 5.0 ft at least every 2.0 ft", under: "set the openings 1.0 ft farther apart"},
	"narrowest_opening":     {over: "narrow the 3.0 ft opening by 1.0 ft", under: "widen the 1.0 ft opening by 1.0 ft"},
	"openings":              {over: "close 1 opening", under: "add 1 opening of at least 5.0 ft"},
	"openings_lacking":      {over: "add 1 opening of at least 5.0 ft", under: "close 1 opening"},
	"longest_overlap":       {over: "overlap the elements 1.0 ft less", under: "overlap the elements 1.0 ft more"},
	"bank_length":           {over: "shorten by 1.0 ft", under: "lengthen by 1.0 ft"},
	"project_bank_length":   {over: "shorten the project by 1.0 ft", under: "lengthen the project by 1.0 ft"},
	"mhw_farthest":          {over: "bring the waterward edge 1.0 ft landward (narrow it: moving alone would put it landward of mean high water)", under: "move 1.0 ft waterward", signed: true},
	"mhw_nearest":           {over: "move 1.0 ft landward", under: "move 1.0 ft waterward", signed: true},
	"mhw_landward_edge":     {over: "move 1.0 ft landward", under: "move 1.0 ft waterward", signed: true},
	"mlw_farthest":          {over: "bring the waterward edge 1.0 ft landward (narrow it: moving alone would put it landward of mean high water)", under: "move 1.0 ft waterward", signed: true},
	"mlw_nearest":           {over: "move 1.0 ft landward", under: "move 1.0 ft waterward", signed: true},
	"mlw_landward_edge":     {over: "move 1.0 ft landward", under: "move 1.0 ft waterward", signed: true},
	"mtl_landward_edge":     {over: "move 1.0 ft landward", under: "move 1.0 ft waterward", signed: true},
	"crest_above_mhw":       {over: "lower the crest by 1.0 ft", under: "raise the crest by 1.0 ft", signed: true},
	"crest_above_wetland":   {over: "lower the crest by 1.0 ft", under: "raise the crest by 1.0 ft", signed: true},
	"crest_exposed":         {over: "lower the crest until it is out of the water 1.00 of the time less", under: "raise the crest until it is out of the water 1.00 of the time more"},
	"bed_exposed":           {over: "choose a place that is out of the water 1.00 of the time less", under: "choose a place that is out of the water 1.00 of the time more"},
	"crest_share_mhw":       {over: "lower the crest by 1.00 of the depth", under: "raise the crest by 1.00 of the depth"},
	"crest_share_msl":       {over: "lower the crest by 1.00 of the depth", under: "raise the crest by 1.00 of the depth"},
	"mhw_mean_depth":        {over: "choose a place 1.0 ft shallower", under: "choose a place 1.0 ft deeper", signed: true},
	"mlw_greatest_depth":    {over: "choose a place 1.0 ft shallower", under: "choose a place 1.0 ft deeper", signed: true},
	"bed_expected":          {over: "choose a place where the bed lies 1.0 ft lower", under: "choose a place where the bed lies 1.0 ft higher", signed: true},
	"footprint_area":        {over: "reduce the footprint by 1 sq ft", under: "enlarge the footprint by 1 sq ft"},
	"fill_volume":           {over: "reduce the fill by 1.0 cu yd", under: "increase the fill by 1.0 cu yd"},
	"fill_below_mhw":        {over: "reduce the fill by 1.0 cu yd", under: "increase the fill by 1.0 cu yd"},
	"fill_below_htl":        {over: "reduce the fill by 1.0 cu yd", under: "increase the fill by 1.0 cu yd"},
	"fill_per_length":       {over: "reduce the fill by 1.0 cu yd/ft", under: "increase the fill by 1.0 cu yd/ft"},
	"fill_tide_ranges":      {over: "lower the fill by 1.00 mean tide ranges", under: "raise the fill by 1.00 mean tide ranges", signed: true},
	"fill_fines":            {over: "use fill with 1.00 less fines", under: "use fill with 1.00 more fines"},
	"side_slope":            {over: "steepen the side slope by 1.00 to 1", under: "flatten the side slope by 1.00 to 1"},
	"stone_size":            {over: "use stone 1.0 ft smaller", under: "use stone 1.0 ft larger"},
	"seagrass_overlap":      {over: "clear the seagrass: 3 sq ft overlap, at most 2 sq ft allowed", under: "cover 1 sq ft more of the seagrass"},
	"seagrass_nearest":      {over: "move 1.0 ft nearer to the seagrass", under: "move 1.0 ft away from the seagrass", looked: true},
	"wetland_overlap":       {over: "clear the wetland: 3 sq ft overlap, at most 2 sq ft allowed", under: "cover 1 sq ft more of the wetland"},
	"wetland_nearest":       {over: "move 1.0 ft nearer to the wetland", under: "move 1.0 ft away from the wetland", looked: true},
	"wetland_behind":        {over: "move 1.0 ft nearer to the wetland", under: "move 1.0 ft away from the wetland", looked: true},
	"wetland_farthest":      {over: "move 1.0 ft landward", under: "move 1.0 ft waterward", signed: true},
	"wetland_landward_edge": {over: "move 1.0 ft landward", under: "move 1.0 ft waterward", signed: true},
	"wetland_width":         {over: "narrow the wetland by 1.0 ft", under: "widen the wetland by 1.0 ft"},
	"channel_nearest":       {over: "move 1.0 ft nearer to the channel", under: "move 1.0 ft away from the channel", looked: true},
	"riparian_nearest":      {over: "move 1.0 ft nearer to the riparian line", under: "shorten, to stay at least 2.0 ft from the riparian lines on both sides", looked: true, signed: true},
	"waterway_width":        {over: "choose a site where the waterway is 1.0 ft narrower", under: "choose a site where the waterway is 1.0 ft wider"},
	"waterway_share":        {over: "take at most 2 of the waterway", under: "take at least 2 of the waterway"},
	"fetch":                 {over: "choose a site with 1.0 ft less fetch", under: "choose a site with 1.0 ft more fetch"},
}

// TestEveryMeasureIsWhole: no part of a record lacks, and what it comes to is what was
// written down for it.
func TestEveryMeasureIsWhole(t *testing.T) {
	units := map[Quantity]string{Length: "2 ft", Area: "2 sqft", Volume: "2 cuyd", VolumePerLength: "2 cuyd/ft", Ratio: "2", Count: "2"}
	seen := map[string]bool{}
	for _, m := range measures {
		require.False(t, seen[m.Name] || seen["the "+m.Title], "%s stands there twice", m.Name)
		seen[m.Name], seen["the "+m.Title] = true, true
		require.NotEmpty(t, m.Title, m.Name)
		require.False(t, m.Words != nil && m.Quantity != Word || m.Stated && m.Quantity != Word, m.Name)
		want, held := quantitiesByHand[m.Name]
		require.Equal(t, m.Quantity.numeric(), held, "%s: is it a quantity? then write down what its record comes to", m.Name)
		if !held {
			require.False(t, m.signed || m.of != "" || m.change != nil, "%s is no quantity", m.Name)
			continue
		}
		require.Equal(t, want.signed, m.signed, m.Name)
		require.NotNil(t, m.change, m.Name)
		for _, text := range []string{m.change.down, m.change.up} {
			require.True(t, text == "" && m.change.instead != nil || strings.Count(text, "%s") == 1, "%s: %q", m.Name, text)
		}
		limit := criterion(t, m.Name, AtMost, units[m.Quantity])
		one := limit.Limit / 2
		require.Equal(t, want.over, judged(limit, Value{Number: 3 * one}).Change, m.Name)
		more := judged(limit, Value{Number: 2 * one, Bound: MoreThan}).Reason
		require.Equal(t, want.looked, strings.HasPrefix(more, "none within"), "%s: %s", m.Name, more)
		limit.Comparison = AtLeast
		require.Equal(t, want.under, judged(limit, Value{Number: one, Room: 2 * one}).Change, m.Name)
		if want.looked && !want.signed { // by how much it must be cleared is not known on contact
			require.Equal(t, "move clear of the "+m.of+", at least 2.0 ft from it", judged(limit, Value{}).Change, m.Name)
		}
	}
}
