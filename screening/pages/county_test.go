package pages

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// countyOf is a page of so many invented parcels, fronts of 66 ft (1/80 mile) in a row along
// streets of 40, each street a water body; the first ids are hostile. Of each ten parcels, by
// number: 0 to 3 take every easiest path (firm, close call, needs information, firm), 4 and 5
// all but the state's, 6 neither, 7 none known, 8 has no result, 9 shares its front with the
// parcel after it, which is one more. Each street ends in as much shore of nobody's.
func countyOf(t testing.TB, parcels int) (string, *CountyPage) {
	page := NewCountyPage([]Authority{
		{"state", "State rules", []Path{{"exemption", "Exemption"}, {"individual", "Individual permit"}}},
		{"county", hostile[0], []Path{{"small", "Small structure"}, {"full", "Full review"}}},
	}, []string{"site_address", "=zone"})
	id := 0
	next := func() Parcel {
		name := fmt.Sprintf("P-%05d", id)
		if id < len(hostile) {
			name = hostile[id]
		}
		id++
		return Parcel{ID: name, Carried: []string{fmt.Sprintf("%d Reed Lane", id), "=1+1"}, Note: []string{"", "a sliver 4.0 ft wide"}[id%7/6]}
	}
	for n := 0; id < parcels; n++ {
		street, lot := n/40, float64(n%40)
		at := func(lot float64) orb.Point {
			return orb.Point{-74.6 + 0.0003*lot + 0.013*float64(street%40), 30 + 0.01*float64(street/40) + 0.0001*math.Sin(lot)}
		}
		metres := 66 * 0.3048
		front := Front{Water: fmt.Sprintf("Reach %d", street), Miles: 1.0 / 80, Strand: street, From: lot * metres, To: (lot + 1) * metres, Line: []orb.Point{at(lot), at(lot + 0.5), at(lot + 1)}}
		shore := Shore{Water: front.Water, Lon: at(lot)[0], Lat: at(lot)[1], Riparian: "as given", Parcels: []Parcel{next()}}
		o := Outcome{Result: true, Joint: Joint{Says: "every easiest path", Structure: true, Known: true, Feet: 60}, By: []Answer{{Path: 0, CouldBe: -1, Feet: 60}, {Path: 0, CouldBe: -1, Feet: 60}}}
		front.Taken = []Taken{{"neighbour", 40}}
		switch n % 10 {
		case 1:
			o.Joint.Certainty, o.By[0].Certainty = CloseCall, CloseCall
		case 2:
			o.Joint.Certainty, o.By[1].Certainty = NeedsInformation, NeedsInformation
			front.Wants = []Want{{"A newer or surer seagrass survey of", true}, {"A survey of low water along", true}}
		case 4, 5:
			o.Joint.Says, o.Joint.Beyond, o.Joint.Blocker, o.Joint.Share = "all but state", []int{0}, "seagrass", 70
			o.By[0].Path, o.By[0].Feet = 1, 0
			front.Taken = append(front.Taken, Taken{"seagrass", 70})
		case 6:
			o.Joint.Says, o.Joint.Beyond, o.Joint.Blocker = "no easiest path", []int{0, 1}, "channel"
			o.By[0].Path, o.By[1].Path = 1, 1
		case 7:
			o.Joint = Joint{Says: "not known", Certainty: NeedsInformation, Blocker: "no data on seagrass", Share: 100}
			o.By[0] = Answer{Path: -1, CouldBe: 0, Certainty: NeedsInformation}
			front.Wants = []Want{{"A seagrass survey of", true}}
		case 8:
			o, front.Taken = Outcome{}, nil
			shore.Error = "its lines cross"
		case 9:
			shore.Parcels = append(shore.Parcels, next())
		}
		front.Outcome, shore.Best = o, o
		shore.Fronts = []Front{front}
		page.Add(shore)
		if lot == 39 {
			front.From, front.To, front.Outcome, front.Wants, front.Taken, front.Line = 40*metres, 41*metres, Outcome{}, nil, nil, []orb.Point{at(40), at(41)}
			page.Add(Shore{Water: front.Water, Fronts: []Front{front}, Unknown: street%4 == 3})
		}
	}
	var b bytes.Buffer
	require.NoError(t, page.Write(&b, County{
		Title: hostile[1], Day: "25 November 2026", Caution: "Screening only.", Structure: "Sill, 6 ft wide.",
		LeftOut: hostile, Warnings: hostile, Sources: []Source{{Role: "parcels", File: hostile[0], SHA256: "0123456789abcdef"}},
	}))
	return b.String(), page
}

