package rules

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseQuantity(t *testing.T) {
	for _, tt := range []struct {
		text     string
		quantity Quantity
		si       float64
		unit     string
	}{
		// The international foot and what follows from it (85 FR 62698).
		{"10 ft", Length, 3.048, "ft"},
		{"25 ft", Length, 7.62, "ft"},
		{"500ft", Length, 152.4, "ft"},
		{"-0.5 ft", Length, -0.1524, "ft"},
		{"+3 in", Length, 0.0762, "in"},
		{"1 yd", Length, 0.9144, "yd"},
		{"1 mile", Length, 1609.344, "mile"},
		{" 2.5  m ", Length, 2.5, "m"},
		{"0.25 acre", Area, 1011.7141056, "acre"},
		{"1 acre", Area, 4046.8564224, "acre"},
		{"160 sqft", Area, 14.8644864, "sqft"},
		{"3 sqm", Area, 3, "sqm"},
		{"1 cuyd", Volume, 0.764554857984, "cuyd"},
		{"27 cuft", Volume, 0.764554857984, "cuft"},
		{"2 cum", Volume, 2, "cum"},
		{"1 cuyd/ft", VolumePerLength, 2.50838208, "cuyd/ft"},
		{"1.5 cum/m", VolumePerLength, 1.5, "cum/m"},
		{"0.2", Ratio, 0.2, ""},
		{"1/6", Ratio, 1.0 / 6, ""},
		{"1 / 3", Ratio, 1.0 / 3, ""},
		{"16.7 %", Ratio, 0.167, "%"},
		{"25%", Ratio, 0.25, "%"},
		{"3", Count, 3, ""},
	} {
		si, unit, err := parseQuantity(tt.text, tt.quantity)
		require.NoError(t, err, tt.text)
		require.Equal(t, tt.si, si, tt.text)
		require.Equal(t, tt.unit, unit.Name, tt.text)
		require.Equal(t, tt.quantity, unit.Quantity, tt.text)
	}
}

func TestParseQuantityRefuses(t *testing.T) {
	for _, tt := range []struct {
		text     string
		quantity Quantity
		message  string
	}{
		{"10", Length, "a unit is missing: a length is written in ft, in, yd, mile, m"},
		{"10 sqft", Length, `unit "sqft" does not fit: a length is written in ft, in, yd, mile, m`},
		{"10 feet", Length, `unit "feet" does not fit: a length is written in ft, in, yd, mile, m`},
		{"10 ft", Area, `unit "ft" does not fit: an area is written in sqft, acre, sqm`},
		{"10 ft", VolumePerLength, `unit "ft" does not fit: a volume per length is written in cuyd/ft, cum/m`},
		{"10 ft", Ratio, `unit "ft" does not fit a ratio: write a plain number, a fraction such as 1/6, or a number with %`},
		{"3 ft", Count, `a count has no unit, but "ft" follows the number`},
		{"2.5", Count, `"2.5" is not a whole number: a count is 0, 1, 2 and so on`},
		{"-1", Count, `"-1" is not a whole number: a count is 0, 1, 2 and so on`},
		{"1/0", Ratio, `"1/0" divides by zero`},
		{"1/6 ft", Length, `unit "/6 ft" does not fit: a length is written in ft, in, yd, mile, m`},
		{"ten ft", Length, `cannot read "ten ft" as a length: write it as 10 ft`},
		{"NaN ft", Length, `cannot read "NaN ft" as a length: write it as 10 ft`},
		{"1e999999999 ft", Length, `unit "e999999999 ft" does not fit: a length is written in ft, in, yd, mile, m`},
		{"1,000 ft", Length, `unit ",000 ft" does not fit: a length is written in ft, in, yd, mile, m`},
		{"much", Volume, `cannot read "much" as a volume: write it as 12 cuyd`},
		{"much", VolumePerLength, `cannot read "much" as a volume per length: write it as 1 cuyd/ft`},
		{"half", Ratio, `cannot read "half" as a ratio: write it as 0.25, 1/6 or 16.7 %`},
		{"two", Count, `cannot read "two" as a count: write it as 2`},
		{"", Area, `cannot read "" as an area: write it as 160 sqft`},
	} {
		_, _, err := parseQuantity(tt.text, tt.quantity)
		require.EqualError(t, err, tt.message, tt.text)
	}
}

// The quarter acre and its 10,890 square feet must be one number, or the limit
// would be missed by rounding.
func TestUnitsMeetExactly(t *testing.T) {
	acre, _, err := parseQuantity("0.25 acre", Area)
	require.NoError(t, err)
	feet, _, err := parseQuantity("10890 sqft", Area)
	require.NoError(t, err)
	require.Equal(t, acre, feet)
}

func TestUnitFormat(t *testing.T) {
	for _, tt := range []struct {
		unit     string
		quantity Quantity
		si       float64
		text     string
	}{
		{"ft", Length, 3.048, "10 ft"},
		{"ft", Length, 304.8, "1,000 ft"},
		{"ft", Length, 0.3048 * 1234567.891, "1,234,567.89 ft"},
		{"ft", Length, -0.3048 * 0.5, "-0.5 ft"},
		{"ft", Length, -0.0000001, "0 ft"},
		{"acre", Area, 1011.7141056, "0.25 acre"},
		{"sqft", Area, 14.8644864, "160 sq ft"},
		{"cuyd", Volume, 0.764554857984 * 3.1, "3.1 cu yd"},
		{"", Ratio, 1.0 / 6, "0.1667"},
		{"%", Ratio, 0.167, "16.7 %"},
		{"", Count, 2, "2"},
	} {
		unit, ok := FindUnit(tt.unit, tt.quantity)
		require.True(t, ok, tt.unit)
		require.Equal(t, tt.text, unit.Format(tt.si))
	}
	_, ok := FindUnit("ft", Area)
	require.False(t, ok)
	require.Equal(t, "12", Unit{}.Format(12), "a unit that was never read is SI")
}

func TestFromSIUndoesSI(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(units).Draw(t, "unit")
		number := rapid.Float64Range(-1e6, 1e6).Draw(t, "number")
		require.InDelta(t, number, unit.FromSI(number*unit.SI()), 1e-9)
	})
}
