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
			made = append(made, criterionRow(r.p.Id, d.Book, &d.Results[i]))
			for k := range d.Results[i].Interpretations {
				if other := &d.Results[i].Interpretations[k]; unverified || other.Interpretation.Evidence != rules.Unverified {
					made = append(made, criterionRow(r.p.Id, d.Book, other))
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
		limit = out.Full(roundNoise(d.Unit.FromSI(d.Limit)))
		if r.Value.Unknown == "" && r.Value.Bound == rules.Exact {
			value = out.Full(d.Unit.FromSI(r.Value.Number))
		}
		margin = out.Full(d.Unit.FromSI(r.Margin))
	}
	row := []string{
		id, b.Authority, b.Name, b.Edition, r.Path.ID, c.ID, interpretation, decides, measureText(d), string(d.Comparison),
		value, limit, d.Unit.Symbol, margin, out.Full(r.Tolerance / job.Foot), r.Outcome.String(), r.Reason, r.Change,
		r.Value.Layer, r.Value.Feature, r.Value.Date, cite, string(evidence),
	}
	for i, text := range row {
		if text != "" {
			row[i] = out.Harmless(text)
		}
	}
	return row
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
