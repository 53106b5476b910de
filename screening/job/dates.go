package job

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

// dateForms are how layers write days, the first ours; a year or a month alone
// stands for its first day.
var dateForms = []string{time.DateOnly, "2006/01/02", "20060102", "2006-01", "2006"}

// Milliseconds are how many digits a date has that counts them from 1970, at
// least: those of 1973.
const Milliseconds = 12

var (
	// timed is a day with a time of that day, which does not count.
	timed = regexp.MustCompile(`^(\d{4}[-/]\d\d[-/]\d\d)[T ]\d\d:\d\d(:\d\d(\.\d+)?)? ?(Z|[+-]\d\d(:?\d\d)?)?$`)
	// EitherOrder is a date by whose figures month and day cannot be told apart.
	EitherOrder = regexp.MustCompile(`^\d\d?[-/.]\d\d?[-/.]\d{2,4}\b`)
)

// ParsePeriod reads a day, a month or a year, as its first and its last day.
func ParsePeriod(text string) (first, last time.Time, ok bool) {
	first, ok = ParseDate(text)
	switch text = strings.TrimSpace(text); len(text) {
	case len("2006"):
		return first, first.AddDate(1, 0, -1), ok
	case len("2006-01"):
		return first, first.AddDate(0, 1, -1), ok
	}
	return first, first, ok
}

// ParseDate reads the day of a proposal, of a layer or of a feature in it.
func ParseDate(text string) (time.Time, bool) {
	text = strings.TrimSpace(text)
	count, fraction, _ := strings.Cut(text, ".") // some write every number with a point
	if n, err := strconv.ParseInt(count, 10, 64); err == nil && len(count) >= Milliseconds && strings.Trim(fraction, "0") == "" {
		return time.UnixMilli(n).UTC().Truncate(24 * time.Hour), true
	}
	text = timed.ReplaceAllString(text, "$1")
	for _, form := range dateForms {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}
