package pages

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"waterward/screening/drawing"
)

// boxFeet is a box of a structure.
func boxFeet(number int, left, bottom, right, top float64) Element {
	return Element{Number: number, Areas: []orb.Polygon{{{{left, bottom}, {right, bottom}, {right, top}, {left, top}, {left, bottom}}}}}
}

// byHand is a sheet worked by hand: mean high water along y = 0 with the water to its north,
// mean low water 12 ft off it, and three boxes from 20 to 26.20 ft off, 40, 30 and 39 ft long
// with openings of 5 and 6 ft.
func byHand() *Sheet {
	north, west := orb.Point{0, 1}, orb.Point{-1, 0}
	front := []orb.Point{{-60, 26.2}, {60, 26.2}}
	along := func(kind LengthKind, from, to float64, text, name string) Length {
		return Length{Kind: kind, From: orb.Point{from, 26.2}, To: orb.Point{to, 26.2}, Text: text, Name: name, Away: north, Shape: front}
	}
	tidal := func(x, from, to float64, text, name string) Length {
		return Length{Kind: Distance, From: orb.Point{x, from}, To: orb.Point{x, to}, Text: text, Name: name, Tidal: true}
	}
	return &Sheet{
		Row: Row{
			ID: "P-05", Requests: []Request{{"State the fill.", "state", "state: Exemption if this bears it out"}}, Notices: []string{"a notice"}, Data: []string{"the mean high water line (m) of 2026-05-12"},
			Decisions: []Decision{{RestsOn: "memory", Rules: []Rule{{Path: "Exemption", Says: "No farther than 30 ft", Value: "26.20 ft", Limit: "at most 30 ft", Tolerance: "0.48 ft", Result: "meets", Evidence: "account of the rule", Cite: "Rule 1", On: true}}}},
		},
		Authorities: []Authority{{"state", "State rules", []Path{{"exemption", "Exemption"}, {"permit", "General permit"}}}},
		Title:       TitleBlock{Activity: "Sill, 3 elements", Waterbody: "Teal Sound", Material: "oyster shell", Parcels: "0012", Day: "11/25/2026"},
		Plan: Plan{
			Elements: []Element{boxFeet(1, -60, 20, -20, 26.2), boxFeet(2, -15, 20, 15, 26.2), boxFeet(3, 21, 20, 60, 26.2)},
			Lines: []Course{
				{Kind: HighWater, Names: []string{"MEAN HIGH WATER"}, Lines: [][]orb.Point{{{-2000, 0}, {2000, 0}}}},
				{Kind: LowWater, Names: []string{"MEAN LOW WATER"}, Lines: [][]orb.Point{{{-2000, 12}, {2000, 12}}}},
			},
			Dimensions: []Length{
				along(Overall, -60, 60, "120.00 ft", "Overall length 120.00 ft"),
				along(Along, -60, -20, "40.00 ft", "Element 1 40.00 ft"), along(Along, -15, 15, "30.00 ft", "Element 2 30.00 ft"), along(Along, 21, 60, "39.00 ft", "Element 3 39.00 ft"),
				along(Opening, -20, -15, "5.00 ft", "Opening 5.00 ft"), along(Opening, 15, 21, "6.00 ft", "Opening 6.00 ft"),
				{Kind: Across, From: orb.Point{-60, 20}, To: orb.Point{-60, 26.2}, Text: "6.20 ft", Name: "Width 6.20 ft", Away: west, Shape: []orb.Point{{-60, 20}}},
				tidal(-40, 0, 26.2, "26.20 ft", "Farthest from mean high water 26.20 ft"), tidal(40, 0, 20, "20.00 ft", "Nearest to mean high water 20.00 ft"), tidal(30, 12, 20, "8.00 ft", "Nearest to mean low water 8.00 ft"),
			},
			Cut:    [2]orb.Point{{5, 0}, {5, 26.2}},
			Corner: func(p orb.Point) string { return fmt.Sprintf("%.1f, %.1f", p[0], p[1]) },
			Reach:  1000,
		},
		Section: Section{
			Looking: "east", Oblique: 1, Toe: 26.2, Low: 12, In: 20, Out: 26.2, Crest: 1, Bed: -2, Placed: math.NaN(), CrestWidth: 2, Slope: math.NaN(),
			High: 2.5, LowWater: -0.5, Datum: "NAVD88", ToeText: "26.20",
		},
		Notes:    []string{"Heights in ft NAVD88 as the proposal states them."},
		Figures:  []Figure{{"Overall length, openings included", "120.00 ft"}},
		Sources:  []Source{{Role: "proposals", File: "in/a.geojson", SHA256: "0123456789abcdef"}},
		Cautions: []string{"Screening only."},
	}
}

