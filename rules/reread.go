package rules

import "fmt"

// Reread is what a decision would be by another interpretation of one criterion.
type Reread struct {
	Result *Result // by that interpretation
	Path   *Path   // nil if that cannot be told
	Waiver bool    // the path would hold only by a waiver
	same   bool    // it is the path decided, and only the waiver differs
}

// rereads decides again for every other interpretation of every criterion, one at a time.
func rereads(b *Book, byPath [][]*Result, at place) []Reread {
	var out []Reread
	for _, results := range byPath {
		for i, decided := range results {
			for k := range decided.Interpretations {
				other := &decided.Interpretations[k]
				for _, way := range other.ways() {
					results[i] = &way
					if p, _ := measuredPlace(byPath); p != at {
						r := Reread{Result: other, Path: b.Paths[p.path], Waiver: p.waiver, same: p.path == at.path}
						if other.Outcome == Unknown {
							r.Path, r.Waiver = nil, false
						}
						out = append(out, r)
						break
					}
				}
			}
			results[i] = decided
		}
	}
	return out
}

// ways are how a result may fall: an unknown one either way.
func (r *Result) ways() []Result {
	if r.Outcome != Unknown {
		return []Result{*r}
	}
	met := *r
	met.Outcome, met.Holds = Meets, true
	return []Result{*r, met}
}

// String says it in one sentence.
func (r Reread) String() string {
	criterion := r.Result.Path.ID + "/" + r.Result.Criterion.ID
	text := fmt.Sprintf("by another interpretation of %s (%s), ", criterion, r.Result.Interpretation.Says)
	switch {
	case r.Path == nil:
		return text + "the path may be another, which cannot be told: " + r.Result.Reason
	case r.Waiver:
		return text + "the path would be " + r.Path.ID + " with a waiver"
	case r.same:
		return text + r.Path.ID + " needs no waiver"
	}
	return text + "the path would be " + r.Path.ID
}
