package rules

import (
	"math"
	"slices"
)

// restrict takes into account which cases a criterion speaks of. It holds if it
// does not apply or is met: what is sure of that settles it, and otherwise it is
// no surer than what it hangs on.
func (r *Result) restrict(facts Facts) {
	var missed, open, unsure []Result // conditions not met, unknown, met; none for sure
	for _, when := range r.Criterion.When {
		switch w := apply(when, facts); {
		case w.sure() && !w.Holds:
			r.settle(NotApplicable, true, "it applies only where "+when.String())
			return
		case w.Outcome == Unknown:
			open = append(open, w)
		case !w.Holds:
			missed = append(missed, w)
		case !w.sure():
			unsure = append(unsure, w)
		}
	}
	doubts := r.Doubts
	for _, w := range slices.Concat(missed, open, unsure) {
		doubts = union(doubts, w.Doubts)
	}
	switch {
	case r.Holds && r.sure(), len(missed)+len(open)+len(unsure) == 0:
		return
	case r.Holds: // close or doubted, and it stays so whether it applies or not
	case len(missed) > 0:
		r.settle(Close, true, doubt(missed[0]))
	case len(open) > 0:
		r.settle(Unknown, false, doubt(open[0]))
	case r.Outcome == Unknown:
		return
	default:
		r.Outcome, r.Reason = Close, doubt(unsure[0])
	}
	r.Doubts = doubts
}

func doubt(w Result) string {
	return "it applies only where " + w.Demand.String() + ", which is not sure: " + w.reason()
}

// settle replaces the outcome of the comparison by that of the conditions; the
// margin then says nothing.
func (r *Result) settle(outcome Outcome, holds bool, reason string) {
	r.Outcome, r.Holds, r.Reason = outcome, holds, reason
	r.Margin, r.Tolerance, r.Doubts = math.NaN(), math.NaN(), nil
}

// shown reports whether a notice is to be shown: yes if all its conditions hold
// on the measured side, unknown if one cannot be told and none fails.
func (n *Notice) shown(facts Facts) (yes, unknown bool) {
	for _, when := range n.When {
		switch w := apply(when, facts); {
		case w.Outcome == Unknown:
			unknown = true
		case !w.Holds:
			return false, false
		}
	}
	return !unknown, unknown
}

// Answered reports whether what the demand asks for is known.
func (d *Demand) Answered(facts Facts) bool { return apply(d, facts).Outcome != Unknown }
