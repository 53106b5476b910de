package screening

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
)

// cell is one value of an output, as a table and as JSON write it.
type cell struct {
	table string
	json  json.RawMessage
}

// textCell is text that may come from an input: a spreadsheet must not run it.
func textCell(text string) cell {
	if text == "" {
		return cell{"", json.RawMessage("null")}
	}
	raw, _ := json.Marshal(text)
	return cell{harmless(text), raw}
}

// listMark stands between the items of a list in a cell of a table; in JSON a list is one.
const listMark = " | "

// listCell is a list of texts, none of which holds the mark between them.
func listCell(items []string) cell {
	if len(items) == 0 {
		return cell{"", json.RawMessage("[]")}
	}
	plain := make([]string, len(items))
	for i, item := range items {
		plain[i] = strings.ReplaceAll(item, "|", "/")
	}
	raw, _ := json.Marshal(items)
	return cell{harmless(strings.Join(plain, listMark)), raw}
}

// numberCell is a number with so many decimals; NaN is an empty cell.
func numberCell(v float64, decimals int) cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return textCell("")
	}
	text := formatFixed(v, decimals)
	return cell{text, json.RawMessage(text)}
}

// harmless keeps a spreadsheet from running text as a formula (CWE-1236): text
// that starts like one gets an apostrophe, unless it is a plain number.
func harmless(text string) string {
	if !strings.ContainsRune("=+-@\t\r\n", rune(text[0])) {
		return text
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text
	}
	return "'" + text
}

// formatFull writes a number with all its digits.
func formatFull(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// positionDecimals are the decimals of positions we make: 1e-9 of a degree is
// 0.0004 ft.
const positionDecimals = 9

func formatPosition(at orb.Point) string {
	return "[" + strconv.FormatFloat(at[0], 'f', positionDecimals, 64) + "," + strconv.FormatFloat(at[1], 'f', positionDecimals, 64) + "]"
}
