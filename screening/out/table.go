package out

import (
	"bytes"
	"encoding/csv"
	"strings"
)

// Table is a CSV file (RFC 4180).
type Table[R any] struct {
	Name   string
	Header []string
	Of     func(R) [][]string // the rows of a result
	// Filled leaves out the columns that no row fills; the rows are kept until the end.
	Filled bool

	csv    *csv.Writer
	rows   bytes.Buffer // kept, as texts of which each ends with endOfCell
	filled []bool       // by column
}

// endOfCell ends a cell of a row that is kept: no text of a table has it.
const endOfCell = "\x00"

func (t *Table[R]) open(outputs Outputs) (*File, error) {
	file, err := create(outputs, t.Name)
	if err != nil {
		return nil, err
	}
	t.csv = csv.NewWriter(file)
	t.csv.UseCRLF = true
	t.filled = make([]bool, len(t.Header))
	if !t.Filled {
		t.csv.Write(t.Header)
	}
	return file, nil
}

func (t *Table[R]) Prepare(result R) func() {
	rows := t.Of(result)
	return func() {
		for _, row := range rows {
			t.Write(row)
		}
	}
}

// Write writes a row that is of no result.
func (t *Table[R]) Write(row []string) {
	if !t.Filled {
		t.csv.Write(row)
		return
	}
	for i, text := range row {
		t.filled[i] = t.filled[i] || text != ""
		t.rows.WriteString(strings.ReplaceAll(text, endOfCell, ""))
		t.rows.WriteString(endOfCell)
	}
}

func (t *Table[R]) Finish() {
	if t.Filled && t.rows.Len() == 0 {
		t.csv.Write(t.Header)
	} else if t.Filled {
		t.csv.Write(t.only(t.Header))
		row := make([]string, len(t.Header))
		for t.rows.Len() > 0 {
			for i := range row {
				text, _ := t.rows.ReadString(endOfCell[0])
				row[i] = strings.TrimSuffix(text, endOfCell)
			}
			t.csv.Write(t.only(row))
		}
	}
	t.csv.Flush()
}

// only keeps the cells of the columns that some row fills.
func (t *Table[R]) only(row []string) []string {
	var kept []string
	for i, text := range row {
		if t.filled[i] {
			kept = append(kept, text)
		}
	}
	return kept
}