// tablesIn are the tables of totals of a page: the cells of their rows, without marks.
func tablesIn(page string) (made [][][]string) {
	strip := regexp.MustCompile(`(?s)<svg.*?</svg>|<span class="why">.*?</span>|<[^>]*>`)
	for _, table := range regexp.MustCompile(`(?s)<table class="totals">.*?</table>`).FindAllString(page, -1) {
		var rows [][]string
		for _, row := range regexp.MustCompile(`(?s)<tr>(.*?)</tr>`).FindAllStringSubmatch(table, -1)[1:] {
			var cells []string
			for _, cell := range regexp.MustCompile(`(?s)<t[hd].*?</t[hd]>`).FindAllString(row[1], -1) {
				cells = append(cells, strings.ReplaceAll(strip.ReplaceAllString(cell, ""), "&#39;", "'"))
			}
			rows = append(rows, cells)
		}
		made = append(made, rows)
	}
	return made
}

// has requires texts of a page, and shows no more of it than it must.
func has(t *testing.T, page string, texts ...string) {
	for _, text := range texts {
		require.True(t, strings.Contains(page, text), "the page does not say: %s", text)
	}
}

// Two streets, by hand: 80 fronts of 1/80 mile are 1 mile, 8 of each kind 0.1 mile, and two
// ends of nobody's 0.025. Five kinds take every easiest path: 0.5 mile, of which one (0.1) is a
// close call and one needs information. 88 parcels, as one kind, of every easiest path, has
// two on each of 8 fronts: 4 x 8 + 16 = 48.
func TestTotalsByHand(t *testing.T) {
	page, _ := countyOf(t, 88)
	has(t, page,
		"48 of 88 parcels, 0.500 of 1.025 miles of shore, could take one structure on the easiest path of every authority.",
		"Of that shore 0.300 miles are firm.", "Of 8 parcels, 0.100 miles, that is not known",
		"all but state 0.200 mi")
	tables := tablesIn(page)
	require.Equal(t, [][][]string{{
		{"the easiest path of every authority", "", "48", "0.500", "48.8", "0.300", "0.100", "0.100"},
		{"the easiest path of all authorities but one", "", "16", "0.200", "19.5", "0.200", "0", "0"},
		{"no authority's easiest path", "", "8", "0.100", "9.8", "0.100", "0", "0"},
		{"not known", "", "8", "0.100", "9.8", "0", "0", "0.100"},
		{"no result", "", "8", "0.100", "9.8", "", "", ""},
		{"nobody's shore", "", "0", "0.025", "2.4", "", "", ""},
		{"all shore", "", "88", "1.025", "100.0", "0.600", "0.100", "0.200"},
	}, {
		{"Exemption", "", "48", "0.500", "48.8", "0.400", "0.100", "0"},
		{"Individual permit", "", "24", "0.300", "29.3", "0.300", "0", "0"},
		{"not known", "", "8", "0.100", "9.8", "0", "0", "0.100"},
		{"no result", "", "8", "0.100", "9.8", "", "", ""},
		{"nobody's shore", "", "0", "0.025", "2.4", "", "", ""},
		{"all shore", "", "88", "1.025", "100.0", "0.700", "0.100", "0.100"},
	}, {
		{"Small structure", "", "72", "0.800", "78.0", "0.700", "0", "0.100"},
		{"Full review", "", "8", "0.100", "9.8", "0.100", "0", "0"},
		{"not known", "", "0", "0", "0", "", "", ""},
		{"no result", "", "8", "0.100", "9.8", "", "", ""},
		{"nobody's shore", "", "0", "0.025", "2.4", "", "", ""},
		{"all shore", "", "88", "1.025", "100.0", "0.800", "0", "0.100"},
	}}, tables)
}

