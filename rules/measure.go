package rules

import (
	"iter"
	"regexp"
	"slices"
	"strings"
)

// Quantity says what kind of thing a measure is.
type Quantity int

// The kinds of measure. Lengths are in metres, areas in square metres, volumes
// in cubic metres, volumes per length in cubic metres per metre.
const (
	Length Quantity = iota
	Area
	Volume
	VolumePerLength
	Ratio
	Count
	Word  // one stated word, such as a material
	Names // the names of what the footprint touches; none means outside
)

var quantityNames = [...]string{
	"length", "area", "volume", "volume per length", "ratio", "count", "word", "names",
}

func (q Quantity) String() string {
	if q < 0 || int(q) >= len(quantityNames) {
		return "unknown quantity"
	}
	return quantityNames[q]
}

// one is the quantity with its article.
func (q Quantity) one() string {
	if q == Area {
		return "an " + q.String()
	}
	return "a " + q.String()
}

// numeric tells a quantity that is compared with a limit from one that is
// compared with words.
func (q Quantity) numeric() bool { return q >= Length && q <= Count }

// Measure is one entry of the closed list of things a criterion can ask for, and all
// that rules say of it.
type Measure struct {
	Name       string
	Title      string // in words, to follow "the"
	Quantity   Quantity
	Parameters []string // what the criterion must say beside the measure: opening, every
	Stated     bool     // a word that the proposal states
	Dated      bool     // its value names the one layer it rests on, whose age a book can limit
	Words      []string // the only words it can be, if they are few
	Familiar   []string // words of the trade that a book need not list: what it does not, they are not
	signed     bool     // it may be less than 0: what is signed from a line, and heights and depths from a level
	of         string   // what is mapped that it leads to, or covers
	change     *wording // how a change of a quantity is put
}

// Parameters of measures, both lengths.
const (
	OpeningParameter = "opening" // how wide an opening must be to count
	EveryParameter   = "every"   // for how much length one opening is asked
)

// Area layers have no fixed list, so their measures are a family: in_area:NAME.
const areaFamily = "in_area"

// Measures yields the closed list; in_area stands there for its family.
func Measures() iter.Seq[Measure] { return slices.Values(measures) }

// FindMeasure returns the measure of that name. It accepts in_area with any
// suffix, and then the returned name carries the suffix.
func FindMeasure(name string) (Measure, bool) {
	family, suffix, hasSuffix := strings.Cut(name, ":")
	for _, m := range measures {
		if m.Name != family {
			continue
		}
		if m.Name != areaFamily {
			return m, !hasSuffix
		}
		if !areaForm.MatchString(suffix) {
			return Measure{}, false
		}
		m.Name = name
		m.Title = "touching " + areaTitle(name)
		return m, true
	}
	return Measure{}, false
}

// areaForm is how an area is named in a job, where its name becomes part of a
// column's.
var areaForm = regexp.MustCompile(`^[a-z0-9_]+$`)

// areaTitle is the area's name as a person writes it.
func areaTitle(measure string) string {
	_, suffix, _ := strings.Cut(measure, ":")
	return strings.ReplaceAll(suffix, "_", " ")
}

// Ref names one measure as a criterion asks for it.
type Ref struct {
	Measure string
	Opening float64 // metres; 0 for a measure without that parameter
	Every   float64 // metres; 0 likewise
	MaxAge  Age     // of the layer the value rests on; unstated if any will do
}
