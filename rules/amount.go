package rules

import (
	"fmt"
	"math"
	"strings"
)

// This file writes the amounts of a change so that doing what is written is enough.

// amount writes how much a value must change, in the trade's unit for it.
func (r *Result) amount(si float64) string {
	strict := r.Demand.Comparison.strict()
	switch r.Measure.Quantity {
	case Area:
		return up(si, sqft, 0, strict)
	case Volume:
		return up(si, cuyd, 1, strict)
	case VolumePerLength:
		return up(si, cuydPerFt, 1, strict)
	case Ratio:
		if r.Demand.Unit.Name == "%" {
			return up(si, r.Demand.Unit, 1, strict)
		}
		return up(si, plainly, 2, strict)
	}
	if unit := r.Demand.Unit; unit.SI() > 100 {
		return up(si, unit, 2, strict) // miles
	}
	return up(si, feet, 1, strict)
}

// openings writes a change in their number.
func (r *Result) openings(count float64) string {
	n := ceiling(count, 1, r.Demand.Comparison.strict())
	if n == 1 {
		return "1 opening"
	}
	return fmt.Sprintf("%.0f openings", n)
}

// noise is what a difference may owe to arithmetic alone, in the unit shown: an
// excess of 0.80000001 ft is mended by 0.8 ft.
const noise = 1e-6

// ceiling rounds up to a whole number of steps, at least one. A strict
// comparison needs the next step where the difference is a whole number of them.
func ceiling(number, step float64, strict bool) float64 {
	steps := math.Ceil((number - noise) / step)
	if strict {
		steps = math.Floor((number+noise)/step) + 1
	}
	return math.Max(steps, 1) * step
}

// up writes a number in SI in the unit, rounded up to the last decimal shown.
func up(si float64, unit Unit, decimals int, strict bool) string {
	return unit.fixed(ceiling(unit.FromSI(si), math.Pow10(-decimals), strict), decimals, false)
}

// down writes a number in SI in the unit, rounded down to a tenth.
func down(si float64, unit Unit, strict bool) string {
	steps := math.Floor((unit.FromSI(si) + noise) * 10)
	if strict {
		steps = math.Ceil((unit.FromSI(si)-noise)*10) - 1
	}
	return unit.fixed(steps/10, 1, false)
}

// tenths writes a measured length to the nearest tenth of a foot.
func tenths(metres float64) string { return feet.fixed(feet.FromSI(metres), 1, false) }

func and(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	last := len(parts) - 1
	return strings.Join(parts[:last], ", ") + " and " + parts[last]
}
