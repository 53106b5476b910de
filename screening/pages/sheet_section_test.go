package pages

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sectionText is the section of the sheet worked by hand, changed.
func sectionText(change func(*Section)) string {
	s := byHand().Section
	change(&s)
	c, unsaid := s.draw(0, 440, 750, 722)
	return c.SVG() + strings.Join(unsaid, " ")
}

// By hand: 26.2 ft take 1 in = 10 ft across in the 4.40 in there are, with (44 - 26.2) / 3 =
// 5.93 ft left free before; heights from -2 to 2.5 take 1 in = 5 ft up in 1.36 in. So the
// inner toe stands at 92 + (20 + 5.93) x 10, the bed at 440 + 78 + 4.5 x 20.
func TestSectionAsStated(t *testing.T) {
	svg := sectionText(func(*Section) {})
	require.Contains(t, svg, `<path d="M351.33 608L413.33 608L392.33 548L372.33 548L351.33 608" fill="none" stroke="#000" stroke-width="2.76"`)
	for _, words := range []string{"SECTION A-A", "at the farthest toe T, looking east. 1 in = 10 ft across, 1 in = 5 ft up (heights 2 times)", "MHW +2.50", "MLW -0.50", "NAVD88 0.00", "Crest +1.00 as stated, 2.00 wide", "Bed -2.00 as stated", "Ground: not surveyed", "12.00 MHW to MLW", "14.20", "26.20 MHW to farthest toe T", "ft NAVD88"} {
		require.Equal(t, 1, strings.Count(svg, ">"+words+"</text>"), words)
	}
	// Of a slope of 1 on 0.5 the crest is 6.2 - 2 x 0.5 x 3 = 3.2 ft wide.
	svg = sectionText(func(s *Section) { s.CrestWidth, s.Slope = math.NaN(), 0.5 })
	require.Contains(t, svg, `<path d="M351.33 608L413.33 608L398.33 548L366.33 548L351.33 608"`)
}

// What is not stated is said and draws no structure: there is no default.
func TestSectionOfWhatIsNotStated(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		change func(*Section)
		words  []string
	}{
		"no crest":   {func(s *Section) { s.Crest = nan }, []string{"Crest not stated", "Bed -2.00 as stated"}},
		"no bed":     {func(s *Section) { s.Bed = nan }, []string{"Bed not stated", "Crest +1.00 as stated"}},
		"no datum":   {func(s *Section) { s.Datum = "" }, []string{"rest +1.00 as stated, in no stated datum", "bed -2.00 as stated, in no stated datum", "its heights cannot be set against mean high water"}},
		"no plane":   {func(s *Section) { s.High = nan }, []string{"rest +1.00 ft NAVD88 as stated", "its heights cannot be set against mean high water"}},
		"no width":   {func(s *Section) { s.In, s.Out = nan, nan }, []string{"Its width is not stated: no structure is drawn"}},
		"no sides":   {func(s *Section) { s.CrestWidth = nan }, []string{"Neither crest width nor side slope that fits is stated", "Crest +1.00 as stated", "Bed -2.00 as stated"}},
		"too wide":   {func(s *Section) { s.CrestWidth = 6.3 }, []string{"Neither crest width nor side slope that fits is stated"}},
		"too flat":   {func(s *Section) { s.CrestWidth, s.Slope = nan, 2 }, []string{"Neither crest width nor side slope that fits is stated"}},
		"no low":     {func(s *Section) { s.Low = nan }, []string{"Mean low water is not on this section"}},
		"no section": {func(s *Section) { s.Missing = "mean high water is 1,200 ft off" }, []string{"No section: mean high water is 1,200 ft off."}},
		"nothing": {func(s *Section) {
			*s = Section{Looking: "east", Toe: 26.2, ToeText: "26.20", In: 20, Out: 26.2, Crest: nan, Bed: nan, Placed: nan, CrestWidth: nan, Slope: nan, High: nan, LowWater: nan, Low: nan}
		}, []string{"rest not stated", "bed not stated", "its heights cannot be set against mean high water", "mean low water is not on this section"}},
	} {
		t.Run(name, func(t *testing.T) {
			svg := sectionText(c.change)
			var all []string
			for _, m := range regexp.MustCompile(`>([^<]+)</text>`).FindAllStringSubmatch(svg, -1) {
				all = append(all, m[1])
			}
			for _, words := range c.words {
				require.Contains(t, strings.Join(all, " "), words)
			}
			if name != "no low" {
				require.NotContains(t, svg, `stroke-width="0.51"`, "a hatch")
				require.NotRegexp(t, `<path d="M\S+ \S+L\S+ \S+L\S+ \S+L\S+ \S+L\S+ \S+" fill="none" stroke="#000" stroke-width="2.76"`, svg, "a shape")
			}
			require.NotContains(t, svg, "NaN")
		})
	}
}

// A section is drawn as it was however often.
func TestSectionTwice(t *testing.T) {
	s := byHand().Section
	s.Crest = math.NaN()
	first, _ := s.draw(0, 440, 750, 722)
	again, _ := s.draw(0, 440, 750, 722)
	require.Equal(t, first.SVG(), again.SVG())
}

// All that is said in words stands, however much it is.
func TestSectionSaysAll(t *testing.T) {
	var words []string
	svg := sectionText(func(s *Section) {
		for _, w := range []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"} {
			words = append(words, w+" thing that is said for want of a line")
		}
		s.Words, s.Crest, s.Bed, s.In = words, math.NaN(), math.NaN(), math.NaN()
	})
	text := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(svg, " ")
	text = strings.Join(strings.Fields(text), " ")
	for _, w := range words[1:] {
		require.Contains(t, text, w)
	}
	require.Contains(t, text, "no structure is drawn")
}
