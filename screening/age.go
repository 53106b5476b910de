package screening

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"waterward/rules"
)

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
