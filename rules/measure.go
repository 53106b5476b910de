package rules

import "strings"

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

// Measure is one entry of the closed list of things a criterion can ask for.
type Measure struct {
	Name      string
	Title     string // in words, to follow "the"
	Quantity  Quantity
	Parameter string // "opening" where the criterion must say how wide an opening counts; else empty
}

// Area layers have no fixed list, so their measures are a family: in_area:NAME.
const areaFamily = "in_area"

// measures is the closed list. Its entry in_area stands for a family.
var measures = []Measure{
	{"element_length", "length of the elements together", Length, ""},
	{"overall_length", "overall length with openings", Length, ""},
	{"longest_run", "longest run without a counting opening", Length, "opening"},
	{"narrowest_opening", "narrowest opening", Length, ""},
	{"openings", "number of counting openings", Count, "opening"},
	{"bank_length", "length along the bank", Length, ""},
	{"mhw_farthest", "farthest reach from mean high water", Length, ""},
	{"mhw_nearest", "nearest reach from mean high water", Length, ""},
	{"mlw_farthest", "farthest reach from mean low water", Length, ""},
	{"mlw_nearest", "nearest reach from mean low water", Length, ""},
	{"crest_above_mhw", "crest height above mean high water", Length, ""},
	{"footprint_area", "footprint area", Area, ""},
	{"fill_volume", "fill volume", Volume, ""},
	{"fill_per_length", "fill per length of bank", VolumePerLength, ""},
	{"seagrass_overlap", "seagrass under the footprint", Area, ""},
	{"seagrass_nearest", "distance to seagrass", Length, ""},
	{"channel_nearest", "distance to the channel", Length, ""},
	{"riparian_nearest", "distance to the riparian lines", Length, ""},
	{"waterway_width", "width of the waterway", Length, ""},
	{"waterway_share", "share of the waterway taken", Ratio, ""},
	{areaFamily, "named area touched", Names, ""},
	{"material", "material", Word, ""},
	{"kind", "kind of structure", Word, ""},
}

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
		if strings.TrimSpace(suffix) == "" {
			return Measure{}, false
		}
		m.Name = name
		m.Title = "touching " + areaTitle(name)
		return m, true
	}
	return Measure{}, false
}

// areaTitle is the area's name as a person writes it.
func areaTitle(measure string) string {
	_, suffix, _ := strings.Cut(measure, ":")
	return strings.ReplaceAll(suffix, "_", " ")
}

// Ref names one measure as a criterion asks for it.
type Ref struct {
	Measure string
	Opening float64 // metres; 0 for a measure without that parameter
}