// What stands in the way and what would settle it, of the same two streets by hand: a
// neighbour takes 40 % before each of the 72 fronts with a result, seagrass 70 % before 16 of
// them (0.14 of 0.9 miles); 8 fronts want a seagrass survey alone, 8 want two things.
func TestReasonsByHand(t *testing.T) {
	page, _ := countyOf(t, 88)
	has(t, page,
		"<b>40.0&thinsp;%</b><div>neighbour <span class=\"how\">as much as before 0.360 miles</span>",
		"<b>15.6&thinsp;%</b><div>seagrass <span class=\"how\">as much as before 0.140 miles</span>",
		"<b>0.200</b><div>seagrass <span class=\"how\">22.2 % of the shore of parcels</span>",
		"<b>0.100</b><div>A seagrass survey of 2 water bodies <span class=\"how\">9.8 % of all shore</span>",
		"<li>A seagrass survey of Reach 0 would settle 0.050 miles.</li>",
		"<li>A survey of low water along Reach 1 would help to settle 0.050 miles, which want other things too.</li>",
		"Counted are the miles of front, 0.200 in all")
	require.NotContains(t, page, "are fronted by more than one parcel")
}

// Shore that two parcels front for themselves is told: here 20 m of it, 0.012 miles.
func TestShoreFrontedTwice(t *testing.T) {
	page := NewCountyPage(nil, nil)
	for _, from := range []float64{0, 30} {
		page.Add(Shore{Water: "Reach", Parcels: []Parcel{{ID: "A"}}, Fronts: []Front{{Water: "Reach", Miles: 50 / 1609.344, Strand: 1, From: from, To: from + 50, Line: []orb.Point{{0, 0}, {0, 1}}}}})
	}
	var b bytes.Buffer
	require.NoError(t, page.Write(&b, County{}))
	has(t, b.String(), "0.012 miles of shore are fronted by more than one parcel")
}

// Miles add up as they are printed, down to how sure each outcome is, on shores of any length;
// parcels add up too.
func TestTotalsAddUp(t *testing.T) {
	for _, parcels := range []int{1, 7, 40, 88, 333, 4000} {
		page, _ := countyOf(t, parcels)
		for _, table := range tablesIn(page) {
			sum, last := make([]int, 8), table[len(table)-1]
			decimals := len(last[3]) - strings.Index(last[3], ".") - 1
			units := func(cell string) int {
				v, _ := strconv.ParseFloat(strings.ReplaceAll(cell, ",", ""), 64)
				return int(math.Round(v * math.Pow10(decimals)))
			}
			for _, row := range table[:len(table)-1] {
				for i := range sum {
					sum[i] += units(row[i])
				}
				if row[5]+row[6]+row[7] != "" {
					require.Equal(t, units(row[3]), units(row[5])+units(row[6])+units(row[7]), "%d parcels: %v", parcels, row)
				}
			}
			for _, i := range []int{2, 3, 5, 6, 7} {
				require.Equal(t, units(last[i]), sum[i], "%d parcels: %v", parcels, table)
			}
		}
	}
}

// Miles are written so that parts add up: by hand, the greatest remainders are rounded up.
func TestPartsAddUp(t *testing.T) {
	require.Equal(t, []int{2, 1, 0}, digits{0}.parts(3, []float64{1.4, 1.3, 0.3}))
	require.Equal(t, []int{34, 33, 33}, digits{2}.parts(100, []float64{1. / 3, 1. / 3, 1. / 3}))
	require.Equal(t, []int{0, 0}, digits{1}.parts(0, []float64{0.02, 0.01}))
	require.Equal(t, []int{2, 0}, digits{0}.parts(2, []float64{2.4, 0}))
	require.Equal(t, []int{2, 0}, digits{0}.parts(2, []float64{2, 1}))
}

