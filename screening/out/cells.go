package out

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/text"
	"waterward/screening/job"
)

// Cell is one value of an output, as a table and as JSON write it.
type Cell struct {
	Table string
	JSON  json.RawMessage
}

// Text is text that may come from an input: a spreadsheet must not run it.
func Text(s string) Cell {
	if s == "" {
		return Cell{"", json.RawMessage("null")}
	}
	return Cell{Harmless(s), jsonOf(s)}
}

// ID is a text by which rows are told apart: no two come out alike in a table.
func ID(s string) Cell {
	c := Text(s)
	c.Table = Harmless(text.Distinct(s))
	return c
}

func jsonOf(v any) json.RawMessage {
	raw, _ := json.Marshal(v) // of text or texts
	return text.JSON(raw)
}

// listMark stands between the items of a list in a cell of a table; in JSON a list is one.
const listMark = " | "

// List is a list of texts, none of which holds the mark between them.
func List(items []string) Cell {
	if len(items) == 0 {
		return Cell{"", json.RawMessage("[]")}
	}
	plain := make([]string, len(items))
	for i, item := range items {
		plain[i] = strings.ReplaceAll(item, "|", "/")
	}
	return Cell{Harmless(strings.Join(plain, listMark)), jsonOf(items)}
}

// Number is a number with so many decimals; NaN is an empty cell.
func Number(v float64, decimals int) Cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Text("")
	}
	digits := job.Fixed(v, decimals)
	return Cell{digits, json.RawMessage(digits)}
}

// Full writes a number with all its digits.
func Full(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Decimals of the positions made here: 1e-9 of a degree is 0.0004 ft, and half of 1e-8, which
// those of envelopes have, 0.002 ft.
const (
	PositionDecimals = 9
	ShortDecimals    = 8
)

// Position is a position in degrees as GeoJSON has it, without zeros at its end.
func Position(at orb.Point, decimals int) string {
	return "[" + degrees(at[0], decimals) + "," + degrees(at[1], decimals) + "]"
}

func degrees(v float64, decimals int) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', decimals, 64), "0"), ".")
}
