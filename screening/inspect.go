package screening

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
)

// Inspection is what a file of features says of itself.
type Inspection struct {
	File       string         `json:"file"`
	Bytes      int64          `json:"bytes"`
	SHA256     string         `json:"sha256"`
	Features   int            `json:"features"`
	Unusable   int            `json:"unusable"`
	Rebuilt    int            `json:"rebuilt"` // areas that a layer would rebuild
	Types      map[string]int `json:"geometry_types"`
	CRS        string         `json:"crs"`
	Extent     []float64      `json:"extent"` // degrees: west, south, east, north; null if nothing is usable
	Decimals   int            `json:"decimals"`
	GrainFt    float64        `json:"grain_ft"`
	Properties []PropertySeen `json:"properties"`
	Faults     []FaultSeen    `json:"faults"`
	Warnings   []string       `json:"warnings"`

	stray orb.Bound // of positions that can be no degrees, in the file's own system
}

// PropertySeen is a property of the features.
type PropertySeen struct {
	Name     string         `json:"name"`
	Types    map[string]int `json:"types"` // number, text, yes or no, list, object, empty
	Examples []string       `json:"examples"`
}

// FaultSeen is one kind of fault with where it first stands.
type FaultSeen struct {
	Wrong string   `json:"wrong"`
	Count int      `json:"count"`
	First []string `json:"first"`
}

const (
	// mostProperties and mostFaults bound what is kept of a file: one that has
	// more is no layer that a person can overlook.
	mostProperties = 300
	mostFaults     = 100
	// mostExamples is how many values, and places of a fault, are shown.
	mostExamples = 3
	// longestExample is how much of a value is shown, in characters.
	longestExample = 40
)

// Inspect reads a file and says what a careful colleague would of it before it is
// used. crs is its system, if stated.
func Inspect(files Files, name string, crs System) (*Inspection, error) {
	log := &inputLog{}
	in := &Inspection{File: name, Types: map[string]int{}, Properties: []PropertySeen{}, Faults: []FaultSeen{}, Warnings: []string{}}
	reader, err := readWhole(files, name, crs, log, in.feature)
	if err != nil {
		return nil, err
	}
	r := log.read[0]
	in.Bytes, in.SHA256, in.Features, in.CRS = r.Bytes, r.SHA256, r.Features, r.CRS
	in.Extent, in.Decimals = r.Extent, reader.Decimals()
	in.GrainFt = math.Round(reader.Grain()/foot*1e4) / 1e4
	in.Warnings = append(in.Warnings, r.Warnings...)
	if wrong := refuse(reader, name); wrong != nil {
		in.Warnings = append(in.Warnings, wrong.Error())
	}
	if in.stray = reader.Stray(); !in.stray.IsEmpty() {
		none := orb.Bound{Min: orb.Point{1, 1}, Max: orb.Point{-1, -1}}
		in.Warnings = append(in.Warnings, strayText("LAYER", in.stray, none))
	}
	slices.SortStableFunc(in.Faults, func(a, b FaultSeen) int { return cmp.Compare(b.Count, a.Count) })
	return in, nil
}

// readWhole is readFeatures for a file that may be of any layer, or a page of one.
func readWhole(files Files, name string, crs System, log *inputLog, visit func(*geo.Feature)) (*geo.Reader, error) {
	input, err := files.Open(name)
	if err != nil {
		return nil, &JobError{fmt.Sprintf("%s: cannot be opened: %v", name, err)}
	}
	defer input.Close()
	counted := log.begin("file", name, input)
	reader, err := newReader(name, counted, crs)
	if err != nil {
		return nil, err
	}
	for {
		f, err := reader.Next()
		if err == io.EOF {
			counted.settle(reader)
			return reader, counted.finish()
		}
		if err != nil {
			return nil, err
		}
		counted.feature(f)
		visit(f)
	}
}

