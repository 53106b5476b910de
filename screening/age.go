package screening

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"waterward/rules"
)

// dateForms are how layers write days, the first ours; a year or a month alone
// stands for its first day.
var dateForms = []string{time.DateOnly, "2006/01/02", "20060102", "2006-01", "2006"}

// milliseconds are how many digits a date has that counts them from 1970, at
// least: those of 1973.
const milliseconds = 12

var (
	// timed is a day with a time of that day, which does not count.
	timed = regexp.MustCompile(`^(\d{4}[-/]\d\d[-/]\d\d)[T ]\d\d:\d\d(:\d\d(\.\d+)?)? ?(Z|[+-]\d\d(:?\d\d)?)?$`)
	// eitherOrder is a date by whose figures month and day cannot be told apart.
	eitherOrder = regexp.MustCompile(`^\d\d?[-/.]\d\d?[-/.]\d{2,4}\b`)
)

// parsePeriod reads a day, a month or a year, as its first and its last day.
func parsePeriod(text string) (first, last time.Time, ok bool) {
	first, ok = parseDate(text)
	switch text = strings.TrimSpace(text); len(text) {
	case len("2006"):
		return first, first.AddDate(1, 0, -1), ok
	case len("2006-01"):
		return first, first.AddDate(0, 1, -1), ok
	}
	return first, first, ok
}

// parseDate reads the day of a proposal, of a layer or of a feature in it.
func parseDate(text string) (time.Time, bool) {
	text = strings.TrimSpace(text)
	count, fraction, _ := strings.Cut(text, ".") // some write every number with a point
	if n, err := strconv.ParseInt(count, 10, 64); err == nil && len(count) >= milliseconds && strings.Trim(fraction, "0") == "" {
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

// How old a layer may be for a firm result where neither book nor job says so (common
// practice, no source): shores move, and what grows moves faster.
var (
	ageOfShores = rules.Years(10)
	ageOfLife   = rules.Years(5)
)

// living are named areas of what grows, by their names.
var living = regexp.MustCompile(`coral|shellfish_bed|oyster|clam|mussel|seagrass|eelgrass|(^|_)sav($|_)|vegetation|kelp|sponge|hard_?bottom|live_?bottom|marsh|mangrove|wetland|swamp`)

// usualAge is how old the layer may be where nobody says so; none for what lawyers and
// dredgers draw, which stays as it was drawn.
func (l *layer) usualAge() rules.Age {
	area, named := strings.CutPrefix(l.name, "areas.")
	switch {
	case l.name == "high_water" || l.name == "low_water" || l.name == "shoreline":
		return ageOfShores
	case l.name == "seagrass" || l.name == "wetlands" || named && living.MatchString(area):
		return ageOfLife
	}
	return rules.Age{}
}

// doubted is a value with why it cannot support a firm result: that the layer it
// rests on is older than a book or the job lets it be, of which the stricter counts, or
// else than is usual. What is not dated and of no stated age is old only near a limit.
func (s *site) doubted(v rules.Value, asked rules.Age) rules.Value {
	l := s.layers.under(v)
	if l == nil || v.Unknown != "" {
		return v
	}
	most, within := asked.Stricter(l.source.MaxAge), 0.0
	if most == (rules.Age{}) {
		if most = l.usualAge(); v.Date == "" {
			within = rules.UnstatedReach
		}
	}
	says := l.tooOld(most, v.Date, s.layers.day)
	if _, dated := l.source.Properties["date"]; dated && says != "" && v.Date == "" && v.Feature == "" {
		says = fmt.Sprintf("the features of %s state their own dates, and none is near; it may be no older than %s", l.title, most)
	}
	return doubting(v, says, within)
}

// under is the layer a value rests on; nil if it rests on none.
func (m *mapped) under(v rules.Value) *layer { return m.role(v.Layer) }

// tooOld says why data of a date cannot support a firm result on a day; empty if
// they can.
func (l *layer) tooOld(most rules.Age, date string, day time.Time) string {
	if most.Months == 0 {
		return ""
	}
	t, ok := parseDate(date)
	switch {
	case date == "":
		return fmt.Sprintf("%s states no date, and may be no older than %s", l.title, most)
	case !ok && eitherOrder.MatchString(date):
		return fmt.Sprintf("the date of %s, %.40q, does not tell its month from its day (write the year first), and it may be no older than %s", l.title, date, most)
	case !ok:
		return fmt.Sprintf("the date of %s, %.40q, cannot be read, and it may be no older than %s", l.title, date, most)
	case t.AddDate(0, most.Months, 0).Before(day):
		return fmt.Sprintf("%s is of %s, older than the %s it may be", l.title, t.Format(time.DateOnly), most)
	}
	return ""
}
