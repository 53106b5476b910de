package out

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/screening/job"
)

// Cell is one value of an output, as a table and as JSON write it.
type Cell struct {
	Table string
	JSON  json.RawMessage
}

// Text is text that may come from an input: a spreadsheet must not run it.
func Text(text string) Cell {
	if text == "" {
		return Cell{"", json.RawMessage("null")}
	}
	raw, _ := json.Marshal(text)
	return Cell{Harmless(text), raw}
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
	raw, _ := json.Marshal(items)
	return Cell{Harmless(strings.Join(plain, listMark)), raw}
}

// Number is a number with so many decimals; NaN is an empty cell.
func Number(v float64, decimals int) Cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Text("")
	}
	text := job.Fixed(v, decimals)
	return Cell{text, json.RawMessage(text)}
}

// Harmless keeps a spreadsheet from running text as a formula (CWE-1236): text
// that starts like one gets an apostrophe, unless it is a plain number.
func Harmless(text string) string {
	if !strings.ContainsRune("=+-@\t\r\n", rune(text[0])) {
		return text
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text
	}
	return "'" + text
}

// Full writes a number with all its digits.
func Full(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// PositionDecimals are the decimals of positions we make: 1e-9 of a degree is
// 0.0004 ft.
const PositionDecimals = 9

// Position is a position in degrees as GeoJSON has it, with the decimals of those made here.
func Position(at orb.Point) string {
	return "[" + strconv.FormatFloat(at[0], 'f', PositionDecimals, 64) + "," + strconv.FormatFloat(at[1], 'f', PositionDecimals, 64) + "]"
}
