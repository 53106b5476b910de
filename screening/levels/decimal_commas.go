package levels

import (
	"fmt"
	"regexp"
	"strings"
)

// usePoints is what to do about decimal commas.
const usePoints = "save the table with commas between columns and points in decimals"

var (
	decimalComma = regexp.MustCompile(`^[+-]?[0-9]*,[0-9]+$`)
	wholeNumber  = regexp.MustCompile(`^[+-]?[0-9]+$`)
	digitsOnly   = regexp.MustCompile(`^[0-9]+$`)
)

// bySemicolons says of a table whose header names no level that semicolons part it; empty if
// they do not.
func bySemicolons(header string) string {
	if levelColumn(strings.Split(header, ";")) < 0 {
		return ""
	}
	return "semicolons part its columns, as where decimals have commas; " + usePoints
}

// commas looks for levels whose decimals a comma has put into the next column.
type commas struct {
	none  bool // some level or what stands beside it can be no such thing
	tails map[string]bool
	line  int // of the first
	as    string
}

// tellTale is how many different decimals there must be: a column of flags has two values.
const tellTale = 3

func (c *commas) see(row []string, level, count, line int) {
	whole := strings.TrimSpace(row[level])
	if c.none || whole == "" {
		return
	}
	if level+1 >= min(count, len(row)) || !wholeNumber.MatchString(whole) || !digitsOnly.MatchString(strings.TrimSpace(row[level+1])) {
		c.none = true
		return
	}
	tail := strings.TrimSpace(row[level+1])
	if c.tails == nil {
		c.tails, c.line, c.as = map[string]bool{}, line, whole+","+tail
	}
	if len(c.tails) < tellTale {
		c.tails[tail] = true
	}
}

func (c *commas) found() error {
	if c.none || len(c.tails) < tellTale {
		return nil
	}
	return fmt.Errorf("every level is a whole number with digits alone in the next column, such as %s on line %d: a decimal comma has parted them; %s", c.as, c.line, usePoints)
}
