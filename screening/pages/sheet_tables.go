package pages

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"waterward/screening/drawing"
)

// What stands on a sheet beside drawings stands in tables whose rows are measured before they
// are set, so that the sheets can be numbered: letters of 8.5 points, in hundredths of an
// inch.
const (
	tableSize  = 8.5 / 72 * drawing.Inch
	tableLine  = 10.6 / 72 * drawing.Inch
	cellSides  = 10.0 // of paper left and right of the words of a cell, and its border
	cellEnds   = 5.0  // above and below them
	tableTitle = 28.0 // with what is left free above
	headBlock  = 52.0 // the title block of a sheet of tables

	blockSize = 10.0 / 72 * drawing.Inch // of the letters of that block
	blockWide = 207.0                    // of a cell of it but the last, without its sides
)

// table is a part of the sheets with tables.
type table struct {
	Title  string
	Widths []float64 // of columns; together those of the sheet
	Head   []string
	Rows   []tableRow
}

// tableRow is a row of cells; Over stretches one cell over all columns.
type tableRow struct {
	Cells []cell
	Over  bool
}

// cell is words, the first of them heavy.
type cell struct{ Heavy, Text string }

func (t *table) add(cells ...cell) { t.Rows = append(t.Rows, tableRow{Cells: cells}) }

func (t *table) over(heavy, text string) {
	t.Rows = append(t.Rows, tableRow{Cells: []cell{{heavy, text}}, Over: true})
}

// lines is how many lines the words of a cell take at most, that wide. A word wider than a
// line counts twice: browsers break it at hyphens and the like first, and leave lines half
// full.
func (c cell) lines(wide float64) int {
	wide -= cellSides
	made, used := 1, 0.0
	for _, part := range [2]struct {
		text  string
		heavy bool
	}{{c.Heavy, true}, {c.Text, false}} {
		for _, word := range strings.Fields(part.text) {
			pieces := drawing.Wrapped(word, tableSize, part.heavy, wide)
			if len(pieces) > 1 {
				made += len(pieces)
			}
			for _, piece := range pieces {
				w := drawing.Width(piece, tableSize, part.heavy)
				if used > 0 && used+w > wide {
					made, used = made+1, 0
				}
				used += w + drawing.Width(" ", tableSize, part.heavy)
			}
		}
	}
	return made
}

func (t *table) height(r tableRow) float64 {
	most := 1
	for i, c := range r.Cells {
		most = max(most, c.lines(t.wide(r, i)))
	}
	return float64(most)*tableLine + cellEnds
}

// wide is the width of a cell of a row.
func (t *table) wide(r tableRow, i int) float64 {
	if r.Over {
		return sheetWide
	}
	return t.Widths[i]
}

// start is what a table takes before its first row.
func (t *table) start() float64 {
	if t.Head == nil {
		return tableTitle
	}
	head := tableRow{}
	for _, h := range t.Head {
		head.Cells = append(head.Cells, cell{Heavy: h})
	}
	return tableTitle + t.height(head)
}

// reserve is what a sheet of tables leaves free below, should a browser set letters a little
// wider: three lines.
const reserve = 3 * tableLine

// togetherAtFirst is how many of the first rows of a table stay together.
const togetherAtFirst = 3

// paginate parts tables over sheets: rows stay whole, a table that goes on repeats its head.
// A row higher than a sheet is cut into several.
func paginate(tables []*table) [][]*table {
	const room = sheetHigh - headBlock - reserve
	var sheets [][]*table
	left := 0.0
	for _, t := range tables {
		if len(t.Rows) == 0 {
			continue
		}
		var part *table
		rows := t.cut(room)
		title := t.Title
		for i, r := range rows {
			high := t.height(r)
			with := high
			after := 0 // rows that stay with it
			if i == 0 {
				after = togetherAtFirst - 1
			} else if r.heading() {
				after = 1
			}
			for _, next := range rows[i+1 : min(i+1+after, len(rows))] {
				with += t.height(next)
			}
			if part == nil && t.start()+with > left || part != nil && with > left {
				sheets, left, part = append(sheets, nil), room, nil
			}
			if part == nil {
				part = &table{Title: title, Widths: t.Widths, Head: t.Head}
				title = t.Title + ", continued"
				sheets[len(sheets)-1] = append(sheets[len(sheets)-1], part)
				left -= t.start()
			}
			part.Rows = append(part.Rows, r)
			left -= high
		}
	}
	return sheets
}

// heading reports whether a row heads those that follow.
func (r *tableRow) heading() bool { return r.Over && r.Cells[0].Text == "" }

// mostLines is how many lines a row that is cut may have.
const mostLines = 40

// cut are the rows of a table, those that are higher than a sheet in several.
func (t *table) cut(room float64) []tableRow {
	var made []tableRow
	for _, r := range t.Rows {
		if t.start()+t.height(r) <= room {
			made = append(made, r)
			continue
		}
		first := len(made)
		for i, c := range r.Cells {
			for k, text := range pieces(c.Text, t.wide(r, i)) {
				if first+k == len(made) {
					made = append(made, tableRow{Cells: make([]cell, len(r.Cells)), Over: r.Over})
				}
				made[first+k].Cells[i].Text = text
			}
			made[first].Cells[i].Heavy = c.Heavy
		}
	}
	return made
}

// pieces are a text in parts that take no more than the most lines in a cell.
func pieces(text string, wide float64) []string {
	made := []string{""}
	add := func(words, gap string) {
		last := &made[len(made)-1]
		switch joined := *last + gap + words; {
		case *last == "":
			*last = words
		case (cell{Heavy: joined}).lines(wide) <= mostLines:
			*last = joined
		default:
			made = append(made, words)
		}
	}
	for _, word := range strings.Fields(text) {
		for i, part := range drawing.Wrapped(word, tableSize, true, wide-cellSides) {
			gap := ""
			if i == 0 {
				gap = " "
			}
			add(part, gap)
		}
	}
	return made
}

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
	if said == nil {
		return "nothing; it is the easiest path"
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
