package pages

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// tables are what stands on the sheets behind the drawings.
func (s *Sheet) tables(d *drawings) []*table {
	made := []*table{s.decided(), s.criteria(), s.asked(), s.figures(), s.unchecked()}
	lengths := &table{Title: "LENGTHS NOT ON THE DRAWINGS", Widths: []float64{sheetWide}}
	if d.unplaced != nil {
		lengths.over("", strings.Join(d.unplaced, "; ")+".")
	}
	notes := &table{Title: "NOTES OF THE DRAWINGS", Widths: []float64{sheetWide}}
	for _, text := range d.notes {
		notes.over("", text)
	}
	return append(made, lengths, notes, s.data(), s.cautions())
}

// decided is what every authority's rules come to.
func (s *Sheet) decided() *table {
	t := &table{Title: "PERMIT PATHS", Widths: []float64{90, 190, 170, 300}, Head: []string{"Authority", "Path", "Certainty", "What keeps it off the easier paths"}}
	if s.Error != "" {
		t.over("No result: ", s.Error)
	}
	for i, d := range s.Decisions {
		a := s.Authorities[i]
		path := ""
		if d.Path >= 0 {
			path = a.Paths[d.Path].Title
		}
		certainty := d.Certainty.String()
		if d.CouldBe != "" {
			could := d.CouldBe
			if k := slices.IndexFunc(a.Paths, func(p Path) bool { return p.ID == could }); k >= 0 {
				could = a.Paths[k].Title
			}
			certainty += "; could be " + could
		}
		certainty += "; rests on " + d.RestsOn
		t.add(cell{Heavy: a.Name}, cell{Heavy: path}, cell{Text: certainty}, cell{Text: capital(keptOff(&d)) + "."})
	}
	return t
}

// keptOff says what keeps a proposal off the easier paths, and what must be waived.
func keptOff(d *Decision) string {
	var paths []string
	counts := map[string]map[string]int{}
	var said []string
	for _, r := range d.Rules {
		switch {
		case r.On && r.Result == "waivable":
			said = append(said, "a waiver is needed: "+strings.TrimSuffix(r.Says, "."))
		case !r.On:
			if counts[r.Path] == nil {
				counts[r.Path] = map[string]int{}
				paths = append(paths, r.Path)
			}
			counts[r.Path][results[r.Result]]++
		}
	}
	for _, path := range paths {
		var parts []string
		for _, word := range slices.Sorted(maps.Keys(counts[path])) {
			parts = append(parts, fmt.Sprintf("%d %s", counts[path][word], strings.ToLower(word)))
		}
		said = append(said, path+": "+strings.Join(parts, ", "))
	}
	switch {
	case said == nil && d.Path == 0:
		return "nothing; it is the easiest path"
	case said == nil:
		return "no easier path is for such a structure"
	}
	return strings.Join(said, "; ")
}

// sentence is a text that ends as one.
func sentence(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?") {
		return text
	}
	return text + "."
}

// results are the outcomes of criteria as a sheet says them.
var results = map[string]string{"meets": "MET", "close": "CLOSE", "exceeds": "NOT MET", "waivable": "NEEDS A WAIVER", "unknown": "NOT KNOWN"}

// A limit of more lines than this in its column, a list of words, stands with the criterion.
const (
	limitWide = 105.0
	longLimit = 3
)

