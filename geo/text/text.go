// Package text tells what of a text does not show as it is, and what is no text at all.
//
// It imports nothing of ours.
package text

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// hidden reports whether a character has no sign of its own: it steers a terminal or a
// printer, breaks a line, turns the order of what stands beside it (UAX #9), or is ignored
// where text is shown, so that two names look alike (Default_Ignorable, UTS #39).
func hidden(c rune) bool {
	if c < utf8.RuneSelf {
		return c < ' ' || c == 0x7f
	}
	return unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector)
}

// Visible writes the hidden characters of a text out as JSON would, such as \u202e, and
// bytes that are no UTF-8 as U+FFFD. What is visible already stays as it is.
func Visible(text string) string {
	if allPlain(text) {
		return text
	}
	var b strings.Builder
	for _, c := range text {
		if hidden(c) {
			b.WriteString(escaped(c))
		} else {
			b.WriteRune(c)
		}
	}
	return b.String()
}

// Shown is a text without its hidden characters.
func Shown(text string) string {
	return strings.Map(func(c rune) rune {
		if hidden(c) {
			return -1
		}
		return c
	}, text)
}

// allPlain reports whether a text is visible ASCII, as most is.
func allPlain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// Lines is Visible of each line of a text.
func Lines(text string) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = Visible(line)
	}
	return strings.Join(lines, "\n")
}

// looksEscaped is what a text holds that reads like one of our escapes.
var looksEscaped = regexp.MustCompile(`\\(u[0-9a-f]{4})`)

// Distinct is Visible so that no two texts come out alike: a backslash that would read as
// the start of an escape is written out too, as \u005c.
func Distinct(text string) string {
	return Visible(looksEscaped.ReplaceAllString(text, `\u005c$1`))
}

// JSON writes the hidden characters in the strings of a JSON text as escapes: the values
// stay the same.
func JSON(text []byte) []byte {
	if !bytes.ContainsFunc(text, outOfPlace) {
		return text
	}
	var b bytes.Buffer
	for _, c := range string(text) {
		if outOfPlace(c) {
			b.WriteString(escaped(c))
		} else {
			b.WriteRune(c)
		}
	}
	return b.Bytes()
}

// outOfPlace is hidden of a character that JSON lets stand in a string.
func outOfPlace(c rune) bool { return c >= ' ' && hidden(c) }

// escaped is a character as JSON escapes it (RFC 8259, section 7).
func escaped(c rune) string {
	if c > 0xffff {
		high, low := utf16.EncodeRune(c)
		return escaped(high) + escaped(low)
	}
	digits := strconv.FormatInt(int64(c), 16)
	return `\u` + "0000"[len(digits):] + digits
}
