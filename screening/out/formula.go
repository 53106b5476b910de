package out

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"waterward/geo/text"
)

// startsFormula are the characters with which a cell starts that a spreadsheet runs, in every
// width they have (OWASP, CSV Injection; CWE-1236).
const startsFormula = "=+-@＝＋－＠﹢﹣﹦﹫"

var plainNumber = regexp.MustCompile(`^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?$`)

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// Harmless is a text as a cell of a table, with its hidden characters written out. It keeps
// a spreadsheet from running it as a formula: what starts like one, behind blanks or not,
// gets an apostrophe, unless it is a plain number; so does what stands behind a semicolon,
// at which some spreadsheets part cells. What starts so behind apostrophes gets another, so
// that no two texts come out alike.
func Harmless(s string) string {
	s = text.Visible(s)
	if s == "" || isLetter(s[0]) && !strings.Contains(s, ";") { // as most are
		return s
	}
	parts := strings.Split(s, ";")
	for i, part := range parts {
		rest := part
		if i > 0 {
			rest = strings.TrimLeftFunc(part, unicode.IsSpace)
		}
		bare := strings.TrimLeftFunc(rest, func(c rune) bool { return c == '\'' || unicode.IsSpace(c) })
		first, _ := utf8.DecodeRuneInString(bare)
		if bare != "" && strings.ContainsRune(startsFormula, first) && !plainNumber.MatchString(strings.TrimSpace(rest)) {
			parts[i] = part[:len(part)-len(rest)] + "'" + rest
		}
	}
	return strings.Join(parts, ";")
}
