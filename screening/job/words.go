package job

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Fixed writes a number with so many decimals, never as minus zero.
func Fixed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// FeetText is a length in metres as a person reads it, in feet: "9.60 ft", "10 ft".
func FeetText(metres float64) string {
	return strings.TrimSuffix(Fixed(metres/Foot, 2), ".00") + " ft"
}

// Count is how many there are of a thing, in words: "1 feature", "2 features".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// Few lists names, the first of many.
func Few(names []string) string {
	if len(names) > MostNamed {
		return strings.Join(names[:MostNamed], ", ") + " and so on"
	}
	return strings.Join(names, ", ")
}

// MostNamed is how many names a sentence lists before it says "and so on".
const MostNamed = 6

// Foot is the international foot in metres, exact.
const Foot = 0.3048 // metres, international foot, exact

// Mile is the international mile in metres, exact: 5,280 ft.
const Mile = 5280 * Foot

// OneWord is a text as words are compared: by lower case and single blanks.
func OneWord(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }

// pointed is a whole number as some files write it.
var pointed = regexp.MustCompile(`^(\d+)\.0+$`)

// Whole is a text; of a whole number written as 12.0 it is 12.
func Whole(text string) string { return pointed.ReplaceAllString(text, "$1") }

// HasWord reports whether a word is one of some, or the same number.
func HasWord(words []string, text string) bool {
	number, err := strconv.ParseFloat(text, 64)
	return slices.ContainsFunc(words, func(w string) bool {
		if w = OneWord(w); w == text {
			return true
		}
		other, notNumber := strconv.ParseFloat(w, 64)
		return err == nil && notNumber == nil && number == other
	})
}

const (
	SquareFoot = Foot * Foot
	CubicYard  = 27 * Foot * Foot * Foot
)

// AwayText is how far off a station is.
func AwayText(metres float64) string {
	if math.IsNaN(metres) {
		return "which does not say where it is"
	}
	return MilesText(metres) + " away"
}

// DayText is a day as 2026-11-25; empty if there is none.
func DayText(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

// MilesText is a distance in miles, or in feet where it is less than half a mile.
func MilesText(metres float64) string {
	if metres < Mile/2 {
		return Fixed(metres/Foot, 0) + " ft"
	}
	return fmt.Sprintf("%.1f miles", metres/Mile)
}

// ParcelTolerance is how far, in metres (30 ft), a parcel may end from the
// high water line and still front on it: parcel and shore surveys seldom
// meet exactly.
const ParcelTolerance = 30 * Foot