func (in *Inspection) feature(f *geo.Feature) {
	for _, m := range f.Properties() {
		in.property(m)
	}
	place := fmt.Sprintf("feature %d", f.Number)
	if f.ID != "" {
		place += fmt.Sprintf(" (id %.*s)", longestExample, f.ID)
	}
	if f.Err != nil {
		in.Unusable++
		in.fault(f.Err.Wrong, place)
		return
	}
	in.Types[f.Geometry.GeoJSONType()]++
	if area := areaOf(f.Geometry); area != nil {
		in.area(area, place)
	}
	for _, line := range linesOf(f.Geometry) {
		if at, meets := geo.SelfMeeting(line); meets {
			in.fault(fmt.Sprintf("a line of it crosses or touches itself at (%.9g, %.9g)", at[0], at[1]), place)
			return
		}
	}
}

// area looks at an area as a layer would.
func (in *Inspection) area(area orb.MultiPolygon, place string) {
	wrong := geo.CheckArea(area)
	if wrong == nil {
		return
	}
	rebuilt, err := geo.RepairArea(area)
	if err != nil {
		in.Unusable++
		in.fault(fmt.Sprintf("%v; %v", wrong, err), place)
		return
	}
	in.Rebuilt++
	in.fault(fmt.Sprintf("%v; as a layer %s", wrong, rebuiltText(area, rebuilt)), place)
}

// areaOf returns a geometry as an area, nil if it is none.
func areaOf(g orb.Geometry) orb.MultiPolygon {
	switch g := g.(type) {
	case orb.Polygon:
		return orb.MultiPolygon{g}
	case orb.MultiPolygon:
		return g
	}
	return nil
}

// linesOf returns the lines of a geometry, nil if it is none.
func linesOf(g orb.Geometry) orb.MultiLineString {
	switch g := g.(type) {
	case orb.LineString:
		return orb.MultiLineString{g}
	case orb.MultiLineString:
		return g
	}
	return nil
}

// figures are what tells one fault of a kind from another.
var figures = regexp.MustCompile(`[-+]?[0-9][-+0-9.e]*`)

// fault counts a fault by its kind: its words without the figures.
func (in *Inspection) fault(wrong, place string) {
	kind := figures.ReplaceAllString(wrong, "#")
	for i := range in.Faults {
		if f := &in.Faults[i]; figures.ReplaceAllString(f.Wrong, "#") == kind {
			f.Count++
			if len(f.First) < mostExamples {
				f.First = append(f.First, place)
			}
			return
		}
	}
	if len(in.Faults) < mostFaults {
		in.Faults = append(in.Faults, FaultSeen{wrong, 1, []string{place}})
	}
}

// personal finds properties that may name a person, whose values are not shown.
var personal = regexp.MustCompile(`(?i)own|addr|name[12]$|mail|phone|^o_?(city|state|zip)|applicant|grantee|taxpayer`)

func (in *Inspection) property(m geo.Member) {
	at := slices.IndexFunc(in.Properties, func(p PropertySeen) bool { return p.Name == m.Key })
	if at < 0 {
		if len(in.Properties) == mostProperties {
			return
		}
		at = len(in.Properties)
		in.Properties = append(in.Properties, PropertySeen{Name: m.Key, Types: map[string]int{}, Examples: []string{}})
	}
	p := &in.Properties[at]
	kind, text := kindOf(m.Raw)
	p.Types[kind]++
	if len(p.Examples) == mostExamples || kind == "empty" || personal.MatchString(m.Key) {
		return
	}
	if runes := []rune(text); len(runes) > longestExample {
		text = string(runes[:longestExample]) + "..."
	}
	if !slices.Contains(p.Examples, text) {
		p.Examples = append(p.Examples, text)
	}
}

// kindOf says what a value is, and how it reads.
func kindOf(raw json.RawMessage) (kind, text string) {
	switch text = strings.TrimSpace(string(raw)); {
	case text == "null", text == `""`:
		return "empty", ""
	case text == "true", text == "false":
		return "yes or no", text
	case strings.HasPrefix(text, "["):
		return "list", text
	case strings.HasPrefix(text, "{"):
		return "object", text
	case strings.HasPrefix(text, `"`):
		var s string
		json.Unmarshal(raw, &s) // valid, as it was read
		return "text", s
	}
	return "number", text
}
