package screening

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"waterward/rules"
	"waterward/screening/job"
)

// latestOf are the features of one id that are of its latest version, all if none states
// one; or why that is not plain.
func latestOf(same []*entry) (latest []*entry, refused string) {
	stated := 0
	for _, e := range same {
		if e.unclear != nil {
			return nil, e.unclear.Error()
		}
		if e.version != "" {
			stated++
		}
	}
	switch {
	case stated == 0:
		return same, ""
	case stated < len(same):
		return nil, fmt.Sprintf("of %s of this id %d state the version and others do not", job.Count(len(same), "feature"), stated)
	}
	order, wrong := inOrder(same)
	if wrong != "" {
		return nil, wrong
	}
	for _, e := range same {
		switch {
		case latest == nil || order(e.version, latest[0].version) > 0:
			latest = []*entry{e}
		case order(e.version, latest[0].version) == 0:
			latest = append(latest, e)
		}
	}
	return latest, ""
}

// inOrder is how the versions of one id are compared: as times, else as days, else as
// numbers.
func inOrder(same []*entry) (func(a, b string) int, string) {
	var texts []string
	for _, e := range same {
		texts = append(texts, e.version)
	}
	every := func(is func(string) bool) bool {
		return !slices.ContainsFunc(texts, func(t string) bool { return !is(t) })
	}
	// unless names two of which either can be the later. If any are, two that follow one
	// another in their order are.
	unless := func(order func(a, b string) int, plain func(a, b string) bool, remedy string) (func(a, b string) int, string) {
		sorted := slices.SortedFunc(slices.Values(texts), order)
		for i := 1; i < len(sorted); i++ {
			if a, b := sorted[i-1], sorted[i]; !plain(a, b) {
				return nil, fmt.Sprintf("of its versions %s and %s either can be the later: %s", a, b, remedy)
			}
		}
		return order, ""
	}
	if at := slices.IndexFunc(texts, nines.MatchString); at >= 0 {
		return nil, fmt.Sprintf("its version is %s, which files write where there is none: state it", texts[at])
	}
	switch {
	case every(func(t string) bool { _, ok := timeOf(t); return ok }):
		return func(a, b string) int {
			x, _ := timeOf(a)
			y, _ := timeOf(b)
			return x.Compare(y)
		}, ""
	case every(isDay):
		return unless(byDay, oneDayApart, "give the day of each")
	case every(numbered.MatchString):
		return unless(byNumber, func(a, b string) bool {
			return byPlaces(a, b) == byNumber(a, b) && (isDay(a) == isDay(b) || !whole.MatchString(a) || !whole.MatchString(b))
		}, "number them 1, 2, 3")
	}
	slices.Sort(texts)
	return nil, fmt.Sprintf("its versions are %s: write them all as numbers, or all as days such as 2026-11-25", job.Few(slices.Compact(texts)))
}

// numbered is a version that is a number, as "3", "v3", "Rev. 3" or "2.1".
var numbered = regexp.MustCompile(`(?i)^(?:v|ver|version|r|rev|revision)?[.\s]*(\d+(?:\.\d+)*)$`)

// nines are what files write for a number that nobody knows.
var nines = regexp.MustCompile(`^9{4,}(\.0*)?$`)

// whole is a number without a point.
var whole = regexp.MustCompile(`^\d+$`)

// timeOf reads a moment with its zone.
func timeOf(text string) (time.Time, bool) {
	for _, form := range []string{time.RFC3339, "2006-01-02T15:04Z07:00"} {
		if t, err := time.Parse(form, text); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// firstYear is before any application that is still read: what counts less is a number.
const firstYear = 1900

func isDay(text string) bool {
	t, ok := job.ParseDate(text)
	return ok && t.Year() >= firstYear
}

// byDay compares days, months and years by their first days.
func byDay(a, b string) int {
	x, _ := job.ParseDate(a)
	y, _ := job.ParseDate(b)
	return x.Compare(y)
}

// oneDayApart reports whether two days, months or years are the same or do not overlap.
func oneDayApart(a, b string) bool {
	first, last, _ := job.ParsePeriod(a)
	start, end, _ := job.ParsePeriod(b)
	return first.Equal(start) && last.Equal(end) || last.Before(start) || end.Before(first)
}

func numberOf(version string) string { return numbered.FindStringSubmatch(version)[1] }

// byPlaces compares 1.10 with 1.9 as ten with nine.
func byPlaces(a, b string) int {
	number := func(text string) (places []int) {
		for _, place := range strings.Split(numberOf(text), ".") {
			n, _ := strconv.Atoi(place) // digits; a run of too many is the greatest there is
			places = append(places, n)
		}
		for len(places) > 1 && places[len(places)-1] == 0 { // 2.0 is 2
			places = places[:len(places)-1]
		}
		return places
	}
	return slices.Compare(number(a), number(b))
}

// byNumber compares 1.10 with 1.9 as decimals; what has two points or more goes by places.
func byNumber(a, b string) int {
	x, err := strconv.ParseFloat(numberOf(a), 64)
	y, other := strconv.ParseFloat(numberOf(b), 64)
	switch {
	case err != nil || other != nil:
		return byPlaces(a, b)
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return 0
}

// partsLack is why the latest features of an id are not the parts of one structure; empty if
// they are, or if there is only one.
func partsLack(same, latest []*entry) string {
	seen, named := map[string]*entry{}, 0
	for _, e := range latest {
		if e.part == "" {
			continue
		}
		named++
		if first := seen[rules.Plain(e.part)]; first != nil {
			return fmt.Sprintf("part %s stands there twice, as feature %d and as %s", e.part, first.number, e.seenFrom(first))
		}
		seen[rules.Plain(e.part)] = e
	}
	if len(latest) > 1 && named < len(latest) {
		if latest[0].version != "" && len(latest) < len(same) {
			return fmt.Sprintf("%s of this id are of version %s", job.Count(len(latest), "feature"), latest[0].version)
		}
		return fmt.Sprintf("%s have this id: feature %d and %s", job.Count(len(latest), "feature"), latest[0].number, latest[1].seenFrom(latest[0]))
	}
	for _, e := range same {
		if named > 0 && e.part != "" && seen[rules.Plain(e.part)] == nil {
			return fmt.Sprintf("version %s has a part %s and version %s has none: say of that part too what it is now", e.version, e.part, latest[0].version)
		}
	}
	return ""
}
