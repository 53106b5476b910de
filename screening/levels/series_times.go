package levels

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// ParseZone reads the time zone of a record: GMT or UTC, or a fixed number of
// hours from it ("-5", "UTC-05:00"), or a standard time. A clock that keeps
// daylight saving repeats an hour each year and is refused.
func ParseZone(text string) (*time.Location, error) {
	name := strings.ToUpper(strings.TrimSpace(text))
	if hours, known := map[string]int{"GMT": 0, "UTC": 0, "Z": 0, "AST": -4, "EST": -5, "CST": -6, "MST": -7, "PST": -8, "AKST": -9, "HST": -10}[name]; known {
		return time.FixedZone(name, hours*3600), nil
	}
	if name == "" {
		return nil, fmt.Errorf("no time zone is stated; give GMT, or hours from it such as -5")
	}
	offset := strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(name, "UTC"), "GMT"))
	hours, minutes, _ := strings.Cut(offset, ":")
	h, errH := strconv.Atoi(hours)
	m, errM := strconv.Atoi("0" + minutes)
	if errH != nil || errM != nil || !strings.ContainsAny(offset[:1], "+-") || h < -12 || h > 14 || m > 59 {
		return nil, fmt.Errorf("time zone %q: give GMT, or hours from it such as -5, or a standard time such as EST; a clock with daylight saving repeats an hour", text)
	}
	if offset[0] == '-' {
		m = -m
	}
	return time.FixedZone(name, h*3600+m*60), nil
}

// minuteLayout is how times are written in messages.
const minuteLayout = "2006-01-02 15:04"

// The times found in records. The first kind says its own zone.
var (
	zonedLayouts = []string{time.RFC3339, "2006-01-02T15:04Z07:00", "2006-01-02 15:04:05Z07:00", "2006-01-02 15:04Z07:00"}
	localLayouts = []string{minuteLayout, "2006-01-02 15:04:05", "2006-01-02T15:04", "2006-01-02T15:04:05", "1/2/2006 15:04", "1/2/2006 15:04:05"}
)

// parseTime reads a time, in the zone stated unless it says its own; in dates
// with slashes the month stands first.
func parseTime(text string, zone *time.Location) (at time.Time, zoned bool, err error) {
	for _, layout := range zonedLayouts {
		if at, err := time.Parse(layout, text); err == nil {
			return at.UTC(), true, nil
		}
	}
	for _, layout := range localLayouts {
		if at, err := time.ParseInLocation(layout, text, zone); err == nil {
			return at.UTC(), false, nil
		}
	}
	return time.Time{}, false, fmt.Errorf("%q is not a time known here; write it as 2018-10-09 00:06 or 10/9/2018 0:06, month first", text)
}
