package pages

import (
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// asked is what a program that reads PDF says of a file; .ci/run installs them.
func asked(t *testing.T, program string, arguments ...string) string {
	if _, err := exec.LookPath(program); err != nil {
		t.Skip("no " + program + " here: printed pages are not read")
	}
	out, err := exec.CommandContext(t.Context(), program, arguments...).Output()
	require.NoError(t, err)
	return string(out)
}

// printed is a page as the browser prints it, the text of each of its pages. There are as many
// as sheets, each on letter paper of 612 by 792 points, and no pictures.
func printed(t *testing.T, page string) []string {
	dir := t.TempDir()
	file := filepath.Join(dir, "page.pdf")
	browsed(t, page, "", dir, "--no-pdf-header-footer", "--print-to-pdf="+file)
	sheets := len(sheetsIn(page))
	about := asked(t, "pdfinfo", "-l", "-1", file)
	require.Regexp(t, fmt.Sprintf(`Pages: +%d\n`, sheets), about)
	require.Len(t, regexp.MustCompile(`Page +\d+ size: +612 x 792 pts`).FindAllString(about, -1), sheets)
	require.Len(t, strings.Split(strings.TrimSpace(asked(t, "pdfimages", "-list", file)), "\n"), 2, "pictures, below the head of their list")
	made := strings.Split(strings.TrimSuffix(asked(t, "pdftotext", file, "-"), "\f"), "\f")
	require.Len(t, made, sheets)
	return made
}

// What is printed is letter paper, sheet by sheet, every length once on the drawing.
func TestPrinted(t *testing.T) {
	s := byHand()
	pages := printed(t, pageOf(t, s))
	for _, l := range s.Plan.Dimensions {
		require.Len(t, regexp.MustCompile(`(?m)(?:^|\s)`+regexp.QuoteMeta(l.Text)+`(?:\s|$)`).FindAllString(pages[0], -1), 1, l.Text)
	}
	long := byHand()
	long.Plan.Elements[2] = boxFeet(3, 300, 20, 340, 26.2) // parts follow
	for i, text := range printed(t, pageOf(t, long)) {
		require.Regexp(t, fmt.Sprintf(`(?:^|\s)%d of \d`, i+1), text)
	}
}

// Whatever stands in the tables, no row is lost below a sheet, and no sheet takes two pages:
// every cell ends in a mark that the printed sheet holds. The longest caution of the built-in
// books has 1,541 letters.
func TestPrintedTablesAreWhole(t *testing.T) {
	s, n := byHand(), 0
	end := func(text string) string { n++; return text + fmt.Sprintf(" q%dz", n) }
	for _, words := range []string{
		strings.Repeat("a limit that is read ", 80)[:1541],
		strings.Repeat("WWWW ", 310)[:1541],
		strings.Repeat("W", 1541),
		strings.Repeat("ÀÉÎÕÜŒ æøŵ ", 140),
		strings.Repeat("水位線測量、", 250),
		strings.Repeat("MMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMM-", 44),
		strings.Repeat("in/2026-05-12_shore/line.v2.geojson?", 42),
		strings.Repeat("a\u00a0limit\u00a0that is\u00a0read\u00a0", 80),
	} {
		for i := range 40 {
			s.Requests = append(s.Requests, Request{end(strings.ToValidUTF8("State "+words[:20*i], "")), "state", end("")})
		}
		rule := Rule{Path: "Exemption", Result: "exceeds"}
		for _, of := range []*string{&rule.Says, &rule.Value, &rule.Limit, &rule.Tolerance, &rule.Reason, &rule.Change, &rule.Cite, &rule.Evidence} {
			*of = end(words)
		}
		s.Decisions[0].Rules = append(s.Decisions[0].Rules, rule)
		s.Decisions[0].Open = append(s.Decisions[0].Open, end(words))
		s.Figures = append(s.Figures, Figure{end("Fill"), end(words)})
		s.Sources = append(s.Sources, Source{Role: end("layer"), File: end(words), Date: end(""), Datum: end("")})
		s.Cautions = append(s.Cautions, end(words), end(words+" "+words))
	}
	page := pageOf(t, s)
	all, stands := sheetsIn(page), 0
	for i, text := range printed(t, page) {
		for _, mark := range regexp.MustCompile(`q\d+z`).FindAllString(all[i], -1) {
			stands++
			require.Contains(t, text, mark, "sheet %d", i+1)
		}
	}
	require.GreaterOrEqual(t, stands, n, "each at least once")
}

// The frame of a sheet is 7.50 in wide on a screen of 96 pixels an inch, and what its bar says
// is 30 ft is as long as the scale says: 1.50 in at 1 in = 20 ft. Measured on a picture of four
// times as many pixels, within one in two hundred.
func TestScaleOfThePicture(t *testing.T) {
	const perInch = 4 * 96
	dir := t.TempDir()
	file := filepath.Join(dir, "page.png")
	page := pageOf(t, byHand())
	browsed(t, page, "", dir, "--hide-scrollbars", "--window-size=816,700", "--force-device-scale-factor=4", "--screenshot="+file)
	require.Contains(t, page, ">1 in = 20 ft</text>")
	require.Contains(t, page, ">20</text>")
	require.Contains(t, page, ">40 ft</text>")
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	picture, err := png.Decode(f)
	require.NoError(t, err)
	dark := func(x, y int) bool {
		r, g, b, _ := picture.At(x, y).RGBA()
		return max(r, g, b) < 0x4000
	}
	// The frame: the box of all that is dark.
	frame := image.Rectangle{}
	for y := 0; y < picture.Bounds().Dy(); y += 16 {
		for x := range picture.Bounds().Dx() {
			if dark(x, y) {
				frame = frame.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	require.InEpsilon(t, 7.5*perInch, frame.Dx(), 0.005)
	// The bar: black to 10 ft, white to 20, black to 40; on a line through it, from the end of
	// the first black to the end of the second are 30 ft.
	bar := regexp.MustCompile(`<path d="M(\S+) (\S+?)L\S+ \S+?L\S+ (\S+?)L\S+ \S+?z" fill="#000"/>`).FindStringSubmatch(page[strings.Index(page, "<svg"):])
	require.NotNil(t, bar)
	number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
	y := frame.Min.Y + int((number(bar[2])+number(bar[3]))/2*perInch/100)
	var ends []int
	for x := frame.Min.X + int((number(bar[1])-5)*perInch/100); len(ends) < 2 && x < frame.Max.X; x++ {
		if dark(x, y) && !dark(x+1, y) {
			ends = append(ends, x+1)
		}
	}
	require.Len(t, ends, 2)
	require.InEpsilon(t, 1.5*perInch, ends[1]-ends[0], 0.005)
}
