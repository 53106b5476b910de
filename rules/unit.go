package rules

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"
)

// Unit is a unit a book may write a limit in.
type Unit struct {
	Name     string // as books write it: "sqft"
	Symbol   string // as sentences write it: "sq ft"; empty for ratios and counts
	Quantity Quantity
	exact    *big.Rat // one of it in SI
	si       float64  // the same, rounded
}

// The international foot is 0.3048 m exactly (85 FR 62698); all the others
// follow from it: 1 acre = 43,560 sq ft, 1 cu yd = 27 cu ft, so 1 cu yd per ft
// is 27 sq ft.
var (
	feet      = newUnit("ft", "ft", Length, 3048, 10_000)
	sqft      = newUnit("sqft", "sq ft", Area, 9_290_304, 100_000_000)
	cuyd      = newUnit("cuyd", "cu yd", Volume, 764_554_857_984, 1_000_000_000_000)
	cuydPerFt = newUnit("cuyd/ft", "cu yd/ft", VolumePerLength, 250_838_208, 100_000_000)
	plainly   = newUnit("", "", Ratio, 1, 1)

	units = []Unit{
		feet,
		newUnit("in", "in", Length, 254, 10_000),
		newUnit("yd", "yd", Length, 9144, 10_000),
		newUnit("mile", "mile", Length, 1_609_344, 1000),
		newUnit("m", "m", Length, 1, 1),
		sqft,
		newUnit("acre", "acre", Area, 40_468_564_224, 10_000_000),
		newUnit("sqm", "sq m", Area, 1, 1),
		cuyd,
		newUnit("cuft", "cu ft", Volume, 28_316_846_592, 1_000_000_000_000),
		newUnit("cum", "cu m", Volume, 1, 1),
		cuydPerFt,
		newUnit("cum/m", "cu m/m", VolumePerLength, 1, 1),
		plainly,
		newUnit("%", "%", Ratio, 1, 100),
		newUnit("", "", Count, 1, 1),
	}
)

func newUnit(name, symbol string, quantity Quantity, over, under int64) Unit {
	exact := big.NewRat(over, under)
	si, _ := exact.Float64()
	return Unit{Name: name, Symbol: symbol, Quantity: quantity, exact: exact, si: si}
}

// FindUnit returns the unit that books write by that name for that quantity.
func FindUnit(name string, quantity Quantity) (Unit, bool) {
	for _, u := range units {
		if u.Name == name && u.Quantity == quantity {
			return u, true
		}
	}
	return Unit{}, false
}

// SI is how much one of the unit is in SI.
func (u Unit) SI() float64 {
	if u.exact == nil {
		return 1
	}
	return u.si
}

// FromSI converts a number in SI (metres and their powers) to the unit.
func (u Unit) FromSI(si float64) float64 { return si / u.SI() }

// Format writes a number in SI as a person reads it: "1,000 ft", "0.25 acre",
// with at most two decimals, four for a ratio, an acre and a mile.
func (u Unit) Format(si float64) string {
	decimals := 2
	if u.SI() > 100 || u.Quantity == Ratio && u.Symbol == "" {
		decimals = 4
	}
	return u.fixed(u.FromSI(si), decimals, true)
}

// noLess writes a number so that what is not zero does not read as zero.
func (u Unit) noLess(number float64) string {
	if shown := u.Format(number); shown != u.Format(0) {
		return shown
	}
	return u.fixed(0.01, 2, true)
}

// fixed writes a number already in the unit; trim drops trailing zeros.
func (u Unit) fixed(number float64, decimals int, trim bool) string {
	text := strconv.FormatFloat(math.Abs(number), 'f', decimals, 64)
	if trim && strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	whole, fraction, hasFraction := strings.Cut(text, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if hasFraction {
		whole += "." + fraction
	}
	if number < 0 && strings.Trim(text, "0.") != "" {
		whole = "-" + whole
	}
	if u.Symbol == "" {
		return whole
	}
	return whole + " " + u.Symbol
}

// Twelve digits each side are more than any limit needs, and keep a book from
// making the reader build enormous numbers.
var (
	decimal  = regexp.MustCompile(`^([+-]?[0-9]{1,12}(?:\.[0-9]{1,12})?)\s*(.*)$`)
	fraction = regexp.MustCompile(`^[0-9]{1,12}\s*/\s*[0-9]{1,12}$`)
)

// parseQuantity reads "10 ft", "1/6", "16.7 %" or "3" as a number in SI, rounded
// once, so that 10890 sqft and 0.25 acre are the same number.
func parseQuantity(text string, quantity Quantity) (si float64, unit Unit, err error) {
	text = strings.TrimSpace(text)
	if quantity == Ratio && fraction.MatchString(text) {
		over, under, _ := strings.Cut(text, "/")
		if strings.Trim(under, " 0") == "" {
			return 0, Unit{}, fmt.Errorf("%q divides by zero", text)
		}
		si, err = exactly(strings.TrimSpace(over)+"/"+strings.TrimSpace(under), plainly)
		return si, plainly, err
	}
	parts := decimal.FindStringSubmatch(text)
	if parts == nil {
		return 0, Unit{}, fmt.Errorf("cannot read %q as %s: write it as %s", text, quantity.one(), exampleOf(quantity))
	}
	if rest := parts[2]; rest != "" && strings.ContainsRune("0123456789.", rune(rest[0])) {
		return 0, Unit{}, fmt.Errorf("%.40q has more digits than any limit needs: give at most 12 on each side of the point", text)
	}
	unit, ok := FindUnit(parts[2], quantity)
	if !ok {
		return 0, Unit{}, unitError(parts[2], quantity)
	}
	si, err = exactly(parts[1], unit)
	if err == nil && quantity == Count && (si < 0 || si != math.Trunc(si)) {
		err = fmt.Errorf("%q is not a whole number: a count is 0, 1, 2 and so on", text)
	}
	return si, unit, err
}

// exactly converts a number or a fraction to SI with a single rounding.
func exactly(number string, unit Unit) (si float64, err error) {
	r, ok := new(big.Rat).SetString(number)
	if !ok {
		return 0, fmt.Errorf("cannot read %q as a number", number)
	}
	si, _ = r.Mul(r, unit.exact).Float64()
	return si, nil
}

func unitError(name string, quantity Quantity) error {
	var fitting []string
	for _, u := range units {
		if u.Quantity == quantity && u.Name != "" {
			fitting = append(fitting, u.Name)
		}
	}
	switch {
	case quantity == Count:
		return fmt.Errorf("a count has no unit, but %q follows the number", name)
	case quantity == Ratio:
		return fmt.Errorf("unit %q does not fit a ratio: write a plain number, a fraction such as 1/6, or a number with %%", name)
	case name == "":
		return fmt.Errorf("a unit is missing: %s is written in %s", quantity.one(), strings.Join(fitting, ", "))
	}
	return fmt.Errorf("unit %q does not fit: %s is written in %s", name, quantity.one(), strings.Join(fitting, ", "))
}

func exampleOf(quantity Quantity) string {
	switch quantity {
	case Area:
		return "160 sqft"
	case Volume:
		return "12 cuyd"
	case VolumePerLength:
		return "1 cuyd/ft"
	case Ratio:
		return "0.25, 1/6 or 16.7 %"
	case Count:
		return "2"
	}
	return "10 ft"
}
