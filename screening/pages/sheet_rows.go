package pages

import (
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
