package screening

import (
	"math"
	"strconv"
	"strings"

	"waterward/rules"
	"waterward/screening/job"
	"waterward/screening/out"
)

var criteriaHeader = []string{
	"id", "authority", "book", "edition", "path", "criterion", "interpretation", "decides", "measure", "comparison",
	"value", "limit", "unit", "margin", "tolerance_ft", "result", "reason", "change",
	"layer", "feature", "date", "citation", "evidence",
}

// criteria are the rows of criteria.csv for one proposal: for each criterion the
// interpretation that decides, then its other interpretations, the unverified only if asked for.
func (r *result) criteria(unverified bool) [][]string {
	var made [][]string
	for _, d := range r.decisions {
		for i := range d.Results {
			made = append(made, criterionRow(r.p.ID, d.Book, &d.Results[i]))
			for k := range d.Results[i].Interpretations {
				if other := &d.Results[i].Interpretations[k]; unverified || other.Interpretation.Evidence != rules.Unverified {
					made = append(made, criterionRow(r.p.ID, d.Book, other))
				}
			}
		}
	}
	return made
}

func criterionRow(id string, b *rules.Book, r *rules.Result) []string {
	c, d := r.Criterion, r.Demand
	interpretation, decides, cite, evidence := c.Interpretation, "yes", c.Cite, c.Evidence
	if r.Interpretation != nil {
		interpretation, decides, cite, evidence = r.Interpretation.ID+": "+r.Interpretation.Says, "no", r.Interpretation.Cite, r.Interpretation.Evidence
	}
	value, limit, margin := "", "", ""
	switch r.Measure.Quantity {
	case rules.Word:
		value, limit = r.Value.Word, strings.Join(d.Words, "; ")
	case rules.Names:
		limit = strings.Join(d.Words, "; ")
		if r.Outcome != rules.Unknown && r.Value.Unknown == "" {
			value = "outside"
			if len(r.Value.Names) > 0 {
				value = strings.Join(r.Value.Names, "; ")
			}
		}
	default:
		decimals := decimalsOf(d.Unit, d.Unit.FromSI(r.Margin))
		if limit = out.Full(roundNoise(d.Unit.FromSI(d.Limit))); d.Comparison == "" {
			limit = "" // of a limit that nobody has read
		} else if len(limit) > longestLimit {
			limit = out.Number(d.Unit.FromSI(d.Limit), decimals).Table // a third, say
		}
		if r.Value.Unknown == "" && r.Value.Bound == rules.Exact {
			value = out.Number(d.Unit.FromSI(r.Value.Number), decimals).Table
		}
		margin = out.Number(d.Unit.FromSI(r.Margin), decimals).Table
	}
	row := []string{
		id, b.Authority, b.Name, b.Edition, r.Path.ID, c.ID, interpretation, decides, measureText(d), string(d.Comparison),
		value, limit, d.Unit.Symbol, margin, out.Number(r.Tolerance/job.Foot, decimalsOf(feet, r.Tolerance/job.Foot)).Table, r.Outcome.String(), r.Reason, r.Change,
		r.Value.Layer, r.Value.Feature, r.Value.Date, cite, string(evidence),
	}
	row[0] = out.ID(id).Table
	for i := 1; i < len(row); i++ {
		row[i] = out.Harmless(row[i])
	}
	return row
}

// feet is the unit of tolerances.
var feet, _ = rules.FindUnit("ft", rules.Length)

// longestLimit is how long the digits of a limit are that a book writes out.
const longestLimit = 9

// mostDecimals are more than any unit of a limit is measured to.
const mostDecimals = 9

// decimalsOf is to how many decimals of a unit a value is good: two, as positions are to a
// hundredth of a foot, of shares, miles and acres four; and so many more that what it
// differs by from a limit does not read as nothing.
func decimalsOf(u rules.Unit, differs float64) int {
	decimals := 2
	if u.SI() > 100 || u.Quantity == rules.Ratio && u.Symbol == "" {
		decimals = 4
	}
	for differs != 0 && decimals < mostDecimals && math.Abs(differs) < 0.5*math.Pow10(-decimals) {
		decimals++
	}
	return decimals
}

// measureText is what a demand compares, with its parameters.
func measureText(d *rules.Demand) string {
	if len(d.Others) > 0 {
		var names []string
		for _, in := range d.Inputs() {
			names = append(names, in.Ref.Measure)
		}
		return string(d.Pick) + " (" + strings.Join(names, ", ") + ")"
	}
	var with []string
	if d.Ref.Opening > 0 {
		with = append(with, "opening "+job.FeetText(d.Ref.Opening))
	}
	if d.Ref.Every > 0 {
		with = append(with, "every "+job.FeetText(d.Ref.Every))
	}
	if len(with) == 0 {
		return d.Ref.Measure
	}
	return d.Ref.Measure + " (" + strings.Join(with, ", ") + ")"
}

// roundNoise takes the last digits that unit conversion leaves off a limit, so
// that 30 ft reads 30.
func roundNoise(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if err != nil || math.IsNaN(r) {
		return v
	}
	return r
}
