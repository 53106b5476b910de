package screening

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
)

// belongs reports whether a feature belongs to the layer, or why that cannot be
// told. Values are compared as words are, by lower case and single blanks, and
// numbers as numbers.
func belongs(o *Only, f *geojson.Feature) (bool, error) {
	if o == nil || !f.Readable() { // what cannot be read may belong to it
		return true, nil
	}
	value := f.Text(spelled(f, o.From))
	text := oneWord(value)
	switch {
	case hasWord(o.AnyOf, text):
		return true, nil
	case text == "":
		return false, fmt.Errorf("it states no %s, by which only tells what belongs to the layer", o.From)
	}
	for _, start := range o.StartsWith {
		if strings.HasPrefix(text, oneWord(start)) {
			return true, nil
		}
	}
	if o.Others == nil || slices.Contains(o.Others, anyOther) || hasWord(o.Others, text) {
		return false, nil
	}
	return false, fmt.Errorf("its %s is %.40q, of which only says neither that it belongs to the layer nor that it is another thing", o.From, value)
}

// leftOut are the features that only leaves out of a layer.
type leftOut struct {
	count  map[string]int // by value
	full   bool           // there are more places than are kept
	places []placed       // of those within reach, if their value is not known to be another thing
}

type placed struct {
	value string
	bound orb.Bound
}

// mostLeftOut is how many values, and how many places, of features left out are kept.
const mostLeftOut = 100_000

func (l *layer) leaveOut(f *geojson.Feature) {
	value := f.Text(spelled(f, l.source.Only.From))
	l.leaveShoreOut(f, value)
	if l.left.count == nil {
		l.left.count = map[string]int{}
	}
	if _, known := l.left.count[value]; known || len(l.left.count) < mostLeftOut {
		l.left.count[value]++
	}
	where, known := f.Whereabouts()
	if l.source.Only.Others != nil || !known || l.places != nil && !l.places.Meet(where) {
		return
	}
	if len(l.left.places) < mostLeftOut {
		l.left.places = append(l.left.places, placed{value, where})
	} else if len(l.left.places) == mostLeftOut && !l.left.full {
		l.left.full = true
		l.incomplete = append(l.incomplete, fmt.Sprintf("only leaves out more features of %s than can be kept, without saying that they are another thing: name those by others", l.title))
	}
}

// leftText says how many features of which values a layer leaves out, the most
// frequent first; empty if none.
func (l *layer) leftText() string {
	if len(l.left.count) == 0 {
		return ""
	}
	return fmt.Sprintf("%s: by only are left out, by their %s: %s", l.name, l.source.Only.From, mostFrequent(l.left.count, mostNamed))
}

// mostFrequent lists values with how often each stands there, the most frequent first.
func mostFrequent(count map[string]int, most int) string {
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
