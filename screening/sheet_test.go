package screening

import (
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/job"
	"waterward/screening/sketchtest"
)

// sheetsOf are the sheets of some proposals of the demo, or of all.
func sheetsOf(t *testing.T, workers int, ask Sheets) sketchtest.Memory {
	out := sketchtest.Memory{}
	_, err := Run(t.Context(), sketchtest.DemoJob(t), sketchtest.Folder(sketchtest.DemoDir), out, Options{Workers: workers, Sheets: ask})
	require.NoError(t, err)
	return out
}

// wordsOn are the words of the drawings of a page, sheet by sheet.
func wordsOn(page string) (sheets [][]string) {
	for _, drawing := range regexp.MustCompile(`<svg.*?</svg>`).FindAllString(page, -1) {
		var words []string
		for _, m := range regexp.MustCompile(`<text[^>]*>([^<]*)</text>`).FindAllStringSubmatch(drawing, -1) {
			words = append(words, m[1])
		}
		sheets = append(sheets, words)
	}
	return sheets
}

// TestWhatASheetHolds: every length of P-05 stands once on its first sheet, P-04 without a
// datum has words for heights and no structure in its section. Worked by hand from the feet
// in which the demo is drawn (expected.csv): lines x 1520-1600, 1606-1660 and 1664.8-1724.8
// at y 30, 8 ft wide; mean low water at y 24; grass corner (1500, 38), riparian line x 1500;
// crest +0.40, bed -2.90, mean high water +0.62 and mean low water -1.18 ft NAVD88.
func TestWhatASheetHolds(t *testing.T) {
	made := sheetsOf(t, 2, Sheets{IDs: []string{"P-05,P-04"}})
	words := wordsOn(made["sheets/P-05.html"].String())
	require.Len(t, words, 1)
	for _, want := range []string{
		"80.00", "54.00", "60.00", "6.00", "4.80", "8.00 typ.", "204.80 overall",
		"34.00 to MHW", "26.00 to MHW", "10.00 to MLW", "2.00 to MLW", "20.00 to riparian line", "20.40 to seagrass",
		"24.00 MHW to MLW", "10.00", "34.00 MHW to farthest toe T", "MHW +0.62", "MLW -1.18", "NAVD88 0.00",
		"Crest +0.40 as stated, 2.50 wide", "Bed -2.90 as stated", "1 in = 40 ft", "T",
		"Breakwater, 3 elements", "0007-A15", "11/25/2026",
	} {
		n := 0
		for _, w := range words[0] {
			if w == want {
				n++
			}
		}
		if want == "1 in = 40 ft" {
			n-- // below the plan and in the title block
		}
		require.Equal(t, 1, n, "%s in %q", want, words[0])
	}
	// The channel is 129.97 ft off: off the plan, so it stands in the table.
	require.Contains(t, made["sheets/P-05.html"].String(), "129.97 ft (CH1)")

	without := wordsOn(made["sheets/P-04.html"].String())[0]
	all := strings.Join(without, " ")
	require.Contains(t, all, "Crest +1.20 as stated, in no stated datum; bed -0.25 as stated, in no stated datum")
	require.Contains(t, all, "No vertical datum is stated.")
	for _, height := range []string{"MHW +0.62", "ft NAVD88", "Crest +1.20 as stated"} {
		require.False(t, slices.Contains(without, height), height)
	}
	require.NotContains(t, made, "sheets/P-06.html")
	require.Contains(t, made["index.html"].String(), `"sheets":{"3":"sheets/P-04.html","4":"sheets/P-05.html"}`) // the fourth and fifth row
}

