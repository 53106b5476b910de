package out

import (
	"bufio"
	"bytes"
	"compress/flate"
	"encoding/csv"
	"io"
	"strings"

	"waterward/geo/text"
)

// Table is a CSV file (RFC 4180).
type Table[R any] struct {
	Name   string
	Header []string
	Of     func(R) [][]string // the rows of a result
	// Filled leaves out the columns that no row fills; the rows are kept until the end.
	Filled bool

	csv    *csv.Writer
	rows   bytes.Buffer  // kept, as texts of which each ends with endOfCell, deflated: they repeat each other
	pack   *flate.Writer // into rows; nil before the first of them
	filled []bool        // by column
}

// endOfCell ends a cell of a row that is kept: no cell has it, as hidden characters are
// written out.
const endOfCell = "\x00"

func (t *Table[R]) open(files *files) error {
	file, err := files.create(t.Name)
	if err != nil {
		return err
	}
	t.csv = csv.NewWriter(file)
	t.csv.UseCRLF = true
	t.filled = make([]bool, len(t.Header))
	if !t.Filled {
		t.csv.Write(visible(t.Header))
	}
	return nil
}

func (t *Table[R]) Prepare(result R) func() {
	rows := t.Of(result)
	return func() {
		for _, row := range rows {
			t.Write(row)
		}
	}
}

// visible are cells with their hidden characters written out.
func visible(cells []string) []string {
	shown := make([]string, len(cells))
	for i, cell := range cells {
		shown[i] = text.Visible(cell)
	}
	return shown
}

// Write writes a row that is of no result.
func (t *Table[R]) Write(row []string) {
	row = visible(row)
	if !t.Filled {
		t.csv.Write(row)
		return
	}
	if t.pack == nil {
		t.pack, _ = flate.NewWriter(&t.rows, flate.BestSpeed) // a level there is
	}
	for i, cell := range row {
		t.filled[i] = t.filled[i] || cell != ""
		io.WriteString(t.pack, cell+endOfCell)
	}
}

func (t *Table[R]) Finish() {
	switch {
	case t.Filled && t.pack == nil:
		t.csv.Write(visible(t.Header))
	case t.Filled:
		t.writeFilled()
	}
	t.csv.Flush()
}

// writeFilled writes the rows that were kept.
func (t *Table[R]) writeFilled() {
	t.pack.Close()
	kept := bufio.NewReader(flate.NewReader(&t.rows))
	t.csv.Write(t.only(visible(t.Header)))
	row := make([]string, len(t.Header))
	for {
		for i := range row {
			cell, err := kept.ReadString(endOfCell[0])
			if err != nil {
				return // the end, as rows are kept whole
			}
			row[i] = strings.TrimSuffix(cell, endOfCell)
		}
		t.csv.Write(t.only(row))
	}
}

// only keeps the cells of the columns that some row fills.
func (t *Table[R]) only(row []string) []string {
	var kept []string
	for i, cell := range row {
		if t.filled[i] {
			kept = append(kept, cell)
		}
	}
	return kept
}
