package levels

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

const checks = "../../testdata/levels/"

func readTable(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(checks + name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func atof(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// Source: the tables of equilibrium arguments and node factors that congen made
// for Debian's xtide-data 20191229, all 37 constituents in 16 years.
func TestEquilibriumArgumentsAndNodeFactors(t *testing.T) {
	const (
		argumentTolerance = 0.007  // degrees: half of the last digit, 0.005, and the rounded constants of nu and xi
		factorTolerance   = 0.0002 // the last digit of the constants of the formulae; OO1, the smallest, needs it all
	)
	rows := readTable(t, "schureman_v0u_f.csv")
	require.Len(t, rows, 37*16)
	worstArgument, worstFactor := 0.0, 0.0
	for _, row := range rows {
		c := findConstituent(row[0])
		require.NotNil(t, c, row[0])
		year, err := strconv.Atoi(row[1])
		require.NoError(t, err)
		newYear := time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC)
		n := nodeAt(midYear(newYear))
		off := math.Remainder(c.argument(longitudesAt(newYear))+c.shift(n)-atof(t, row[2]), 360)
		require.InDelta(t, 0, off, argumentTolerance, "V0+u of %s in %d", c.name, year)
		require.InDelta(t, atof(t, row[3]), c.factor(n), factorTolerance, "f of %s in %d", c.name, year)
		worstArgument = math.Max(worstArgument, math.Abs(off))
		worstFactor = math.Max(worstFactor, math.Abs(c.factor(n)-atof(t, row[3])))
	}
	t.Logf("worst V0+u %.4f degrees, worst f %.5f", worstArgument, worstFactor)
}

// Source: ACES User's Guide (1992), US Army Engineer Waterways Experiment
// Station, pp. 1-4-6 to 1-4-8: 25 constituents with local epochs, 12 heights.
// The guide counts V at the start and takes f and u at the middle of the
// record; a local epoch kappa is kappa + p L at Greenwich, L being degrees west
// and p the cycles a day.
func TestPublishedPrediction(t *testing.T) {
	const tolerance = 0.005 // ft: half of the last digit printed
	raw, err := os.ReadFile(checks + "aces_tide_example.json")
	require.NoError(t, err)
	var example struct {
		Longitude    float64      `json:"gage_longitude_deg_west"`
		Mean         float64      `json:"mean_level_ft_above_datum"`
		Constituents [][]any      `json:"constituents_ft_deg"`
		Expected     [][2]float64 `json:"expected_ft"`
	}
	require.NoError(t, json.Unmarshal(raw, &example))
	var given []Constituent
	for _, c := range example.Constituents {
		name := c[0].(string)
		perDay := findConstituent(name).multiples[sunHour]
		given = append(given, Constituent{name, c[1].(float64), c[2].(float64) + perDay*example.Longitude})
	}
	require.Len(t, given, 25)
	tide, err := newTide(given, example.Mean)
	require.NoError(t, err)
	start := time.Date(1989, 1, 10, 15, 0, 0, 0, time.UTC) // 10:00 in the zone of 75 W
	middle := nodeAt(start.Add(60 * time.Hour))
	require.Len(t, example.Expected, 12)
	worst := 0.0
	for _, e := range example.Expected {
		at := start.Add(time.Duration(e[0] * float64(time.Hour)))
		level := tide.level(at, middle)
		require.InDelta(t, e[1], level, tolerance, "%g h", e[0])
		worst = math.Max(worst, math.Abs(level-e[1]))
	}
	t.Logf("worst %.4f ft", worst)
}