// All maps together hold no more points than a browser draws at once, whatever the shore; and
// each class that there is is drawn.
func TestMapsKeepTheirBudget(t *testing.T) {
	for _, parcels := range []int{3, 88, 30000} {
		page, _ := countyOf(t, parcels)
		points := 0
		for _, d := range regexp.MustCompile(`<path class="[^"]*" d="([^"]*)"`).FindAllStringSubmatch(page, -1) {
			points += strings.Count(d[1], "m") + strings.Count(d[1], "l")
		}
		require.Less(t, points, mostPoints+200, "%d parcels; scales and the legend have some too", parcels)
	}
	page, _ := countyOf(t, 30000)
	overview := regexp.MustCompile(`(?s)<svg class="map overview".*?</svg>`).FindString(page)
	for _, mark := range []string{"rank0", "rank1", "rank3", "unknown", "lost", "nobody", "unsaid"} {
		require.Contains(t, overview, `<path class="`+mark+`"`)
	}
	order := regexp.MustCompile(`<path class="([^"]*)"`).FindAllStringSubmatch(overview, -1)
	require.Equal(t, "nobody", order[0][1], "the lowest first")
	require.Equal(t, "rank0", order[len(order)-1][1], "the easiest on top")
}

// A map is true to scale: a degree of longitude at 60 degrees north is half one of latitude
// (cos 60), and a shore over the antimeridian is not parted.
func TestMapsAreTrueToScale(t *testing.T) {
	c := newChart(orb.Bound{Min: orb.Point{179.9, 59.95}, Max: orb.Point{180.1, 60.05}}, 179.9, 228, 228)
	require.InDelta(t, 0.5, c.across/c.up, 1e-9)
	require.InDelta(t, 2000, c.up, 1, "200 pixels in 0.1 degrees")
	east, west := c.at(orb.Point{-179.9, 60}), c.at(orb.Point{179.9, 60})
	require.InDelta(t, 200, east[0]-west[0], 0.5)
	require.InDelta(t, 114, east[1], 0.5)
	long, text := c.scaleBar()
	require.Equal(t, "2 mi", text) // 0.1 degrees are 6.9 miles, a third of the frame 76 of 228 pixels
	require.InDelta(t, 57.9, long, 0.1, "2 of 69.09 miles in a degree of 2,000 pixels")
}

// Nothing but the page's own style and script can run, and ids and words of files stand in it
// as text alone.
func TestNothingForeignRunsInTheReport(t *testing.T) {
	page, _ := countyOf(t, 40)
	for _, never := range []string{"http:", "https:", " style=", " onclick", "<img", "<link", "<iframe", "@import", "url(", "<pattern", "paint-order"} {
		require.False(t, strings.Contains(page, never), never)
	}
	require.Equal(t, 2, strings.Count(page, "<script"))
	require.Equal(t, 2, strings.Count(page, "</script>"))
	require.Equal(t, 1, strings.Count(page, "<style>"))
}

// With too many parcels for a list the page says where they stand.
func TestTooManyParcels(t *testing.T) {
	page := NewCountyPage(nil, nil)
	for range 11 {
		page.Add(Shore{Parcels: make([]Parcel, 10000), Water: "Reach"})
	}
	var b bytes.Buffer
	require.NoError(t, page.Write(&b, County{}))
	has(t, b.String(), "There are more than 100,000 parcels, too many for a list here: see parcels.csv beside this page.")
	require.Zero(t, strings.Count(b.String(), "<script"))
}

// A page of a county is no more than 5 MB.
func TestReportOfACountyIsSmall(t *testing.T) {
	page, _ := countyOf(t, 57700)
	require.Less(t, len(page), 5000000)
}

// What is not known of an authority is neither met nor missed, whatever the others say.
func TestNotKnownOfOneIsNotKnown(t *testing.T) {
	for want, o := range map[class]Joint{
		every: {Known: true, Structure: true}, butOne: {Known: true, Structure: true, Beyond: []int{0}}, notKnown: {Known: true, Structure: true, Beyond: []int{0}, Open: []int{1}},
		butMore: {Known: true, Structure: true, Beyond: []int{0, 1}}, noneOf: {Known: true, Structure: true, Beyond: []int{0, 1, 2}},
	} {
		require.Equal(t, want, classOf(&Outcome{Result: true, Joint: o}, 3))
	}
	require.Equal(t, notKnown, classOf(&Outcome{Result: true, Joint: Joint{Structure: true, Open: []int{2}}}, 3))
	require.Equal(t, noneOf, classOf(&Outcome{Result: true, Joint: Joint{Known: true}}, 3))
}