// criteria are the rules that decide, by authority.
func (s *Sheet) criteria() *table {
	t := &table{Title: "CRITERIA THAT DECIDE", Widths: []float64{330, 105, limitWide, 70, 140}, Head: []string{"Criterion", "Measured", "Limit", "May be off", "How the limit is known"}}
	for i, d := range s.Decisions {
		// Those of one path together, the path taken last.
		first := map[string]int{}
		for k, r := range d.Rules {
			if _, known := first[r.Path]; !known {
				first[r.Path] = k
				if r.On {
					first[r.Path] += len(d.Rules)
				}
			}
		}
		all := slices.Clone(d.Rules)
		slices.SortStableFunc(all, func(a, b Rule) int { return first[a.Path] - first[b.Path] })
		path := "-"
		for _, r := range all {
			heading := s.Authorities[i].Name + ", " + r.Path
			if r.On {
				heading += " (the path taken)"
			}
			if heading != path {
				path = heading
				t.over(heading, "")
			}
			says := sentence(capital(r.Says))
			if r.Reason != "" {
				says += " " + sentence(capital(r.Reason))
			}
			if r.Change != "" {
				says += " Change: " + sentence(r.Change)
			}
			limit := dash(r.Limit)
			if (cell{Text: limit}).lines(limitWide) > longLimit {
				says, limit = says+" Limit: "+sentence(limit), "as listed"
			}
			known := r.Evidence
			if r.Cite != "" {
				known = r.Cite + ": " + r.Evidence
			}
			word := results[r.Result]
			if word == "" {
				word = strings.ToUpper(r.Result)
			}
			t.add(cell{word + ". ", says}, cell{Text: dash(r.Value)}, cell{Text: limit}, cell{Text: dash(r.Tolerance)}, cell{Text: known})
		}
	}
	return t
}

func dash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

// asked are the requests, most deciding first.
func (s *Sheet) asked() *table {
	t := &table{Title: "TO BE ASKED FOR", Widths: []float64{sheetWide}}
	for i, q := range s.Requests {
		t.over(fmt.Sprintf("%d. ", i+1), sentence(capital(q.Text))+" For "+q.Authorities+". Then: "+sentence(q.Then))
	}
	return t
}

// unchecked are what must be seen beside the paths: notices, interpretations under which one
// would differ, conditions that no map shows.
func (s *Sheet) unchecked() *table {
	t := &table{Title: "CONDITIONS AND NOTICES", Widths: []float64{sheetWide}}
	told := map[string]bool{}
	for i, d := range s.Decisions {
		name := s.Authorities[i].Name
		for _, text := range d.Open {
			told[name+": "+text] = true
			t.over(name+", otherwise read: ", capital(text))
		}
		if len(d.Unchecked) > 0 {
			t.over(name+", not checked:", "")
		}
		for _, text := range d.Unchecked {
			t.over("", text)
		}
	}
	all := slices.DeleteFunc(slices.Clone(s.Notices), func(text string) bool { return told[text] })
	if len(all) > 0 {
		t.over("Of the site:", "")
	}
	for _, text := range all {
		t.over("", capital(text))
	}
	return t
}

// figures are the numbers of the forms.
func (s *Sheet) figures() *table {
	t := &table{Title: "FIGURES FOR THE FORMS", Widths: []float64{300, 450}, Head: []string{"Of the structure", "As measured, or as the proposal states it"}}
	// In full: title blocks shorten them.
	for _, f := range []Figure{{"Proposal", s.ID}, {"Activity", s.Title.Activity}, {"Waterbody", s.Title.Waterbody}, {"Parcels", s.Title.Parcels}} {
		if f.Value != "" {
			t.add(cell{Text: f.Name}, cell{Text: f.Value})
		}
	}
	for _, f := range s.Figures {
		t.add(cell{Text: f.Name}, cell{Text: f.Value})
	}
	return t
}

// data is what was read.
func (s *Sheet) data() *table {
	t := &table{Title: "DATA", Widths: []float64{120, 280, 90, 110, 150}, Head: []string{"Layer", "File", "Date", "Datum", "SHA-256 begins"}}
	for _, in := range s.Sources {
		sum := in.SHA256
		if len(sum) > 12 {
			sum = sum[:12]
		}
		t.add(cell{Text: in.Role}, cell{Text: in.File}, cell{Text: dash(in.Date)}, cell{Text: dash(in.Datum)}, cell{Text: sum})
	}
	for _, text := range s.Data {
		t.over("Measured to: ", text)
	}
	return t
}

func (s *Sheet) cautions() *table {
	t := &table{Title: "CAUTIONS", Widths: []float64{sheetWide}}
	for _, text := range s.Cautions {
		t.over("", text)
	}
	return t
}