func pageOf(t testing.TB, s *Sheet) string {
	var b bytes.Buffer
	require.NoError(t, s.Write(&b))
	return b.String()
}

// sheetsIn are the sheets of a page.
func sheetsIn(page string) []string {
	return regexp.MustCompile(`(?s)<section class="sheet".*?</section>`).FindAllString(page, -1)
}

// requireAbsent shows where in a page stands what must not.
func requireAbsent(t *testing.T, page, never string) {
	if i := strings.Index(page, never); i >= 0 {
		require.Fail(t, "it must not stand there", "%q in %q", never, page[max(0, i-60):min(len(page), i+60)])
	}
}

// What sheets may hold: black on white, nothing that prints as a picture or twice, nothing
// that is fetched or runs (Content Security Policy Level 3, W3C).
func TestSheetsAreBlackOnWhiteAndAlone(t *testing.T) {
	page := pageOf(t, byHand())
	for _, never := range []string{"<script", "<pattern", "paint-order", " style=", "<img", "<image", "<link", "<iframe", "@import", "url(", "https:", "opacity", "gradient", "NaN", "Inf"} {
		requireAbsent(t, page, never)
	}
	requireAbsent(t, strings.NewReplacer(`xmlns="http://www.w3.org/2000/svg"`, "", "<meta http-equiv", "").Replace(page), "http")
	require.Equal(t, 1, strings.Count(page, "<style>"))
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`).FindStringSubmatch(page)[1]
	sum := sha256.Sum256([]byte(style))
	require.Contains(t, html.UnescapeString(page), `content="default-src 'none'; style-src 'sha256-`+base64.StdEncoding.EncodeToString(sum[:])+`'; base-uri 'none'; form-action 'none'">`)
	// The desk round the sheets on a screen is no part of them.
	printed := strings.Replace(page, style[strings.Index(style, "@media screen"):], "", 1)
	for _, colour := range regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|rgb\(|hsl\(`).FindAllString(html.UnescapeString(printed), -1) {
		require.Contains(t, []string{"#000", "#fff"}, colour)
	}
	for _, m := range regexp.MustCompile(`(?:fill|stroke)="(.*?)"`).FindAllStringSubmatch(printed, -1) {
		require.Contains(t, []string{"#000", "#fff", "none"}, m[1])
	}
}

// Every length stands once on the drawing, and what is written beside it; none is listed as
// left out.
func TestLengthsStandOnTheDrawing(t *testing.T) {
	s := byHand()
	page := pageOf(t, s)
	first := sheetsIn(page)[0]
	for _, l := range s.Plan.Dimensions {
		require.Equal(t, 1, strings.Count(first, ">"+l.Text+"</text>"), l.Name)
	}
	for _, words := range []string{"MEAN HIGH WATER", "MEAN LOW WATER", "PLAN", "1 in = 20 ft", "SECTION A-A", "VICINITY", "SITE", "N", "T", "P-05", "Teal Sound", notASurvey, "NW corner -75.0, 51.7"} {
		require.Contains(t, first, ">"+words+"</text>")
	}
	require.NotContains(t, page, "LENGTHS NOT ON THE DRAWINGS")
}

// Lengths that find no place are listed by their names, and nothing else is: of a structure so
// full that little does.
func TestLengthsThatFoundNoPlace(t *testing.T) {
	s := byHand()
	s.Plan.Elements, s.Plan.Dimensions = nil, nil
	var names []string
	for i := range 36 {
		x, name := float64(i)*2-36, fmt.Sprintf("Element %d: 1.50 ft", i+1)
		s.Plan.Elements = append(s.Plan.Elements, boxFeet(i+1, x, 20, x+1.5, 26.2))
		names = append(names, name)
		s.Plan.Dimensions = append(s.Plan.Dimensions, Length{Kind: Along, From: orb.Point{x, 26.2}, To: orb.Point{x + 1.5, 26.2}, Text: fmt.Sprintf("1.50 ft %d", i+1), Name: name, Away: orb.Point{0, 1}})
	}
	page := pageOf(t, s)
	table := strings.Join(regexp.MustCompile(`(?s)<h2>LENGTHS NOT ON THE DRAWINGS(?:, continued)?</h2>.*?</table>`).FindAllString(page, -1), "")
	var listed []string
	for _, m := range regexp.MustCompile(`<td>(.*?)</td>`).FindAllStringSubmatch(table, -1) {
		listed = append(listed, strings.Split(strings.TrimSuffix(m[1], "."), "; ")...)
	}
	require.NotEmpty(t, listed)
	require.Subset(t, names, listed)
	for i, name := range names {
		drawn := strings.Count(page, fmt.Sprintf(">1.50 ft %d</text>", i+1))
		require.Equal(t, !slices.Contains(listed, name), drawn == 1, name)
	}
}

