package pages

import (
	"fmt"
	"html/template"
	"io"
	"strings"

	"waterward/screening/drawing"
)

// The letters of the block on a sheet of tables, 10 points, and the room in its cells.
const (
	blockSize = 10.0 / 72 * drawing.Inch
	blockCell = 204.0
)

// sheetData is what the template is given.
type sheetData struct {
	*Sheet
	Drawings []template.HTML
	Tables   [][]*table
	Of       int // sheets in all
}

// Write writes the sheets of a proposal, a page to print: first the drawings, which can be
// filed without what was decided, then that.
func (s *Sheet) Write(w io.Writer) error {
	s.Row = s.Row.visible()
	s.visible()
	d := s.drawings()
	data := sheetData{Sheet: s, Tables: paginate(s.tables(d))}
	data.Of = len(d.sheets) + len(data.Tables)
	scale, _ := s.Plan.overview(sheetWide, planHigh)
	for i, page := range d.sheets {
		if i > 0 {
			scale = smallestPlan
		}
		s.titleBlock(page, i+1, data.Of, fmt.Sprintf("1 in = %s ft", plain(scale)))
		data.Drawings = append(data.Drawings, svg(page, d.labels[i], i+1))
	}
	return write(w, "sheet", template.FuncMap{
		"number": func(i int) int { return len(d.sheets) + i + 1 },
		"pixels": func(v float64) int { return int((v - 0.5) / drawing.Inch * 96) }, // the last border stands within the sheet
		"short": func(text string) string {
			return drawing.Shortened(strings.TrimSpace(text), blockSize, true, blockCell)
		},
		"plus": func(i int) int { return i + 1 },
	}, data)
}
