package screening

import (
	"math"
	"strconv"
	"strings"

	"waterward/rules"
)

var criteriaHeader = []string{
	"id", "authority", "book", "edition", "path", "criterion", "measure", "comparison",
	"value", "limit", "unit", "margin", "guard_ft", "result", "reason", "cure",
	"layer", "feature", "date", "citation", "evidence",
}

// criteria are the rows of criteria.csv for one proposal.
func (r *result) criteria() [][]string {
	var out [][]string
	for _, d := range r.decisions {
		for i := range d.Results {
			out = append(out, criterionRow(r.p.id, d.Book, &d.Results[i]))
		}
	}
	return out
}

func criterionRow(id string, b *rules.Book, r *rules.Result) []string {
	c := r.Criterion
	value, limit := "", ""
	switch c.Measure.Quantity {
	case rules.Word:
		value, limit = r.Value.Word, strings.Join(c.Words, "; ")
	case rules.Names:
		limit = strings.Join(c.Words, "; ")
		if r.Outcome != rules.Unknown {
			value = "outside"
			if len(r.Value.Names) > 0 {
				value = strings.Join(r.Value.Names, "; ")
			}
		}
	default:
		limit = formatFull(roundNoise(c.Unit.FromSI(c.Limit)))
		if r.Value.Unknown == "" && r.Value.Bound == rules.Exact {
			value = formatFull(c.Unit.FromSI(r.Value.Number))
		}
	}
	measure := c.Ref.Measure
	if c.Ref.Opening > 0 {
		measure += " (opening " + feetText(c.Ref.Opening) + ")"
	}
	reason := r.Reason
	if len(r.Unstated) > 0 {
		reason = strings.TrimPrefix(reason+"; accuracy not stated: "+strings.Join(r.Unstated, ", "), "; ")
	}
	margin := ""
	if c.Measure.Quantity != rules.Word && c.Measure.Quantity != rules.Names {
		margin = formatFull(c.Unit.FromSI(r.Margin))
	}
	row := []string{
		id, b.Authority, b.Name, b.Edition, r.Path.ID, c.ID, measure, string(c.Comparison),
		value, limit, c.Unit.Symbol, margin, formatFull(r.Guard / foot), r.Outcome.String(), reason, r.Cure,
		r.Value.Layer, r.Value.Feature, r.Value.Date, c.Cite, string(c.Evidence),
	}
	for i, text := range row {
		if text != "" {
			row[i] = harmless(text)
		}
	}
	return row
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