// Sheets are numbered through, and say of how many.
func TestSheetsAreNumbered(t *testing.T) {
	long := byHand()
	long.Plan.Elements[2] = boxFeet(3, 300, 20, 340, 26.2) // 400 ft: parts follow
	many := byHand()
	for i := range 300 {
		many.Requests = append(many.Requests, Request{fmt.Sprintf("State thing %d.", i), "state", "state: Exemption"})
	}
	for _, s := range []*Sheet{byHand(), long, many} {
		page := pageOf(t, s)
		all := sheetsIn(page)
		require.Equal(t, strings.Count(page, "<section"), len(all))
		require.Greater(t, len(all), 1)
		drawn := 0
		for i, sheet := range all {
			number := fmt.Sprintf("%d of %d", i+1, len(all))
			require.Contains(t, sheet, `aria-label="Sheet `+number)
			if strings.Contains(sheet, "<svg") {
				require.Equal(t, drawn, i, "drawings come first")
				require.Contains(t, sheet, ">"+number+"</text>")
				require.Equal(t, 1, strings.Count(sheet, notASurvey)+strings.Count(sheet, "MATCH LINE"))
				drawn++
			} else {
				require.Contains(t, sheet, "<small>SHEET</small> "+number)
			}
		}
	}
}

// hostileIn sets every text within a value to the next, but for results and sums, which are
// words of ours.
func hostileIn(v reflect.Value, next func(path string) string, path string) {
	switch v.Kind() {
	case reflect.String:
		if v.CanSet() {
			v.SetString(next(path))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() && v.Type().Field(i).Name != "Result" && v.Type().Field(i).Name != "SHA256" {
				hostileIn(f, next, path+"."+v.Type().Field(i).Name)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			hostileIn(v.Index(i), next, path)
		}
	}
}

// full is the sheet with one of everything that has a text.
func full() *Sheet {
	s := byHand()
	s.Row.Changes, s.Row.Aside, s.Row.Error = []string{""}, "", ""
	s.Decisions[0].Open, s.Decisions[0].Unchecked = []string{""}, []string{""}
	s.Decisions[0].Rules = append(s.Decisions[0].Rules, Rule{}, Rule{})
	s.Plan.Grounds = []Ground{{Kind: Grass, Names: []string{""}, Areas: []orb.Polygon{{{{-20, 40}, {20, 40}, {20, 60}, {-20, 40}}}}}}
	s.Section.Planes = []Level{{"NAVD88", 0}}
	s.Section.Words = []string{""}
	return s
}

// Whatever stands in a text of a file stands on the sheets as text: it becomes no tag and no
// attribute, and what it hides is written out.
func TestHostileTextsStandAsText(t *testing.T) {
	for _, drawn := range []bool{true, false} {
		for shift := range hostile {
			s, n := full(), shift
			hostileIn(reflect.ValueOf(s).Elem(), func(string) string { n++; return hostile[n%len(hostile)] + "\u202e\u2028" }, "")
			s.Plan.Corner = func(orb.Point) string { return hostile[0] }
			if drawn {
				s.Section.Missing = ""
			}
			page := pageOf(t, s)
			require.Equal(t, 1, strings.Count(page, "</style>"))
			for _, never := range []string{"<script", "</script", "<img", "</noscript", "<!--", "' onmouseover", `"><img`, "\u202e", "\u2028"} {
				requireAbsent(t, page, never)
			}
		}
	}
}

// Every text that a sheet is given stands on it, but for those of a row that say where it is
// in files, and those that are said otherwise.
func TestEveryTextStands(t *testing.T) {
	not := []string{".Row.Kind", ".Row.Parcels", ".Row.File", ".Row.Place", ".Row.Aside", ".Row.Changes", ".Authorities.Title", ".Authorities.Paths.ID", ".Row.Sheet"}
	said := map[string]string{}
	for _, drawn := range []bool{true, false} {
		s, n := full(), 0
		marks := map[string][]string{}
		hostileIn(reflect.ValueOf(s).Elem(), func(path string) string {
			n++
			mark := fmt.Sprintf("x%dx", n)
			marks[path] = append(marks[path], mark)
			return mark
		}, "")
		s.Section.Planes[0].Name = "MLLW"
		if drawn {
			s.Section.Missing = ""
		}
		page := pageOf(t, s)
		for path, all := range marks {
			stands := slices.ContainsFunc(all, func(mark string) bool { return strings.Contains(strings.ToLower(page), mark) })
			if stands {
				said[path] = all[0]
			} else if said[path] == "" {
				said[path] = ""
			}
		}
	}
	for path, mark := range said {
		if path == ".Section.Planes.Name" || path == ".Plan.Dimensions.Name" { // named where they are an axis, or left out
			continue
		}
		require.Equal(t, slices.Contains(not, path), mark == "", path)
	}
}

// The whole of what a title block has no room for stands in the figures.
func TestLongTitlesStandInFull(t *testing.T) {
	s := byHand()
	s.ID, s.Title.Waterbody = strings.Repeat("P-05 ", 30)+"end", strings.Repeat("Teal ", 30)+"Sound"
	s.Title.Parcels, s.Title.Activity = strings.Repeat("0012, ", 40)+"0013", strings.Repeat("Sill, ", 40)+"x"
	page := pageOf(t, s)
	text := strings.Join(strings.Fields(regexp.MustCompile(`<.*?>`).ReplaceAllString(page[strings.Index(page, "FIGURES FOR THE FORMS"):], " ")), " ")
	for _, whole := range []string{s.ID, s.Title.Waterbody, s.Title.Parcels, s.Title.Activity} {
		require.Contains(t, text, whole)
	}
}

// The paper has 7.50 - 2 x 0.70 = 6.10 in for a structure to the sides and 3.86 - 2 x 0.80 =
// 2.26 in up and down; by hand, 6.10 in at 10 ft an inch is 61 ft.
func TestScaleOfThePlan(t *testing.T) {
	of := func(wide, high float64) float64 {
		p := Plan{Elements: []Element{boxFeet(1, -wide/2, -high/2, wide/2, high/2)}}
		scale, middle := p.overview(sheetWide, planHigh)
		require.InDelta(t, 0, middle[0], 1e-9)
		require.InDelta(t, 0, middle[1], 1e-9)
		return scale
	}
	for _, c := range []struct{ scale, wide, high, next float64 }{
		{10, 61, 22.6, 20}, {20, 122, 45.2, 30}, {30, 183, 67.8, 40}, {40, 244, 90.4, 50}, {50, 305, 113, 60}, {60, 366, 135.6, 100}, {100, 610, 226, 200},
	} {
		require.Equal(t, c.scale, of(c.wide-0.01, 1))
		require.Equal(t, c.next, of(c.wide+0.01, 1))
		require.Equal(t, c.scale, of(1, c.high-0.01))
		require.Equal(t, c.next, of(1, c.high+0.01))
	}
	require.Equal(t, 10.0, of(0, 0))
	require.Equal(t, 5000.0, of(1e6, 1))
}

// Distances from the tidal lines are always on the plan; others only where that costs no more
// than half the scale, and none that some office asks for.
func TestWhichDistancesSetTheScale(t *testing.T) {
	with := func(tidal bool, long float64) float64 {
		p := Plan{Elements: []Element{boxFeet(1, -20, 0, 20, 5)}, Dimensions: []Length{{Kind: Distance, From: orb.Point{0, 5}, To: orb.Point{0, 5 + long}, Tidal: tidal}}}
		scale, _ := p.overview(sheetWide, planHigh)
		return scale
	}
	require.Equal(t, 20.0, with(true, 40)) // 45 ft of 45.20
	require.Equal(t, 20.0, with(false, 40))
	require.Equal(t, 10.0, with(false, 107)) // 112 ft would take 50, and without it 10 does
	require.Equal(t, 60.0, with(true, 109))  // 114 ft
	require.Equal(t, 10.0, with(false, 109)) // as without it: 40 ft of 61
}

// Up to 1 in = 50 ft there is one plan; beyond, its parts at that scale follow, and say where
// they meet.
func TestPartsFollow(t *testing.T) {
	at := func(long float64) []string {
		s := byHand()
		s.Plan.Elements = []Element{boxFeet(1, 0, 20, long, 26)}
		s.Plan.Dimensions = nil
		return sheetsIn(pageOf(t, s))
	}
	require.Equal(t, 1, strings.Count(strings.Join(at(305), ""), "<svg"))
	all := at(400) // a part is 375 ft wide
	page := strings.Join(all, "")
	require.Equal(t, 3, strings.Count(page, "<svg"))
	require.Contains(t, all[0], "1 in = 100 ft")
	require.Contains(t, all[0], "at 1 in = 50 ft or larger: its")
	require.Contains(t, all[1], ">1 in = 50 ft</text>")
	require.Contains(t, all[1], ">MATCH LINE, SHEET 3</text>")
	require.Contains(t, all[2], ">MATCH LINE, SHEET 2</text>")
	require.Equal(t, 2, strings.Count(page, "MATCH LINE"))
}

// Every place of a structure lies on some part, and no part is empty.
func TestPartsCoverTheStructure(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	const wide, high = sheetWide * smallestPlan / drawing.Inch, (sheetHigh - stripHigh - titleHigh) * smallestPlan / drawing.Inch
	for range 200 {
		p, spread := Plan{}, 100+r.Float64()*3000
		for i := range 1 + r.IntN(20) {
			x, y := (r.Float64()-0.5)*spread, (r.Float64()-0.5)*spread
			p.Elements = append(p.Elements, boxFeet(i+1, x, y, x+5+r.Float64()*400, y+5+r.Float64()*30))
		}
		parts := p.parts(smallestPlan, sheetWide, sheetHigh-stripHigh-titleHigh)
		in := func(at, middle orb.Point) bool {
			return math.Abs(at[0]-middle[0]) <= wide/2 && math.Abs(at[1]-middle[1]) <= high/2
		}
		for _, e := range p.Elements {
			for _, at := range e.Areas[0][0] {
				require.True(t, slices.ContainsFunc(parts, func(m orb.Point) bool { return in(at, m) }))
			}
		}
		for _, m := range parts {
			require.True(t, slices.ContainsFunc(p.Elements, func(e Element) bool {
				b := e.Areas[0].Bound()
				return b.Min[0] <= m[0]+wide/2 && b.Max[0] >= m[0]-wide/2 && b.Min[1] <= m[1]+high/2 && b.Max[1] >= m[1]-high/2
			}))
		}
	}
}

// What is empty is drawn as far as it goes.
func TestNothingIsKnown(t *testing.T) {
	nan := math.NaN()
	empty := &Sheet{Row: Row{ID: "P-1"}, Section: Section{Missing: "mean high water is not mapped here"}}
	require.Contains(t, pageOf(t, empty), "No section: mean high water is not mapped here.")
	bare := byHand()
	bare.Section = Section{Looking: "east", In: nan, Out: nan, Crest: nan, Bed: nan, Placed: nan, CrestWidth: nan, Slope: nan, High: nan, LowWater: nan, Low: nan, ToeText: "0.00"}
	bare.Plan.Elements = []Element{{Number: 1, Lines: [][]orb.Point{{{-60, 20}, {60, 20}}}}, {Number: 2, Lines: [][]orb.Point{{}}}, {Number: 3, Areas: []orb.Polygon{nil, {{}}}}}
	page := pageOf(t, bare)
	require.NotContains(t, page, "NaN")
	require.Contains(t, page, "Its width is not stated: no structure is drawn")
}

var textElement = regexp.MustCompile(`<text x="(\S+)" y="(\S+)" text-anchor="(\S+)" font-size="(\S+)"( font-weight="700")?(?: transform="rotate\((\S+) \S+ \S+\)")?>(.*?)</text>`)

// On no drawing do words cover others, or leave the frame, whichever part of the sheet they
// are of: the boxes of their capitals, read from the page. Slanted words are left out here.
func TestNoWordsCoverOthers(t *testing.T) {
	nan := math.NaN()
	number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
	for name, change := range map[string]func(*Sheet){
		"as it is": func(*Sheet) {},
		"parts":    func(s *Sheet) { s.Plan.Elements[2] = boxFeet(3, 300, 20, 340, 26.2) },
		"words": func(s *Sheet) {
			s.Section.Crest, s.Section.Bed, s.Section.Low, s.Section.CrestWidth = nan, nan, nan, nan
			s.Section.Words = []string{strings.Repeat("said for want of a line ", 4)}
		},
		"close levels": func(s *Sheet) {
			s.Section.High, s.Section.LowWater, s.Section.Crest, s.Section.Bed = 0.05, -0.05, 0.5, -0.5
		},
		"planes": func(s *Sheet) { s.Section.Datum, s.Section.Planes = "MLLW", []Level{{"NAVD88", 1.5}} },
		"far":    func(s *Sheet) { s.Section.Toe, s.Section.In, s.Section.Out = 900, 893.8, 900 },
		"long names": func(s *Sheet) {
			s.ID, s.Title.Waterbody, s.Title.Day = strings.Repeat("W", 60), strings.Repeat("W", 60), strings.Repeat("W", 60)
			s.Notes = []string{strings.Repeat("W", 600)}
			s.Section.Looking, s.Section.Datum = "southwest", "NAVD88"
		},
		"many notes": func(s *Sheet) {
			s.Notes = slices.Repeat([]string{"Heights in ft NAVD88 as the proposal states them."}, 40)
		},
		"far off": func(s *Sheet) { s.Plan.Elements = []Element{boxFeet(1, -4000, 20, 4000, 26.2)} },
		"corners": func(s *Sheet) {
			s.Plan.Corner = func(orb.Point) string { return "30.123456 N, 179.123456 W, NAD83(2011)" }
		},
	} {
		s := byHand()
		change(s)
		for i, sheet := range sheetsIn(pageOf(t, s)) {
			var words []string
			var boxes []orb.Bound
			for _, m := range textElement.FindAllStringSubmatch(sheet, -1) {
				text := html.UnescapeString(m[7])
				x, y, size, turn := number(m[1]), number(m[2]), number(m[4]), number(m[6])
				wide, high := drawing.Width(text, size, m[5] != ""), 0.716*size
				left := map[string]float64{"start": 0, "middle": -wide / 2, "end": -wide}[m[3]]
				b := orb.Bound{Min: orb.Point{x + left, y - high}, Max: orb.Point{x + left + wide, y}}
				switch turn {
				case 0:
				case -90:
					b = orb.Bound{Min: orb.Point{x - high, y - left - wide}, Max: orb.Point{x, y - left}}
				default:
					continue
				}
				require.GreaterOrEqual(t, min(b.Min[0], b.Min[1]), 0.0, "%s, sheet %d: %s", name, i+1, text)
				require.LessOrEqual(t, b.Max[0], sheetWide, "%s, sheet %d: %s", name, i+1, text)
				require.LessOrEqual(t, b.Max[1], sheetHigh, "%s, sheet %d: %s", name, i+1, text)
				for k, o := range boxes {
					over := b.Min[0] < o.Max[0] && o.Min[0] < b.Max[0] && b.Min[1] < o.Max[1] && o.Min[1] < b.Max[1]
					if over {
						t.Errorf("%s, sheet %d: %q covers %q", name, i+1, text, words[k])
					}
				}
				words, boxes = append(words, text), append(boxes, b)
			}
		}
	}
}

// BenchmarkSheet: 600 elements over 7,200 ft, so 20 parts, beside two shores of 5,000 places.
func BenchmarkSheet(b *testing.B) {
	s := byHand()
	s.Plan.Elements, s.Plan.Dimensions = nil, nil
	for i := range 600 {
		x := float64(i)*12 - 3600
		s.Plan.Elements = append(s.Plan.Elements, boxFeet(i+1, x, 20, x+8, 26))
		s.Plan.Dimensions = append(s.Plan.Dimensions, Length{Kind: Along, From: orb.Point{x, 26}, To: orb.Point{x + 8, 26}, Text: "8.00 ft", Name: fmt.Sprintf("Element %d 8.00 ft", i+1), Away: orb.Point{0, 1}})
	}
	for k := range s.Plan.Lines {
		var line []orb.Point
		for i := range 5000 {
			line = append(line, orb.Point{float64(i)*2 - 5000, float64(k)*12 + 2*math.Sin(float64(i)/3)})
		}
		s.Plan.Lines[k].Lines = [][]orb.Point{line}
	}
	for b.Loop() {
		b.ReportMetric(float64(len(pageOf(b, s))), "bytes")
	}
}
