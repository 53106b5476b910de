package layers

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"waterward/rules"
	"waterward/screening/job"
)

// How old a layer may be for a firm result where neither book nor job says so (common
// practice, no source): shores move, and what grows moves faster.
var (
	AgeOfShores = rules.Years(10)
	ageOfLife   = rules.Years(5)
)

// living are named areas of what grows, by their names.
var living = regexp.MustCompile(`coral|shellfish_bed|oyster|clam|mussel|seagrass|eelgrass|(^|_)sav($|_)|vegetation|kelp|sponge|hard_?bottom|live_?bottom|marsh|mangrove|wetland|swamp`)

// UsualAge is how old the layer may be where nobody says so; none for what lawyers and
// dredgers draw, which stays as it was drawn.
func (l *Layer) UsualAge() rules.Age {
	area, named := strings.CutPrefix(l.Name, "areas.")
	switch {
	case l.Name == "high_water" || l.Name == "low_water" || l.Name == "shoreline":
		return AgeOfShores
	case l.Name == "seagrass" || l.Name == "wetlands" || named && living.MatchString(area):
		return ageOfLife
	}
	return rules.Age{}
}

// Under is the layer a value rests on; nil if it rests on none.
func (m *Set) Under(v rules.Value) *Layer { return m.role(v.Layer) }

// TooOld says why data of a date cannot support a firm result on a day; empty if
// they can.
func (l *Layer) TooOld(most rules.Age, date string, day time.Time) string {
	if most.Months == 0 {
		return ""
	}
	t, ok := job.ParseDate(date)
	switch {
	case date == "":
		return fmt.Sprintf("%s states no date, and may be no older than %s", l.Title, most)
	case !ok && job.EitherOrder.MatchString(date):
		return fmt.Sprintf("the date of %s, %.40q, does not tell its month from its day (write the year first), and it may be no older than %s", l.Title, date, most)
	case !ok:
		return fmt.Sprintf("the date of %s, %.40q, cannot be read, and it may be no older than %s", l.Title, date, most)
	case t.AddDate(0, most.Months, 0).Before(day):
		return fmt.Sprintf("%s is of %s, older than the %s it may be", l.Title, t.Format(time.DateOnly), most)
	}
	return ""
}
