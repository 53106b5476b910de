package pages

import (
	"encoding/csv"
	"html"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// parcelsIn are the ids of the parcels in the table of a document, in their order.
func parcelsIn(document string) (ids []string) {
	for _, m := range regexp.MustCompile(`<td class="id"><b>(.*?)</b>`).FindAllStringSubmatch(document, -1) {
		ids = append(ids, html.UnescapeString(m[1]))
	}
	return ids
}

// The list of parcels is filtered, sorted and paged by its address; of 88 invented parcels (see
// countyOf) every figure is worked by hand.
func TestTheParcelsByTheirAddress(t *testing.T) {
	page, _ := countyOf(t, 88)
	for _, c := range []struct {
		address, status, first string
		rows                   int
	}{
		{"", "88 parcels", hostile[0], 50},
		{"#page=2", "88 parcels", "P-00050", 38},
		{"#sort=-id", "88 parcels", "P-00087", 50},
		{"#q=p-0008+lane", "8 of 88 parcels", "P-00080", 8},      // 80 to 87: those are all there are
		{"#q=88+reed&sort=-id", "1 of 88 parcels", "P-00087", 1}, // the address of the 88th
		{"#o=b", "16 of 88 parcels", hostile[4], 16},             // all but one
		{"#o=e&sort=water", "8 of 88 parcels", hostile[7], 8},    // not known
		{"#c=-", "8 of 88 parcels", hostile[8], 8},
		{"#c=b", "8 of 88 parcels", hostile[1], 8},
		{"#w=Reach+1", "44 of 88 parcels", "P-00044", 44},
		{"#q=nothing", "0 of 88 parcels", "", 0},
		{"#water2", "88 parcels", hostile[0], 50}, // leads to a place of the page, and no more
	} {
		t.Run(c.address, func(t *testing.T) {
			document := opened(t, page, c.address)
			has(t, document, `data-ready="88"`, `role="status">`+c.status+`</p>`)
			ids := parcelsIn(document)
			require.Len(t, ids, c.rows)
			if c.first != "" {
				require.Equal(t, strings.ReplaceAll(c.first, "\u2028", `\u2028`), ids[0])
			}
		})
	}
}

// What a hostile file says is shown and does nothing.
func TestHostileParcelsAreShown(t *testing.T) {
	page, _ := countyOf(t, 88)
	document := opened(t, page, "")
	require.NotContains(t, document, "<title>owned")
	require.NotContains(t, document, "<img")
	require.Equal(t, hostile[:5], parcelsIn(document)[:5])
}

// saved is what the page saves by an expression of its script, as a table.
func saved(t *testing.T, page, expression string) [][]string {
	page = regexp.MustCompile(`<meta http-equiv[^>]*>`).ReplaceAllString(page, "") // the script is not its own any more
	const end = "document.documentElement.dataset.ready = total;"
	require.Equal(t, 1, strings.Count(page, end))
	page = strings.Replace(page, end, end+`document.body.append(make("pre", {id: "saved", text: `+expression+`}));`, 1)
	text := regexp.MustCompile(`(?s)<pre id="saved">(.*?)</pre>`).FindStringSubmatch(opened(t, page, ""))[1]
	rows, err := csv.NewReader(strings.NewReader(html.UnescapeString(text))).ReadAll()
	require.NoError(t, err)
	return rows
}

// The mailing list has what the parcels carry, and the outcome in a sentence; by hand.
func TestTheMailingList(t *testing.T) {
	page, _ := countyOf(t, 88)
	rows := saved(t, page, "mailing(found)")
	require.Len(t, rows, 89)
	require.Equal(t, []string{"parcel_id", "site_address", "'=zone", "outcome"}, rows[0])
	require.Equal(t, []string{"P-00011", "12 Reed Lane", "'=1+1", "By the maps, one structure up to 60 ft long could meet the easiest path of every authority before this parcel. This is firm."}, rows[12])
	for row, says := range map[int]string{
		2:  "By the maps, one structure up to 60 ft long could meet the easiest path of every authority before this parcel. It is a close call: the lines may lie a little otherwise.",
		16: "By the maps no one structure could meet the easiest path of every authority before this parcel (in the way: seagrass); one up to 60 ft long could meet the easiest path of all but state. This is firm.",
		18: "By the maps no one structure could meet the easiest path of every authority before this parcel (in the way: channel); one up to 60 ft long would take a more demanding path with every authority. This is firm.",
		19: "By the maps it is not known whether one structure could meet the easiest path of every authority before this parcel (no data on seagrass).",
		20: "By the maps nothing can be said of this parcel.",
	} {
		require.Equal(t, says, rows[row][3], row)
	}
}

// The table that is saved has a row for each parcel that was found, and names those that share
// its front.
func TestTheTableSaved(t *testing.T) {
	page, _ := countyOf(t, 88)
	rows := saved(t, page, "download(found)")
	require.Len(t, rows, 89)
	require.Equal(t, []string{
		"parcel_id", "site_address", "'=zone", "shared_with", "lon", "lat", "water", "shore_ft", "joint", "joint_certainty", "joint_longest_ft", "joint_blocked_by", "joint_blocked_pct",
		"state_title", "state_certainty", "state_could_be", "state_longest_ft", "state_blocked_by",
		"county_title", "county_certainty", "county_could_be", "county_longest_ft", "county_blocked_by", "riparian", "note", "error",
	}, rows[0])
	require.Equal(t, []string{
		"P-00018", "19 Reed Lane", "'=1+1", "", "-74.5949", "29.9999", "Reach 0", "66", "not known", "needs information", "", "no data on seagrass", "100",
		"not known", "needs information", "Exemption", "", "", "Small structure", "firm", "", "60", "", "as given", "", "",
	}, rows[19])
	require.Equal(t, "P-00021", rows[21][3], "P-00020 shares its front")
}

// What a spreadsheet would run is made harmless as in the tables beside the page; see
// TestFormulas of screening/out, whose sources these are.
func TestSavedCellsAreHarmless(t *testing.T) {
	page, _ := countyOf(t, 8)
	var cells []string
	var wanted [][]string
	for text, want := range map[string]string{
		"=1+1": "'=1+1", "+a": "'+a", "-a": "'-a", "@x": "'@x", "-2+3": "'-2+3", "＝1+1": "'＝1+1", "﹦1": "'﹦1",
		" =1": "' =1", "a;=1": "a;'=1", "a; =1": "a; '=1", "a; -2; 3": "a; -2; 3", "a;'=1": "a;''=1",
		"-2": "-2", "+1e3": "+1e3", "-.5": "-.5", "-inf": "'-inf", "-0x1": "'-0x1", "'=1": "''=1", "'a": "'a", "a=1": "a=1", "": "", ";": ";",
		`"=1`: `"=1`, "a,b": "a,b",
	} {
		cells = append(cells, "["+strconv.Quote("x")+","+strconv.Quote(text)+"]")
		wanted = append(wanted, []string{"x", want})
	}
	require.Equal(t, wanted, saved(t, page, "table(["+strings.Join(cells, ",")+"])"))
}
