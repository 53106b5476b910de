package layers

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
	"waterward/screening/job"
)

// Belongs reports whether a feature belongs to the layer, or why that cannot be
// told. Values are compared as words are, by lower case and single blanks, and
// numbers as numbers.
func Belongs(o *job.Only, f *geojson.Feature) (bool, error) {
	if o == nil || !f.Readable() { // what cannot be read may belong to it
		return true, nil
	}
	value := f.Text(job.Spelled(f, o.From))
	text := job.OneWord(value)
	switch {
	case job.HasWord(o.AnyOf, text):
		return true, nil
	case text == "":
		return false, fmt.Errorf("it states no %s, by which only tells what belongs to the layer", o.From)
	}
	for _, start := range o.StartsWith {
		if strings.HasPrefix(text, job.OneWord(start)) {
			return true, nil
		}
	}
	if o.Others == nil || slices.Contains(o.Others, job.AnyOther) || job.HasWord(o.Others, text) {
		return false, nil
	}
	return false, fmt.Errorf("its %s is %.40q, of which only says neither that it belongs to the layer nor that it is another thing", o.From, value)
}

// leftOut are the features that only leaves out of a layer.
type leftOut struct {
	count  map[string]int // by value
	full   bool           // there are more places than are kept
	Places []placed       // of those within reach, if their value is not known to be another thing
}

type placed struct {
	Value string
	Bound orb.Bound
}

// mostLeftOut is how many values, and how many places, of features left out are kept.
const mostLeftOut = 100_000

func (l *Layer) leaveOut(f *geojson.Feature) {
	value := f.Text(job.Spelled(f, l.Source.Only.From))
	l.leaveShoreOut(f, value)
	if l.Left.count == nil {
		l.Left.count = map[string]int{}
	}
	if _, known := l.Left.count[value]; known || len(l.Left.count) < mostLeftOut {
		l.Left.count[value]++
	}
	where, known := f.Whereabouts()
	if l.Source.Only.Others != nil || !known || l.places != nil && !l.places.Meet(where) {
		return
	}
	if len(l.Left.Places) < mostLeftOut {
		l.Left.Places = append(l.Left.Places, placed{value, where})
	} else if len(l.Left.Places) == mostLeftOut && !l.Left.full {
		l.Left.full = true
		l.Incomplete = append(l.Incomplete, fmt.Sprintf("only leaves out more features of %s than can be kept, without saying that they are another thing: name those by others", l.Title))
	}
}

// leftText says how many features of which values a layer leaves out, the most
// frequent first; empty if none.
func (l *Layer) leftText() string {
	if len(l.Left.count) == 0 {
		return ""
	}
	return fmt.Sprintf("%s: by only are left out, by their %s: %s", l.Name, l.Source.Only.From, MostFrequent(l.Left.count, job.MostNamed))
}

// MostFrequent lists values with how often each stands there, the most frequent first.
func MostFrequent(count map[string]int, most int) string {
	var values []string
	for value := range count {
		values = append(values, value)
	}
	slices.SortFunc(values, func(a, b string) int {
		if count[a] != count[b] {
			return count[b] - count[a]
		}
		return strings.Compare(a, b)
	})
	var out []string
	for i, value := range values {
		if i == most {
			out = append(out, "and other values")
			break
		}
		out = append(out, fmt.Sprintf("%.40q (%d)", value, count[value]))
	}
	return strings.Join(out, ", ")
}
