package levels

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawn reads a chart strictly and returns its texts and elements.
func drawn(t require.TestingT, table *ExposureTable) (texts []string, elements map[string]int, raw string) {
	var page bytes.Buffer
	require.NoError(t, table.Chart(&page))
	raw, elements = page.String(), map[string]int{}
	dec, inText := xml.NewDecoder(strings.NewReader(raw)), false
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return texts, elements, raw
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			elements[token.Name.Local]++
			inText = token.Name.Local == "text"
		case xml.EndElement:
			inText = false
		case xml.CharData:
			if inText {
				texts = append(texts, string(token))
			}
		}
	}
}

// The demo county's station, in feet.
func tealSound() *Station {
	s := &Station{ID: "TS-01", Name: "Teal Sound", Epoch: Epoch{1983, 2001}, Source: "invented", Datums: map[Datum]float64{}}
	for d, feet := range map[Datum]float64{STND: 0, NAVD88: 6, MHHW: 6.9, MHW: 6.62, DTL: 5.79, MTL: 5.72, MSL: 5.7, MLW: 4.82, MLLW: 4.68} {
		s.Datums[d] = Feet.Metres(feet)
	}
	return s
}

// Worked by hand: between MLLW at 5.7 % and MLW at 13 %, 0.14 ft apart, 10 % lies
// 0.14 x 4.3 / 7.3 = 0.0825 ft above MLLW; between MLW and MSL at 49 %, 0.88 ft
// apart, 20 % lies 0.88 x 7 / 36 = 0.1711 ft above MLW.
func TestChartShowsSiteBandsAndCrest(t *testing.T) {
	table, err := tealSound().RoughTable(MixedSemidiurnal, Asked{Crest: &Mark{"-1.0 ft", Feet.Metres(-1), NAVD88}})
	require.NoError(t, err)
	texts, elements, raw := drawn(t, table)
	for _, want := range []string{
		"Time exposed to air at station TS-01 Teal Sound",
		"Approximate, from tidal datums only, tide mixed, mainly semidiurnal, good to 10 points",
		"Crest -1.0 ft above NAVD88: exposed about 20.4 % of the time, best growth", // 13 + 36 x 0.18 / 0.88 = 20.36
		"MHHW 0.90 ft (0.274 m)", "MHW 0.62 ft (0.189 m)", "MLLW -1.32 ft (-0.402 m)", "crest -1.00 ft (-0.305 m)",
		"low margin: 10 to 20 %, -1.24 to -1.01 ft", "55",
		"Elevation, ft above NAVD88",
	} {
		require.Contains(t, texts, want)
	}
	whole := strings.Join(texts, " ")
	for _, want := range []string{"Source: invented.", "epoch 1983-2001", "common practice, no source", "Restricted lagoons", "Live oysters", "no legal line", "decides no limit"} {
		require.Contains(t, whole, want)
	}
	require.Equal(t, 1, elements["circle"])
	require.NotContains(t, raw, "NaN")
}

func TestChartOfADiurnalTideKnowsNoTenPercent(t *testing.T) {
	table, err := tealSound().RoughTable(Diurnal, Asked{Crest: &Mark{"2 ft", Feet.Metres(2), NAVD88}})
	require.NoError(t, err)
	require.True(t, math.IsNaN(float64(table.Targets[0].Metres)))
	texts, elements, raw := drawn(t, table)
	require.NotContains(t, raw, "NaN")
	require.Zero(t, elements["circle"])
	whole := strings.Join(texts, " ")
	require.NotContains(t, whole, "low margin")
	require.Contains(t, whole, "best growth: 20 to 40 %")
	require.Contains(t, whole, "unknown, the elevation is above MHHW")
}

