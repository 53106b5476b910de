package screening

import (
	"cmp"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/out"
)

// What a proposal comes to by all authorities together, to colour a map by. There is no
// score in it: each says what holds of every authority, or of which it does not.
const (
	onEasiest  = "easiest path"
	waiverOnly = "needs a waiver"
	onHarder   = "harder path"
	noResult   = "no result"
	notDecided = "not decided"
)

// overallColumns are what a map labels and colours proposals by.
func overallColumns() []column {
	return []column{
		{"label", func(r *result) out.Cell { return out.Text(r.p.ID + ": " + r.shortly()) }},
		{"outcome", func(r *result) out.Cell { return out.Text(r.outcome()) }},
		{"worst_certainty", func(r *result) out.Cell { return out.Text(string(r.certainty())) }},
		{"blocked_by", func(r *result) out.Cell { return out.Text(r.blocked()) }},
	}
}

// outcome is how far from the easiest path that is for such a structure the proposal comes
// out, by the authority by which that is farthest.
func (r *result) outcome() string {
	switch {
	case r.p.Of.Aside != "":
		return notDecided
	case r.decisions == nil:
		return noResult
	}
	found := onEasiest
	for i := range r.decisions {
		switch d := &r.decisions[i]; {
		case offEasiest(d):
			return onHarder
		case len(d.Waiver) > 0:
			found = waiverOnly
		}
	}
	return found
}

// offEasiest reports whether an easier path is for such a structure, or none but the last, which
// takes all that is left over.
func offEasiest(d *rules.Decision) bool {
	paths := d.Book.Paths
	return len(d.BlockedBy) > len(d.Waiver) || len(paths) > 1 && d.Path == paths[len(paths)-1]
}

// certainties are all there are, the surest first.
var certainties = []rules.Certainty{rules.Firm, rules.CloseCall, rules.NeedsInformation}

// certainty is that of the least sure decision; empty without one.
func (r *result) certainty() rules.Certainty {
	var least rules.Certainty
	for i := range r.decisions {
		if c := r.decisions[i].Certainty; slices.Index(certainties, c) > slices.Index(certainties, least) {
			least = c
		}
	}
	return least
}

// shortly is the result in few words: the paths that are not the easiest, or that all are,
// and how surely.
func (r *result) shortly() string {
	var paths []string
	for i := range r.decisions {
		if d := &r.decisions[i]; offEasiest(d) || len(d.Waiver) > 0 {
			paths = append(paths, d.Book.Authority+" "+pathText(d))
		}
	}
	said := cmp.Or(strings.Join(paths, ", "), r.outcome())
	if c := r.certainty(); c != "" {
		said += "; " + string(c)
	}
	return said
}

// blocked is what keeps the proposal off easier paths, in the words of the books.
func (r *result) blocked() string {
	var made []string
	for i := range r.decisions {
		d := &r.decisions[i]
		var path *rules.Path
		for _, b := range d.BlockedBy {
			if text := blockText(b); b.Path == path {
				made[len(made)-1] += "; " + text
			} else {
				made = append(made, d.Book.Authority+", "+b.Path.Title+": "+text)
			}
			path = b.Path
		}
	}
	return strings.Join(made, " | ")
}

// blockText is a limit that is not kept, or is not known to be.
func blockText(r *rules.Result) string {
	switch {
	case r.Criterion.Evidence == rules.Unread:
		return "limits on " + r.Criterion.Says + " (not read)"
	case r.Outcome == rules.Unknown:
		return r.Criterion.Says + " (not known)"
	}
	return r.Criterion.Says
}
