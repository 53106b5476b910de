package rules

import (
	"maps"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// editionOf is one edition of a built-in book.
func editionOf(t *testing.T, name, edition string) *Book {
	editions, err := BuiltIn(name)
	require.NoError(t, err)
	for _, b := range editions {
		if b.Edition == edition {
			return b
		}
	}
	require.Fail(t, "no such edition", "%s %s", name, edition)
	return nil
}

type keyed struct {
	key       string // path/criterion
	criterion *Criterion
}

// criteriaOf are the criteria of all editions of some books.
func criteriaOf(t *testing.T, names ...string) []keyed {
	var out []keyed
	for _, name := range names {
		editions, err := BuiltIn(name)
		require.NoError(t, err)
		for _, b := range editions {
			out = append(out, keyedCriteria(b)...)
		}
	}
	return out
}

func keyedCriteria(b *Book) []keyed {
	var out []keyed
	for _, path := range b.Paths {
		for _, c := range path.Criteria {
			out = append(out, keyed{path.ID + "/" + c.ID, c})
		}
	}
	return out
}

// asks is a demand by its names: "greatest_of mhw_farthest wetland_farthest at
// most 20 ft".
func asks(d *Demand) string {
	words := []string{string(d.Pick)}
	for _, in := range d.Inputs() {
		words = append(words, in.Measure.Name)
	}
	return strings.Join(append(words, d.LimitText()), " ")
}

// demandsOf are all demands with a figure of a book by path/criterion, other
// readings by path/criterion/reading, with their source.
func demandsOf(b *Book) (demands map[string]*Demand, sources map[string]string) {
	demands, sources = map[string]*Demand{}, map[string]string{}
	add := func(key string, d *Demand, cite string, evidence Evidence) {
		if d.Measure.Quantity.numeric() {
			demands[key], sources[key] = d, cite+", "+string(evidence)
		}
	}
	for _, c := range keyedCriteria(b) {
		add(c.key, &c.criterion.Demand, c.criterion.Cite, c.criterion.Evidence)
		for _, r := range c.criterion.Readings {
			add(c.key+"/"+r.ID, &r.Demand, r.Cite, r.Evidence)
		}
	}
	return demands, sources
}

type figure struct {
	rule, demand, asks, section string
}

// The figures are those of the published rules, which were read; they are typed
// here from notes on the sections named, not from the books. How near wetlands
// must be to count is ours, and so is which of several readings decides.
var (
	marshSillFigures = []figure{
		{"NC27-c1", "marsh-sill/stand-off-wetland", "greatest_of wetland_landward_edge mtl_landward_edge at most 5 ft", "15A NCAC 07H .2705(c)"},
		{"NC27-c1", "marsh-sill/stand-off-wetland/farther-line", "least_of wetland_landward_edge mtl_landward_edge at most 5 ft", "15A NCAC 07H .2705(c)"},
		{"NC27-c2", "marsh-sill/stand-off-bare", "measure mhw_landward_edge at most 30 ft", "15A NCAC 07H .2705(c)"},
		{"NC27-d", "marsh-sill/stand-off-fill", "measure mhw_landward_edge at most 30 ft", "15A NCAC 07H .2705(d)"},
		{"NC27-f", "marsh-sill/height-wetland", "greatest_of crest_above_mhw crest_above_wetland at most 6 in", "15A NCAC 07H .2705(f)"},
		{"NC27-f", "marsh-sill/height-wetland/higher-level", "least_of crest_above_mhw crest_above_wetland at most 6 in", "15A NCAC 07H .2705(f)"},
		{"NC27-f", "marsh-sill/height", "measure crest_above_mhw at most 6 in", "15A NCAC 07H .2705(f)"},
		{"NC27-g", "marsh-sill/length", "measure overall_length at most 500 ft", "15A NCAC 07H .2705(g)"},
		{"NC27-g", "marsh-sill/length/elements", "measure element_length at most 500 ft", "15A NCAC 07H .2705(g)"},
		{"NC27-g", "marsh-sill/length/bank", "measure bank_length at most 500 ft", "15A NCAC 07H .2705(g)"},
		{"NC27-i", "marsh-sill/openings", "measure longest_run at most 100 ft", "15A NCAC 07H .2705(i)"},
		{"NC27-i", "marsh-sill/openings/number", "measure openings_lacking at most 0", "15A NCAC 07H .2705(i)"},
		{"NC27-i", "marsh-sill/openings/spacing", "measure opening_spacing at most 100 ft", "15A NCAC 07H .2705(i)"},
	}
	sheetPileFigures = []figure{
		{"NC21-a", "sheet-pile-sill/reach-wetland", "greatest_of mhw_farthest wetland_farthest at most 20 ft", "15A NCAC 07H .2105(a)"},
		{"NC21-a", "sheet-pile-sill/reach-wetland/either-line", "least_of mhw_farthest wetland_farthest at most 20 ft", "15A NCAC 07H .2105(a)"},
		{"NC21-a", "sheet-pile-sill/reach", "measure mhw_farthest at most 20 ft", "15A NCAC 07H .2105(a)"},
		{"NC21-a2", "sheet-pile-sill/waterway", "measure waterway_share at most 0.1667", "15A NCAC 07H .2105(a)"},
		{"NC21-b", "sheet-pile-sill/depth", "measure mhw_mean_depth less than 3 ft", "15A NCAC 07H .2105(b)"},
		{"NC21-d", "sheet-pile-sill/length", "measure overall_length at most 500 ft", "15A NCAC 07H .2105(d)"},
		{"NC21-d", "sheet-pile-sill/length/elements", "measure element_length at most 500 ft", "15A NCAC 07H .2105(d)"},
		{"NC21-d", "sheet-pile-sill/length/bank", "measure bank_length at most 500 ft", "15A NCAC 07H .2105(d)"},
		{"NC21-e2", "sheet-pile-sill/openings", "measure longest_run at most 100 ft", "15A NCAC 07H .2105(e)"},
		{"NC21-e2", "sheet-pile-sill/openings/number", "measure openings_lacking at most 0", "15A NCAC 07H .2105(e)"},
		{"NC21-e2", "sheet-pile-sill/openings/spacing", "measure opening_spacing at most 100 ft", "15A NCAC 07H .2105(e)"},
		{"NC21-e2", "sheet-pile-sill/overlap", "measure longest_overlap at most 10 ft", "15A NCAC 07H .2105(e)"},
		{"NC21-f", "sheet-pile-sill/height", "measure crest_above_mhw at most 6 in", "15A NCAC 07H .2105(f)"},
		{"NC21-g", "sheet-pile-sill/setback", "measure riparian_nearest at least 15 ft", "15A NCAC 07H .2105(g)"},
	}
	groupOneFigures = []figure{
		{"VA1-a", "group-1/fetch", "measure fetch at most 0.5 mile", "4VAC20-1300-40"},
		{"VA1-b", "group-1/fines", "measure fill_fines less than 10 %", "4VAC20-1300-40"},
		{"VA1-c", "group-1/fill-level", "measure fill_tide_ranges at most 1.5", "4VAC20-1300-40"},
		{"VA1-d", "group-1/crest", "measure crest_above_mhw at most 0 ft", "4VAC20-1300-40"},
		{"VA1-e", "group-1/low-water", "measure mlw_farthest at most 0 ft", "4VAC20-1300-30 A"},
		{"VA1-f", "group-1/wetland", "measure wetland_overlap at most 0 sq ft", "4VAC20-1300-40"},
	}
	groupTwoFigures = []figure{
		{"VA2-1", "group-2/fetch", "measure fetch at most 1.5 mile", "4VAC20-1330-40, item 1"},
		{"VA2-2a", "group-2/depth", "measure mlw_greatest_depth at most 2 ft", "4VAC20-1330-40, item 2"},
		{"VA2-2b", "group-2/stand-off", "measure mlw_landward_edge at most 30 ft", "4VAC20-1330-40, item 2"},
		{"VA2-3", "group-2/wetland-width", "measure wetland_width at least 8 ft", "4VAC20-1330-40, item 3"},
	}
)

func TestLimitsOfCarolinaAndVirginia(t *testing.T) {
	for _, tt := range []struct {
		book, edition string
		figures       [][]figure
	}{
		{"us-nc-state", "pre-2019", [][]figure{marshSillFigures, sheetPileFigures}},
		{"us-nc-state", "2019", [][]figure{sheetPileFigures}},
		{"us-va-state", "2015", [][]figure{groupOneFigures}},
		{"us-va-state", "2017", [][]figure{groupOneFigures, groupTwoFigures}},
	} {
		demands, sources := demandsOf(editionOf(t, tt.book, tt.edition))
		for _, figures := range tt.figures {
			for _, f := range figures {
				where := strings.Join([]string{f.rule, tt.book, tt.edition, f.demand}, " ")
				require.Contains(t, demands, f.demand, where)
				d := demands[f.demand]
				require.Equal(t, f.asks, asks(d), where)
				require.Equal(t, f.section+", read", sources[f.demand], where)
				if d.Ref.Opening > 0 { // the 5 ft of NC27-i and NC21-e2
					require.InDelta(t, 5*foot, d.Ref.Opening, 1e-12, where)
				}
				if d.Ref.Every > 0 { // and their 100 ft
					require.InDelta(t, 100*foot, d.Ref.Every, 1e-12, where)
				}
				delete(demands, f.demand)
			}
		}
		require.Empty(t, demands, "%s %s has figures that no row here holds against the rule", tt.book, tt.edition)
	}
}

func TestASixthOfTheWaterwayIsNotRounded(t *testing.T) {
	demands, _ := demandsOf(editionOf(t, "us-nc-state", "pre-2019"))
	require.InDelta(t, 1.0/6, demands["sheet-pile-sill/waterway"].Limit, 1e-15)
}

// Neither permit says how near wetlands must be to count; the distances are ours,
// each the limit from high water of the same permit.
func TestWhereLimitsApply(t *testing.T) {
	noFill, fill := "measure fill_proposed no", "measure fill_proposed yes"
	near := func(ft string) string { return "measure wetland_nearest at most " + ft }
	far := func(ft string) string { return "measure wetland_nearest more than " + ft }
	want := map[string][]string{
		"marsh-sill/stand-off-wetland":  {noFill, near("30 ft")},
		"marsh-sill/stand-off-bare":     {noFill, far("30 ft")},
		"marsh-sill/stand-off-fill":     {fill},
		"marsh-sill/height-wetland":     {near("30 ft")},
		"marsh-sill/height":             {far("30 ft")},
		"sheet-pile-sill/reach-wetland": {near("20 ft")},
		"sheet-pile-sill/reach":         {far("20 ft")},
		"group-1/fines":                 {fill},
		"group-1/fill-level":            {fill},
	}
	for _, c := range criteriaOf(t, "us-nc-state", "us-va-state") {
		var got []string
		for _, when := range c.criterion.When {
			got = append(got, asks(when))
		}
		require.Equal(t, want[c.key], got, c.key)
	}
}

// NC21-g: only the setback yields, and to the neighbour.
func TestTheSetbackAloneIsWaivable(t *testing.T) {
	for _, c := range criteriaOf(t, "us-nc-state", "us-va-state") {
		want := ""
		if c.key == "sheet-pile-sill/setback" {
			want = "the neighbour's written agreement"
		}
		require.Equal(t, want, c.criterion.WaivableBy, c.key)
	}
}

// given is a set of facts with some of them changed.
func given(facts, changes table) table {
	out := maps.Clone(facts)
	maps.Copy(out, changes)
	return out
}

func lengthOf(ft float64) Value { return Value{Number: ft * foot} }
func inchesOf(in float64) Value { return Value{Number: in * foot / 12} }

// Three sills that meet every limit of their path.
var (
	rockSill = table{
		"kind": {Word: "sill"}, "material": {Word: "rock"}, "fill_proposed": {Word: "yes"},
		"wetland_nearest": {Number: 1000 * foot, Bound: MoreThan}, "mhw_landward_edge": lengthOf(20),
		"crest_above_mhw": inchesOf(3), "overall_length": lengthOf(120), "longest_run": lengthOf(90),
		"in_area:ocean_hazard_area": {},
	}
	vinylSill = table{
		"kind": {Word: "sill"}, "material": {Word: "vinyl"},
		"wetland_nearest": {Number: 1000 * foot, Bound: MoreThan}, "mhw_farthest": lengthOf(12),
		"waterway_share": {Number: 0.05}, "mhw_mean_depth": lengthOf(2), "overall_length": lengthOf(120),
		"longest_run": lengthOf(90), "longest_overlap": lengthOf(0), "crest_above_mhw": inchesOf(3),
		"riparian_nearest": lengthOf(40),
	}
	groupTwoSill = table{
		"kind": {Word: "sill"}, "material": {Word: "rock"}, "fetch": lengthOf(5280),
		"mlw_greatest_depth": lengthOf(1), "mlw_landward_edge": lengthOf(10), "wetland_width": lengthOf(12),
	}
)

// The figures of each row are the rule's, its answer worked by hand. A length
// at its limit is inside and cannot be told from it by measuring.
func TestBoundariesOfCarolinaAndVirginia(t *testing.T) {
	carolina, virginia := editionOf(t, "us-nc-state", "pre-2019"), editionOf(t, "us-va-state", "2017")
	noFill := given(rockSill, table{"fill_proposed": {Word: "no"}})
	besideWetland := given(rockSill, table{"wetland_nearest": lengthOf(4), "crest_above_wetland": inchesOf(3)})
	for _, tt := range []struct {
		rule     string
		book     *Book
		base     table
		measure  string
		value    Value
		path     string
		standing Standing
		waiver   bool
		failing  string
	}{
		{"NC27-g", carolina, rockSill, "overall_length", lengthOf(499.99), "marsh-sill", Firm, false, ""},
		{"NC27-g", carolina, rockSill, "overall_length", lengthOf(500), "marsh-sill", CloseCall, false, ""},
		{"NC27-g", carolina, rockSill, "overall_length", lengthOf(500.01), "individual", Firm, false, "marsh-sill/length"},
		{"NC27-d", carolina, rockSill, "mhw_landward_edge", lengthOf(30), "marsh-sill", CloseCall, false, ""},
		{"NC27-d", carolina, rockSill, "mhw_landward_edge", lengthOf(30.01), "individual", Firm, false, "marsh-sill/stand-off-fill"},
		{"NC27-c2", carolina, noFill, "mhw_landward_edge", lengthOf(30), "marsh-sill", CloseCall, false, ""},
		{"NC27-c2", carolina, noFill, "mhw_landward_edge", lengthOf(30.01), "individual", Firm, false, "marsh-sill/stand-off-bare"},
		{"NC27-f", carolina, rockSill, "crest_above_mhw", inchesOf(6), "marsh-sill", CloseCall, false, ""},
		// 0.1 in is less than the 0.01 ft to which lengths are told apart.
		{"NC27-f", carolina, rockSill, "crest_above_mhw", inchesOf(6.1), "individual", CloseCall, false, "marsh-sill/height"},
		{"NC27-f", carolina, rockSill, "crest_above_mhw", inchesOf(6.2), "individual", Firm, false, "marsh-sill/height"},
		{"NC27-f", carolina, besideWetland, "crest_above_wetland", inchesOf(6), "marsh-sill", CloseCall, false, ""},
		{"NC27-f", carolina, besideWetland, "crest_above_wetland", inchesOf(6.2), "individual", Firm, false, "marsh-sill/height-wetland"},
		{"NC21-g", carolina, vinylSill, "riparian_nearest", lengthOf(15), "sheet-pile-sill", CloseCall, false, ""},
		{"NC21-g", carolina, vinylSill, "riparian_nearest", lengthOf(14.99), "sheet-pile-sill", Firm, true, "sheet-pile-sill/setback"},
		{"VA2-2b", virginia, groupTwoSill, "mlw_landward_edge", lengthOf(30), "group-2", CloseCall, false, ""},
		{"VA2-2b", virginia, groupTwoSill, "mlw_landward_edge", lengthOf(30.01), "individual", Firm, false, "group-2/stand-off"},
		{"VA2-1", virginia, groupTwoSill, "fetch", lengthOf(1.5 * 5280), "group-2", CloseCall, false, ""},
		{"VA2-1", virginia, groupTwoSill, "fetch", lengthOf(1.51 * 5280), "individual", Firm, false, "group-2/fetch"},
	} {
		name := tt.rule + " " + tt.book.Paths[0].ID + " " + feet.Format(tt.value.Number)
		d := tt.book.Decide(given(tt.base, table{tt.measure: tt.value}))
		require.Equal(t, tt.path, d.Path.ID, name)
		require.Equal(t, tt.standing, d.Standing, name)
		require.Equal(t, tt.waiver, len(d.Waiver) > 0, name)
		if tt.failing != "" {
			require.Contains(t, ids(d.BlockedBy), tt.failing, name)
		}
	}
}

// The same words, different geometry: a sill 8 ft wide whose landward edge lies
// 28 ft off mean high water is inside Carolina's 30 ft to that edge (NC27-d) and,
// with 28 + 8 = 36 ft to its outer edge, beyond Florida's 10 ft. Worked by hand.
func TestLandwardAndOuterEdgeAreNotTheSame(t *testing.T) {
	facts := given(rockSill, table{"mhw_landward_edge": lengthOf(28), "mhw_farthest": lengthOf(28 + 8)})
	require.Equal(t, "marsh-sill", editionOf(t, "us-nc-state", "pre-2019").Decide(facts).Path.ID)

	editions, err := BuiltIn("us-fl-state")
	require.NoError(t, err)
	florida, err := editions.On(date(t, "2026-11-25"))
	require.NoError(t, err)
	d := florida.Decide(facts)
	require.NotEqual(t, "exemption", d.Path.ID)
	require.Contains(t, ids(d.BlockedBy), "exemption/reach")
	for _, r := range d.Results {
		if r.Path.ID == "exemption" && r.Criterion.ID == "reach" {
			require.Equal(t, Exceeds, r.Outcome)
			require.InDelta(t, (10-36)*foot, r.Margin, 1e-9)
		}
	}
}

// Each wording that can be read in two ways, read in the other. Worked by hand.
func TestOtherReadingsAreReported(t *testing.T) {
	carolina, virginia := editionOf(t, "us-nc-state", "pre-2019"), editionOf(t, "us-va-state", "2017")
	besideWetland := given(rockSill, table{"wetland_nearest": lengthOf(4), "crest_above_wetland": inchesOf(3)})
	for _, tt := range []struct {
		name    string
		book    *Book
		facts   table
		reading string
		path    string
	}{
		{"3 in over high water, 9 in over the wetland", carolina,
			given(besideWetland, table{"crest_above_wetland": inchesOf(9)}), "higher-level", "marsh-sill"},
		{"9 in over high water, 3 in over the wetland", carolina,
			given(besideWetland, table{"crest_above_mhw": inchesOf(9)}), "higher-level", "marsh-sill"},
		{"4 ft off the wetland, 7 ft off mid-tide", carolina,
			given(besideWetland, table{"fill_proposed": {Word: "no"}, "wetland_landward_edge": lengthOf(4), "mtl_landward_edge": lengthOf(7)}),
			"farther-line", "marsh-sill"},
		{"24 ft off high water, 14 ft off the wetland", carolina,
			given(vinylSill, table{"wetland_nearest": lengthOf(13), "mhw_farthest": lengthOf(24), "wetland_farthest": lengthOf(14)}),
			"either-line", "sheet-pile-sill"},
		{"520 ft of which 20 ft are openings", carolina,
			given(rockSill, table{"overall_length": lengthOf(520), "element_length": lengthOf(500)}), "elements", "marsh-sill"},
		{"150 ft with its one opening 20 ft from an end", carolina,
			given(rockSill, table{"overall_length": lengthOf(150), "longest_run": lengthOf(125), "openings_lacking": {Number: 0}}),
			"number", "marsh-sill"},
		{"a breakwater", virginia, given(groupTwoSill, table{"kind": {Word: "breakwater"}}), "breakwater", "group-2"},
	} {
		d := tt.book.Decide(tt.facts)
		require.Equal(t, "individual", d.Path.ID, tt.name)
		found := ""
		for _, r := range d.Rereads {
			if r.Result.Reading.ID == tt.reading && r.Path != nil {
				found = r.Path.ID
			}
		}
		require.Equal(t, tt.path, found, tt.name)
	}
}

// The end of 2018 is ours; 2015-09-01 and 2017-11-01 are published.
func TestEditionsOfCarolinaAndVirginia(t *testing.T) {
	for _, tt := range []struct{ book, day, edition string }{
		{"us-nc-state", "1990-01-01", "pre-2019"},
		{"us-nc-state", "2018-12-31", "pre-2019"},
		{"us-nc-state", "2019-01-01", "2019"},
		{"us-va-state", "2015-08-31", ""},
		{"us-va-state", "2015-09-01", "2015"},
		{"us-va-state", "2017-10-31", "2015"},
		{"us-va-state", "2017-11-01", "2017"},
	} {
		editions, err := BuiltIn(tt.book)
		require.NoError(t, err)
		book, err := editions.On(date(t, tt.day))
		if tt.edition == "" {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, tt.edition, book.Edition, "%s on %s", tt.book, tt.day)
	}
}

// Without a path for marsh sills, the later edition must say why.
func TestCarolinaSaysThatTheMarshSillPermitIsMissing(t *testing.T) {
	said := func(facts table) int {
		count := 0
		for _, n := range editionOf(t, "us-nc-state", "2019").Decide(facts).Notices {
			if strings.Contains(n.Says, "marsh sill") {
				count++
			}
		}
		return count
	}
	require.Equal(t, 2, said(rockSill), "of the book and of the individual permit")
	require.Equal(t, 1, said(vinylSill), "of the book alone")
	require.Equal(t, 1, said(given(rockSill, table{"kind": {Word: "breakwater"}})), "of the individual permit alone")
}
