package rules

import (
	"slices"
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
// interpretations by path/criterion/interpretation, with their source.
func demandsOf(b *Book) (demands map[string]*Demand, sources map[string]string) {
	demands, sources = map[string]*Demand{}, map[string]string{}
	add := func(key string, d *Demand, cite string, evidence Evidence) {
		if d.Measure.Quantity.numeric() {
			demands[key], sources[key] = d, cite+", "+string(evidence)
		}
	}
	for _, c := range keyedCriteria(b) {
		add(c.key, &c.criterion.Demand, c.criterion.Cite, c.criterion.Evidence)
		for _, r := range c.criterion.Interpretations {
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
// must be to count is ours, and so is which of several interpretations decides.
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
		{"NC21-a2", "sheet-pile-sill/waterway", "measure waterway_share at most 1/6", "15A NCAC 07H .2105(a)"},
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

// oursApply are the limits whose figure was read, and of which it is ours where they
// apply: near or far from wetlands, and in waters that are narrow.
var oursApply = []string{
	"marsh-sill/stand-off-wetland", "marsh-sill/stand-off-bare", "marsh-sill/height-wetland", "marsh-sill/height",
	"sheet-pile-sill/reach-wetland", "sheet-pile-sill/reach", "sheet-pile-sill/waterway",
}

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
				evidence := Read
				if slices.Contains(oursApply, f.demand) {
					evidence = Practice
				}
				require.Equal(t, f.section+", "+string(evidence), sources[f.demand], where)
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
	near := func(ft string) string { return "measure wetland_behind at most " + ft }
	far := func(ft string) string { return "measure wetland_behind more than " + ft }
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