// A name out of a file is text and nothing else, whatever it holds.
func TestChartTakesNamesAsText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := tealSound()
		s.Name = "<script>alert(1)</script>" + rapid.String().Draw(t, "name")
		s.Source = rapid.String().Draw(t, "source") + `]]><a href="x" onload='y'>&`
		table, err := s.RoughTable(Semidiurnal, Asked{})
		require.NoError(t, err)
		_, elements, raw := drawn(t, table)
		require.Zero(t, elements["script"]+elements["a"])
		require.NotContains(t, raw, "<script")
	})
}

// Whatever the record and the crest, all numbers of a chart are numbers and
// every text stands within it.
func TestChartOfAnyRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		level := rapid.Float64Range(-50, 50)
		s := &Series{Datum: MSL, Step: time.Duration(rapid.IntRange(1, 60).Draw(t, "minutes")) * time.Minute, Levels: rapid.SliceOfN(level, 2, 50).Draw(t, "levels")}
		table, err := s.ExposureTable("x", nil, Asked{Crest: &Mark{"a crest", level.Draw(t, "crest"), MSL}})
		require.NoError(t, err)
		_, _, raw := drawn(t, table)
		require.NotContains(t, raw, "NaN")
		require.NotContains(t, raw, "Inf")
		for _, line := range strings.Split(raw, "\n") {
			var x, y float64
			if n, _ := fmt.Sscanf(line, `<text x="%f" y="%f"`, &x, &y); n == 2 {
				require.True(t, x >= 0 && x < chartWidth && y >= 0 && y < plotBottom+400, line)
			}
		}
	})
}

// A property: labels keep the order of their levels and a line between them, and
// stay in the plot.
func TestLabelsFindRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var labels []label
		for range rapid.IntRange(1, 10).Draw(t, "count") {
			labels = append(labels, label{y: rapid.Float64Range(plotTop-50, plotBottom+50).Draw(t, "y")})
		}
		placed := spread(labels, labelApart, plotTop, plotBottom)
		require.Len(t, placed, len(labels))
		for k, l := range placed {
			require.True(t, l.at >= plotTop-1e-9 && l.at <= plotBottom+1e-9)
			if k > 0 {
				require.GreaterOrEqual(t, l.y, placed[k-1].y)
				require.GreaterOrEqual(t, l.at-placed[k-1].at, labelApart-1e-9)
			}
		}
	})
	// Worked by hand: two on one level move half a line each; a third far off stays.
	placed := spread([]label{{y: 200}, {y: 300}, {y: 200}}, 20, 0, 400)
	require.Equal(t, []float64{190, 210, 300}, []float64{placed[0].at, placed[1].at, placed[2].at})
	placed = spread([]label{{y: 200}, {y: 200}, {y: 200}}, 20, 0, 400)
	require.Equal(t, []float64{180, 200, 220}, []float64{placed[0].at, placed[1].at, placed[2].at})
}

// Worked by hand on a plot of 480 units for 4.8 m: a metre is 100. A band from 1
// to 2 m has its middle at 1.5 m, where the crest lies, so its label moves the 12
// units that clear it; one the crest does not touch stays.
func TestBandNamesStandClearOfTheCrest(t *testing.T) {
	c := &chart{t: &ExposureTable{Crest: &CrestRow{ExposureRow: ExposureRow{Height: height(1.5, MSL)}}}, low: 0, high: 4.8}
	require.InDelta(t, 12, math.Abs(c.clear(c.y(1), c.y(2))-c.y(1.5)), 1e-9)
	require.InDelta(t, c.y(2.5), c.clear(c.y(2), c.y(3)), 1e-9)
}

func TestRoundSteps(t *testing.T) {
	for least, want := range map[float64]float64{0.11: 0.2, 0.9: 1, 1: 1, 2.1: 5, 5.1: 10, 0.051: 0.1} {
		require.InDelta(t, want, roundStep(least), 1e-12)
	}
}

func TestWrappedAndShortened(t *testing.T) {
	require.Equal(t, []string{"a bb", "ccc d"}, wrapped("a bb  ccc d", 5))
	require.Equal(t, []string{"ab..."}, wrapped("abcdefgh", 5))
	require.Equal(t, "größe", shortened("größe", 5))
}
