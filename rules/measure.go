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
	Name       string
	Title      string // in words, to follow "the"
	Quantity   Quantity
	Parameters []string // what the criterion must say beside the measure: opening, every
}

// Parameters of measures, both lengths.
const (
	OpeningParameter = "opening" // how wide an opening must be to count
	EveryParameter   = "every"   // for how much length one opening is asked
)

// Area layers have no fixed list, so their measures are a family: in_area:NAME.
const areaFamily = "in_area"

// measures is the closed list. Its entry in_area stands for a family.
var measures = []Measure{
	{"element_length", "length of the elements together", Length, nil},
	{"overall_length", "overall length with openings", Length, nil},
	{"project_length", "overall length of the whole project", Length, nil},
	{"longest_run", "longest run without a counting opening", Length, []string{OpeningParameter}},
	{"opening_spacing", "greatest spacing of counting openings", Length, []string{OpeningParameter}},
	{"narrowest_opening", "narrowest opening", Length, nil},
	{"openings", "number of counting openings", Count, []string{OpeningParameter}},
	{"openings_lacking", "number of openings lacking", Count, []string{OpeningParameter, EveryParameter}},
	{"longest_overlap", "longest overlap of neighbouring elements", Length, nil},
	{"bank_length", "length along the bank", Length, nil},
	{"project_bank_length", "length along the bank of the whole project", Length, nil},
	{"mhw_farthest", "farthest reach from mean high water", Length, nil},
	{"mhw_nearest", "nearest reach from mean high water", Length, nil},
	{"mhw_landward_edge", "reach of the landward edge from mean high water", Length, nil},
	{"mlw_farthest", "farthest reach from mean low water", Length, nil},
	{"mlw_nearest", "nearest reach from mean low water", Length, nil},
	{"mlw_landward_edge", "reach of the landward edge from mean low water", Length, nil},
	{"mtl_landward_edge", "reach of the landward edge from the mid-tide line", Length, nil},
	{"crest_above_mhw", "crest height above mean high water", Length, nil},
	{"crest_above_wetland", "crest height above the wetland", Length, nil},
	{"mhw_mean_depth", "mean depth below mean high water", Length, nil},
	{"mlw_greatest_depth", "greatest depth below mean low water", Length, nil},
	{"footprint_area", "footprint area", Area, nil},
	{"fill_volume", "fill volume", Volume, nil},
	{"fill_per_length", "fill per length of bank", VolumePerLength, nil},
	{"fill_tide_ranges", "height of the fill above mean low water in mean tide ranges", Ratio, nil},
	{"fill_fines", "share of fines in the fill", Ratio, nil},
	{"fill_proposed", "fill proposed", Word, nil},
	{"side_slope", "side slope, horizontal to one vertical", Ratio, nil},
	{"stone_size", "size of the stone", Length, nil},
	{"seagrass_overlap", "seagrass under the footprint", Area, nil},
	{"seagrass_nearest", "distance to seagrass", Length, nil},
	{"wetland_overlap", "wetland under the footprint", Area, nil},
	{"wetland_nearest", "distance to wetlands", Length, nil},
	{"wetland_behind", "distance to the wetland behind it", Length, nil},
	{"wetland_farthest", "farthest reach from the wetland", Length, nil},
	{"wetland_landward_edge", "reach of the landward edge from the wetland", Length, nil},
	{"wetland_width", "width of the wetland", Length, nil},
	{"channel_nearest", "distance to the channel", Length, nil},
	{"channel_reach", "reach of the nearest channel", Word, nil},
	{"riparian_nearest", "distance to the riparian lines", Length, nil},
	{"waterway_width", "width of the waterway", Length, nil},
	{"waterway_share", "share of the waterway taken", Ratio, nil},
	{"fetch", "longest fetch", Length, nil},
	{areaFamily, "named area touched", Names, nil},
	{"material", "material", Word, nil},
	{"kind", "kind of structure", Word, nil},
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
	Every   float64 // metres; 0 likewise
}
