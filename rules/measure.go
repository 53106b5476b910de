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

// Measure is one entry of the closed list of things a criterion can ask for.
type Measure struct {
	Name       string
	Title      string // in words, to follow "the"
	Quantity   Quantity
	Parameters []string // what the criterion must say beside the measure: opening, every
	Stated     bool     // a word that the proposal states
	Dated      bool     // its value names the one layer it rests on, whose age a book can limit
	Words      []string // the only words it can be, if they are few
	Familiar   []string // words of the trade that a book need not list: what it does not, they are not
}

var yesNo = []string{"yes", "no"}

// kinds are the trade's words for what stands at a shore (common practice, no source):
// a path that does not list one of them is not for it.
var kinds = []string{
	"breakwater", "sill", "reef", "revetment", "riprap", "bulkhead", "seawall", "groin", "jetty",
	"dock", "pier", "wharf", "boat ramp", "boathouse", "mooring", "pilings", "marina", "bridge", "culvert", "beach fill",
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
	{Name: "element_length", Title: "length of the elements together", Quantity: Length},
	{Name: "overall_length", Title: "overall length with openings", Quantity: Length},
	{Name: "project_length", Title: "overall length of the whole project", Quantity: Length},
	{Name: "longest_run", Title: "longest run without a counting opening", Quantity: Length, Parameters: []string{OpeningParameter}},
	{Name: "opening_spacing", Title: "greatest spacing of counting openings", Quantity: Length, Parameters: []string{OpeningParameter}},
	{Name: "narrowest_opening", Title: "narrowest opening", Quantity: Length},
	{Name: "openings", Title: "number of counting openings", Quantity: Count, Parameters: []string{OpeningParameter}},
	{Name: "openings_lacking", Title: "number of openings lacking", Quantity: Count, Parameters: []string{OpeningParameter, EveryParameter}},
	{Name: "longest_overlap", Title: "longest overlap of neighbouring elements", Quantity: Length, Dated: true},
	{Name: "bank_length", Title: "length along the bank", Quantity: Length, Dated: true},
	{Name: "project_bank_length", Title: "length along the bank of the whole project", Quantity: Length, Dated: true},
	{Name: "mhw_farthest", Title: "farthest reach from mean high water", Quantity: Length, Dated: true},
	{Name: "mhw_nearest", Title: "nearest reach from mean high water", Quantity: Length, Dated: true},
	{Name: "mhw_landward_edge", Title: "reach of the landward edge from mean high water", Quantity: Length, Dated: true},
	{Name: "mlw_farthest", Title: "farthest reach from mean low water", Quantity: Length, Dated: true},
	{Name: "mlw_nearest", Title: "nearest reach from mean low water", Quantity: Length, Dated: true},
	{Name: "mlw_landward_edge", Title: "reach of the landward edge from mean low water", Quantity: Length, Dated: true},
	{Name: "mtl_landward_edge", Title: "reach of the landward edge from the mid-tide line", Quantity: Length},
	{Name: "crest_above_mhw", Title: "crest height above mean high water", Quantity: Length, Dated: true},
	{Name: "crest_above_wetland", Title: "crest height above the wetland", Quantity: Length},
	{Name: "crest_exposed", Title: "share of the time in which the crest is out of the water", Quantity: Ratio},
	{Name: "bed_exposed", Title: "share of the time in which the bed is out of the water", Quantity: Ratio},
	{Name: "crest_share_mhw", Title: "height over the bed as a share of the depth at mean high water", Quantity: Ratio},
	{Name: "crest_share_msl", Title: "height over the bed as a share of the depth at mean sea level", Quantity: Ratio},
	{Name: "mhw_mean_depth", Title: "mean depth below mean high water", Quantity: Length, Dated: true},
	{Name: "mlw_greatest_depth", Title: "greatest depth below mean low water", Quantity: Length, Dated: true},
	{Name: "bed_expected", Title: "bed of a straight foreshore", Quantity: Length, Dated: true},
	{Name: "footprint_area", Title: "footprint area", Quantity: Area},
	{Name: "fill_volume", Title: "fill volume", Quantity: Volume},
	{Name: "fill_below_mhw", Title: "fill volume below mean high water", Quantity: Volume},
	{Name: "fill_below_htl", Title: "fill volume below the high tide line", Quantity: Volume},
	{Name: "fill_per_length", Title: "fill per length of bank", Quantity: VolumePerLength, Dated: true},
	{Name: "fill_tide_ranges", Title: "height of the fill above mean low water in mean tide ranges", Quantity: Ratio},
	{Name: "fill_fines", Title: "share of fines in the fill", Quantity: Ratio},
	{Name: "fill_proposed", Title: "fill proposed", Quantity: Word, Stated: true, Words: yesNo, Familiar: yesNo},
	{Name: "side_slope", Title: "side slope, horizontal to one vertical", Quantity: Ratio},
	{Name: "stone_size", Title: "size of the stone", Quantity: Length},
	{Name: "seagrass_overlap", Title: "seagrass under the footprint", Quantity: Area, Dated: true},
	{Name: "seagrass_nearest", Title: "distance to seagrass", Quantity: Length, Dated: true},
	{Name: "wetland_overlap", Title: "wetland under the footprint", Quantity: Area, Dated: true},
	{Name: "wetland_nearest", Title: "distance to wetlands", Quantity: Length, Dated: true},
	{Name: "wetland_behind", Title: "distance to the wetland behind it", Quantity: Length, Dated: true},
	{Name: "wetland_farthest", Title: "farthest reach from the wetland", Quantity: Length, Dated: true},
	{Name: "wetland_landward_edge", Title: "reach of the landward edge from the wetland", Quantity: Length, Dated: true},
	{Name: "wetland_width", Title: "width of the wetland", Quantity: Length},
	{Name: "channel_nearest", Title: "distance to the channel", Quantity: Length, Dated: true},
	{Name: "channel_reach", Title: "reach of the nearest channel", Quantity: Word, Dated: true},
	{Name: "riparian_nearest", Title: "distance to the riparian lines", Quantity: Length, Dated: true},
	{Name: "waterway_width", Title: "width of the waterway", Quantity: Length, Dated: true},
	{Name: "waterway_share", Title: "share of the waterway taken", Quantity: Ratio, Dated: true},
	{Name: "fetch", Title: "longest fetch", Quantity: Length},
	{Name: areaFamily, Title: "named area touched", Quantity: Names, Dated: true},
	{Name: "material", Title: "material", Quantity: Word, Stated: true},
	{Name: "kind", Title: "kind of structure", Quantity: Word, Stated: true, Familiar: kinds},
}

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
