package pages

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// digits writes miles with so many decimals, so that the parts of a whole add up as they are
// printed.
type digits struct{ decimals int }

// digitsFor are enough for a shore of so many miles and for its water bodies: a state is told to
// a tenth of a mile, a county to a hundredth (53 ft), a few miles to a thousandth.
func digitsFor(miles float64) digits {
	switch {
	case miles >= 1000:
		return digits{1}
	case miles >= 10:
		return digits{2}
	}
	return digits{3}
}

// units are miles in the last digit printed.
func (d digits) units(miles float64) int {
	return int(math.Round(miles * math.Pow10(d.decimals)))
}

// parts are the units of the parts of a whole of so many: each the next below, and one more
// for those with the greatest remainders until they add up.
func (d digits) parts(whole int, miles []float64) []int {
	type rest struct {
		of  int
		off float64
	}
	made, rests := make([]int, len(miles)), []rest{}
	left := whole
	for i, m := range miles {
		exact := m * math.Pow10(d.decimals)
		made[i] = int(exact)
		left -= made[i]
		if m > 0 {
			rests = append(rests, rest{i, exact - float64(made[i])})
		}
	}
	slices.SortStableFunc(rests, func(a, b rest) int { return cmp.Compare(b.off, a.off) })
	for i := 0; i < left && len(rests) > 0; i++ {
		made[rests[i%len(rests)].of]++
	}
	for i := len(rests) - 1; i >= 0 && left < 0; i-- { // sums of floating point may end on either side of a digit
		if made[rests[i].of] > 0 {
			made[rests[i].of]--
			left++
		}
	}
	return made
}

// text is units as miles.
func (d digits) text(units int) string {
	if units == 0 {
		return "0"
	}
	return strconv.FormatFloat(float64(units)/math.Pow10(d.decimals), 'f', d.decimals, 64)
}

// tenth is a percentage with one decimal; a part that is not all, or not nothing, is not
// rounded to it.
func tenth(part, whole float64) string {
	if whole == 0 || part == 0 {
		return "0"
	}
	p := 100 * part / whole
	switch {
	case p < 0.05:
		return "under 0.1"
	case p > 99.95 && p < 100:
		return "over 99.9"
	}
	return strconv.FormatFloat(p, 'f', 1, 64)
}
