package pages

import (
	"fmt"
	"html/template"
	"io"

	"waterward/screening/drawing"
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
	for i, of := range d.sheets {
		s.titleBlock(of.page, i+1, data.Of, fmt.Sprintf("1 in = %s ft", plain(of.scale)))
		data.Drawings = append(data.Drawings, svg(of.page, of.label, i+1))
	}
	return write(w, "sheet", template.FuncMap{
		"number": func(i int) int { return len(d.sheets) + i + 1 },
		"pixels": func(v float64) int { return int((v - 0.5) / drawing.Inch * 96) }, // the last border stands within the sheet
		"plus":   func(i int) int { return i + 1 },
		"short":  func(text string) string { return drawing.Shortened(text, blockSize, true, blockWide) },
	}, data)
}
