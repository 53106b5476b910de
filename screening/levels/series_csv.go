package levels

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
)

// Stated is what a table of water levels does not say of itself.
type Stated struct {
	Unit  Unit
	Datum Datum
	Zone  *time.Location
}

func (s Stated) check() error {
	switch {
	case s.Unit == "":
		return fmt.Errorf("the record says no unit; state feet or meters")
	case s.Datum == "":
		return fmt.Errorf("the record says no datum; state the one it was asked for, such as MLLW")
	case s.Zone == nil:
		return fmt.Errorf("the record says no time zone; state it, such as GMT or -5")
	}
	return nil
}

// reading is one row of a table.
type reading struct {
	line  int
	at    time.Time
	level float64 // m; NaN if there is none
}

// The names a level goes by: in the tables of the tide service (water levels,
// hourly heights, predictions) and in plain ones.
var levelColumns = []string{"water level", "prediction", "level", "value", "val"}

// tallest is more than any tide and storm above any station datum, in metres:
// beyond it stand the numbers gauges write for nothing (-999, 9999.9).
const tallest = 100

// ReadSeries reads a table of times and water levels: the CSV of the open tide
// service, or any with a time in its first column and a level in one of
// levelColumns. What the table does not say must be stated. Rows without a
// level count as missing.
func ReadSeries(text []byte, stated Stated) (*Series, error) {
	if err := stated.check(); err != nil {
		return nil, err
	}
	text = bytes.TrimSpace(text)
	first, _, _ := strings.Cut(string(text), "\n")
	switch lower := strings.ToLower(first); {
	case len(text) == 0:
		return nil, fmt.Errorf("the record is empty")
	case strings.Contains(lower, "error") && !strings.Contains(lower, ","), strings.HasPrefix(lower, "error"):
		return nil, fmt.Errorf("the file holds no record but the service's answer %q", strings.TrimSpace(first))
	case text[0] == '{' || text[0] == '[' || text[0] == '<':
		return nil, fmt.Errorf("this is not a table; ask the tide service for CSV")
	}
	table := csv.NewReader(bytes.NewReader(text))
	table.FieldsPerRecord, table.LazyQuotes, table.ReuseRecord = -1, true, true
	header, err := table.Read()
	if err != nil {
		return nil, fmt.Errorf("the header cannot be read: %w", err)
	}
	column := levelColumn(header)
	if column < 0 {
		if wrong := bySemicolons(first); wrong != "" {
			return nil, errors.New(wrong)
		}
		return nil, fmt.Errorf("the header %q names no level; it should start with a time and name one of: %s", strings.TrimSpace(first), strings.Join(levelColumns, ", "))
	}
	rows, notes, err := readRows(table, columns{len(header), column, flagColumns(header)}, stated)
	if err != nil {
		return nil, err
	}
	s, err := grid(rows, notes)
	if err != nil {
		return nil, err
	}
	s.Datum = stated.Datum
	return s, nil
}

// levelColumn is where the levels stand; -1 if nowhere.
func levelColumn(header []string) int {
	if !strings.Contains(strings.ToLower(header[0]), "time") {
		return -1
	}
	for _, name := range levelColumns {
		for k, cell := range header {
			if strings.EqualFold(strings.TrimSpace(cell), name) {
				return k
			}
		}
	}
	return -1
}

// columns are where what is read stands.
type columns struct {
	count int
	level int
	flags flags
}

func readRows(table *csv.Reader, at columns, stated Stated) ([]reading, []string, error) {
	var rows []reading
	var notes []string
	var parted commas
	flagged, unreadable, example, zonedLine, localLine := 0, 0, "", 0, 0
	for {
		row, err := table.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, nil, fmt.Errorf("the table cannot be read: %w", err)
		}
		line, _ := table.FieldPos(0)
		switch {
		case len(row) <= at.level:
			return nil, nil, fmt.Errorf("line %d has %d columns and no level: %q", line, len(row), strings.Join(row, ","))
		case len(row) > at.count:
			return nil, nil, fmt.Errorf("line %d has %d columns and the header %d: %q; name every column, and write decimals with a point", line, len(row), at.count, strings.Join(row, ","))
		}
		when, zoned, err := parseTime(strings.TrimSpace(row[0]), stated.Zone)
		if err != nil {
			return nil, nil, fmt.Errorf("line %d: %w", line, err)
		}
		if zoned {
			zonedLine = line
		} else {
			localLine = line
		}
		cell := strings.TrimSpace(row[at.level])
		if decimalComma.MatchString(cell) {
			return nil, nil, fmt.Errorf("line %d: the level %q has a decimal comma; %s", line, cell, usePoints)
		}
		parted.see(row, at.level, at.count, line)
		level, err := strconv.ParseFloat(cell, 64)
		if err == nil {
			level = stated.Unit.Metres(level)
		}
		if err != nil || !(math.Abs(level) < tallest) {
			level = math.NaN()
			if cell != "" && !strings.EqualFold(cell, "nan") {
				if unreadable++; unreadable == 1 {
					example = fmt.Sprintf("%q on line %d", cell, line)
				}
			}
		}
		if !math.IsNaN(level) && at.flags.raised(row) {
			level = math.NaN()
			flagged++
		}
		rows = append(rows, reading{line, when, level})
	}
	if _, offset := (time.Time{}).In(stated.Zone).Zone(); zonedLine > 0 && (localLine > 0 || offset != 0) {
		if localLine > 0 {
			return nil, nil, fmt.Errorf("the time on line %d says its zone and that on line %d does not; give all times in one zone", zonedLine, localLine)
		}
		return nil, nil, fmt.Errorf("the time on line %d says its zone, and %s is stated; state GMT", zonedLine, stated.Zone)
	}
	if err := parted.found(); err != nil {
		return nil, nil, err
	}
	if unreadable > 0 {
		notes = append(notes, fmt.Sprintf("%d levels are no level, the first %s; they count as missing", unreadable, example))
	}
	if flagged > 0 {
		notes = append(notes, fmt.Sprintf("%d levels bear a flag of the service (flat, changing too fast, beyond what is expected, or inferred); they count as missing", flagged))
	}
	return rows, notes, nil
}
