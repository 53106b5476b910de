package screening

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"
)

// Span is a stated length of time; its zero value is unstated.
type Span struct {
	Months int
	text   string
}

// UnmarshalYAML reads "5 years" or "18 months".
func (s *Span) UnmarshalYAML(node *yaml.Node) error {
	number, unit, _ := strings.Cut(strings.TrimSpace(node.Value), " ")
	n, err := strconv.Atoi(number)
	unit = strings.TrimSuffix(strings.TrimSpace(unit), "s")
	if err != nil || n <= 0 || n > 12_000 || unit != "year" && unit != "month" {
		return fmt.Errorf(`%q is no age; write it as "5 years" or "18 months"`, node.Value)
	}
	if unit == "year" {
		n *= 12
	}
	*s = Span{n, node.Value}
	return nil
}

// dateForms are how layers write days, the first ours; a year or a month alone
// stands for its first day.
var dateForms = []string{time.DateOnly, "2006/01/02", "20060102", time.RFC3339, "2006-01", "2006"}

// milliseconds are how many digits a date has that counts them from 1970, at
// least: those of 1973.
const milliseconds = 12

// parseDate reads the date of a layer or of a feature in it.
func parseDate(text string) (time.Time, bool) {
	text = strings.TrimSpace(text)
	if n, err := strconv.ParseInt(text, 10, 64); err == nil && len(text) >= milliseconds {
		return time.UnixMilli(n).UTC(), true
	}
	for _, form := range dateForms {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// tooOld says why data of a date cannot support a firm result on a day; empty if
// they can.
func (s Span) tooOld(title, date string, day time.Time) string {
	if s.Months == 0 {
		return ""
	}
	t, ok := parseDate(date)
	switch {
	case date == "":
		return fmt.Sprintf("%s states no date, and may be no older than %s", title, s.text)
	case !ok:
		return fmt.Sprintf("the date of %s, %.40q, cannot be read, and it may be no older than %s", title, date, s.text)
	case t.AddDate(0, s.Months, 0).Before(day):
		return fmt.Sprintf("%s is of %s, older than the %s it may be", title, t.Format(time.DateOnly), s.text)
	}
	return ""
}

// aged marks the values that rest on data too old for a firm result.
func (s *site) aged() {
	for _, l := range s.layers.all() {
		if l.source.MaxAge.Months == 0 {
			continue
		}
		for name, v := range s.values {
			if v.Layer == l.name && v.Unknown == "" {
				v.Doubt = l.source.MaxAge.tooOld(l.title, v.Date, s.layers.day)
				s.values[name] = v
			}
		}
	}
}
