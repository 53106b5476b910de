package screening

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// formatFixed writes a number with so many decimals, never as minus zero.
func formatFixed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

func feetText(metres float64) string {
	return strings.TrimSuffix(formatFixed(metres/foot, 2), ".00") + " ft"
}

// number is how many there are of a thing, in words: "1 feature", "2 features".
func number(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

func few(names []string) string {
	if len(names) > mostNamed {
		return strings.Join(names[:mostNamed], ", ") + " and so on"
	}
	return strings.Join(names, ", ")
}

// mostNamed is how many names a sentence lists before it says "and so on".
const mostNamed = 6

const foot = 0.3048 // metres, international foot, exact

// mile is the international mile in metres, exact: 5,280 ft.
const mile = 5280 * foot

func oneWord(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }

func hasWord(words []string, text string) bool {
	number, err := strconv.ParseFloat(text, 64)
	return slices.ContainsFunc(words, func(w string) bool {
		if w = oneWord(w); w == text {
			return true
		}
		other, notNumber := strconv.ParseFloat(w, 64)
		return err == nil && notNumber == nil && number == other
	})
}

const (
	squareFoot = foot * foot
	cubicYard  = 27 * foot * foot * foot
)

// awayText is how far off a station is.
func awayText(metres float64) string {
	if math.IsNaN(metres) {
		return "which does not say where it is"
	}
	return milesText(metres) + " away"
}

func day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

// milesText is a distance in miles, or in feet where it is less than half a mile.
func milesText(metres float64) string {
	if metres < mile/2 {
		return formatFixed(metres/foot, 0) + " ft"
	}
	return fmt.Sprintf("%.1f miles", metres/mile)
}

// parcelTolerance is how far, in metres (30 ft), a parcel may end from the
// high water line and still front on it: parcel and shore surveys seldom
// meet exactly.
const parcelTolerance = 30 * foot