// TestSheetsOfAll: of the 28 proposals two could not be measured (P-17, P-18); the one on
// land has a sheet, and any number of workers gives the same bytes.
func TestSheetsOfAll(t *testing.T) {
	one, many := sheetsOf(t, 1, Sheets{All: true}), sheetsOf(t, 8, Sheets{All: true})
	n := 0
	for name, text := range one {
		if strings.HasPrefix(name, "sheets/") {
			n++
			require.Equal(t, text.String(), many[name].String(), name)
			require.Contains(t, one["run.json"].String(), `"`+name+`"`)
		}
	}
	require.Equal(t, 26, n)
	require.Contains(t, one["sheets/P-12.html"].String(), "it is drawn landward of mean high water")
	// 6 elements of 78 ft and 7 ft openings: 503 ft in all, at 100 ft an inch, and again in
	// parts at 50.
	words := wordsOn(one["sheets/P-06.html"].String())
	require.Len(t, words, 3)
	require.Contains(t, words[0], "503.00 overall")
	require.Contains(t, words[1], "MATCH LINE, SHEET 3")
	require.Contains(t, words[2], "MATCH LINE, SHEET 2")
	lengths, openings := 0, 0
	for _, sheet := range words {
		for _, w := range sheet {
			switch w {
			case "78.00":
				lengths++
			case "7.00":
				openings++
			}
		}
	}
	require.Equal(t, []int{6, 5}, []int{lengths, openings})
}

// edited is the demo with one of its files changed.
type edited struct {
	sketchtest.Folder
	name string
	by   *strings.Replacer
}

func (e edited) Open(name string) (io.ReadCloser, error) {
	file, err := e.Folder.Open(name)
	if err != nil || filepath.Base(name) != e.name {
		return file, err
	}
	defer file.Close()
	text, err := io.ReadAll(file)
	return io.NopCloser(strings.NewReader(e.by.Replace(string(text)))), err
}

// TestALimitNamesAllWhoSetIt: the state ends its easiest path 10 ft from mean high water by the
// farthest toe, the county, changed, by the nearest edge: one line, which both set.
func TestALimitNamesAllWhoSetIt(t *testing.T) {
	out := sketchtest.Memory{}
	files := edited{sketchtest.Folder(sketchtest.DemoDir), "county.yaml", strings.NewReplacer("measure: mhw_farthest", "measure: mhw_nearest", "mhw_farthest:", "mhw_nearest:")}
	_, err := Run(t.Context(), sketchtest.DemoJob(t), files, out, Options{Sheets: Sheets{IDs: []string{"P-05"}}})
	require.NoError(t, err)
	require.Contains(t, wordsOn(out["sheets/P-05.html"].String())[0], "10 ft from mean high water: state, county")
}

// TestWhatIsNotKnownIsNotLeftOut: without a layer of seagrass its absence from the drawing
// would read as none; what is in doubt of a figure stands beside it.
func TestWhatIsNotKnownIsNotLeftOut(t *testing.T) {
	j := sketchtest.DemoJob(t)
	j.Layers.Seagrass = nil
	j.Layers.HighWater.Date = "1990-05-12" // older than the ten years it may be
	out := sketchtest.Memory{}
	report, err := Run(t.Context(), j, sketchtest.Folder(sketchtest.DemoDir), out, Options{Sheets: Sheets{IDs: []string{"P-05", "P-17"}}})
	require.NoError(t, err)
	page := out["sheets/P-05.html"].String()
	require.Contains(t, strings.Join(wordsOn(page)[0], " ")+page, "Of seagrass it is not known how near: no seagrass layer was given; add layers.seagrass.")
	require.Regexp(t, `<td>Seagrass covered</td><td>not known: no seagrass layer was given`, page)
	require.Regexp(t, `<td>Length along the bank</td><td>204.80 ft; in doubt: [^<]*1990-05-12`, page)
	require.Contains(t, report.Warnings, "no sheets are drawn of P-17, which cannot be measured")
}

// TestSheetsOfNobody: an id that no proposal has ends the run before it writes.
func TestSheetsOfNobody(t *testing.T) {
	_, err := Run(t.Context(), sketchtest.DemoJob(t), sketchtest.Folder(sketchtest.DemoDir), sketchtest.Memory{}, Options{Sheets: Sheets{IDs: []string{"P-05", "P-99", "p-05"}}})
	var wrong *job.Error
	require.ErrorAs(t, err, &wrong)
	require.ErrorContains(t, err, `sheets are asked for "P-99", "p-05", and no proposal has that id`)
}
