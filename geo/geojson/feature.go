package geojson

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/flat"
)

// Feature is one GeoJSON feature as it was read. Its text is kept, so that it
// can be written again byte for byte.
type Feature struct {
	Number   int           // place in the file, from 1
	ID       string        // the id property, else the id member, as text; may be empty
	Geometry orb.Geometry  // degrees; nil if Err is set
	Err      *FeatureError // why the feature cannot be used

	crs        *crs.System // of its positions as written
	raw        []byte      // the whole feature
	properties []Member
	geometry   json.RawMessage
	decimals   int       // with which its positions are written, see digits
	readable   bool      // raw is valid JSON with an object in it
	unlocated  bool      // it has no geometry, which RFC 7946 (section 3.2) allows
	given      bool      // crs was, whatever the file says
	bound      orb.Bound // of Geometry
}

func (f *Feature) fail(file, wrong, remedy string) {
	f.Err = &FeatureError{File: file, Number: f.Number, ID: f.ID, Wrong: wrong, Remedy: remedy}
}

const (
	// deepest is how many brackets within one another are read as JSON, by
	// encoding/json.
	deepest = 10_000
	// LongestText is how long, in bytes, the name of a property may be, and one
	// that is read as a name or a word. It stands in many rows; what is longer is
	// a slip.
	LongestText = 10_000
)

// parse reads the feature from its text, whose brackets stand so deep within one
// another, and says what is wrong with it.
func (f *Feature) parse(file string, depth int) {
	if !json.Valid(f.raw) {
		switch {
		case bytes.IndexByte(f.raw, 0) >= 0:
			f.fail(file, "it holds a NUL byte (0x00), which no text does", "write it again")
		case depth >= deepest:
			f.fail(file, fmt.Sprintf("its brackets stand %d deep within one another", depth), "write the feature again: a geometry needs 6")
		case bytes.Contains(f.raw, []byte("NaN")) || bytes.Contains(f.raw, []byte("Infinity")):
			f.fail(file, "it holds NaN or Infinity, which are not numbers in JSON", "give every position as two finite numbers")
		default:
			f.fail(file, "it is not valid JSON", "mend or rewrite the feature")
		}
		return
	}
	all, err := members(f.raw)
	if err != nil {
		f.fail(file, fmt.Sprintf("it is %v", err), "write it as a GeoJSON feature")
		return
	}
	f.readable = true
	var kind string
	var geometry, properties, id json.RawMessage
	for _, m := range all {
		switch m.Key {
		case "type":
			kind = string(m.Raw)
		case "geometry":
			geometry = m.Raw
		case "id":
			id, f.ID = m.Raw, plainText(m.Raw)
		case "properties":
			properties = m.Raw
			if f.properties, err = members(m.Raw); err != nil && err != errNoObject {
				f.readable = false
				f.fail(file, fmt.Sprintf("its properties are %v", err), "leave out what is not needed")
				return
			}
		}
	}
	if own := plainText(f.Property("id")); own != "" {
		f.ID = own
	}
	if halved(id) || halved(f.Property("id")) {
		f.ID = ""
		f.fail(file, "its id holds half of a character, a surrogate (such as \\ud800) without the other", "write the character whole")
		return
	}
	if n := len(f.ID); n > LongestText {
		f.ID = ""
		f.fail(file, fmt.Sprintf("its id is %d bytes long", n), "give it a short one")
		return
	}
	for _, part := range [][]Member{all, f.properties} {
		if twice := repeated(part); twice != "" {
			f.fail(file, fmt.Sprintf("it has the member %.40q twice", twice), "keep one: readers differ on which of them counts")
			return
		}
	}
	if kind != `"Feature"` {
		f.fail(file, fmt.Sprintf("its type is %.30s", orNone(kind)), `write "type": "Feature"`)
		return
	}
	if len(properties) > 0 && properties[0] != '{' && string(properties) != "null" {
		f.fail(file, "its properties are not an object", "write them as {...} or null")
		return
	}
	f.geometry = geometry
	if f.unlocated = len(geometry) == 0 || string(geometry) == "null"; f.unlocated {
		f.fail(file, "it has no geometry", "draw it, or take the feature out")
		return
	}
	if err := f.ownCRS(all, geometry); err != nil {
		f.fail(file, "its crs member: "+err.Error(), "give the layer's own system with --crs")
		return
	}
	g, decimals, wrong := parseGeometry(geometry, f.CRS())
	if wrong != nil {
		f.fail(file, wrong.wrong, wrong.remedy)
		return
	}
	f.Geometry, f.decimals, f.bound = g, decimals, flat.BoundOf(g)
}

// ownCRS takes the system that the feature or its geometry states, as GeoJSON once
// had it, unless it was given.
func (f *Feature) ownCRS(feature []Member, geometry []byte) error {
	if f.given {
		return nil
	}
	own, err := statedCRS(feature)
	drawn, wrong := statedCRS(inner(geometry)) // what is no object is found out later
	switch {
	case err != nil || wrong != nil:
		return cmp.Or(err, wrong)
	case own != nil && drawn != nil && own.Code != drawn.Code:
		return fmt.Errorf("it is %s, and that of its geometry %s, of which only one can be meant", own.Name, drawn.Name)
	}
	f.crs = cmp.Or(drawn, own, f.crs)
	return nil
}

// repeated returns a key that stands in an object more than once.
func repeated(all []Member) string {
	seen := make(map[string]bool, len(all))
	for _, m := range all {
		if seen[m.Key] {
			return m.Key
		}
		seen[m.Key] = true
	}
	return ""
}

func orNone(s string) string {
	if s == "" {
		return "not given"
	}
	return s
}

// Bound returns the bound of a usable feature in degrees.
func (f *Feature) Bound() orb.Bound { return f.bound }

// CRS returns the system the feature's positions are written in.
func (f *Feature) CRS() *crs.System { return f.crs }

// Grain is how far, in metres, the feature's positions may be off for want of digits: half
// a unit of the last decimal with which they are written, along a meridian or an axis. 0 if
// it has none.
func (f *Feature) Grain() float64 {
	if f.Geometry == nil {
		return 0
	}
	return 0.5 * math.Pow10(-f.decimals) * f.CRS().Unit.Metres()
}

// HasHeights reports whether the first of the feature's positions has a third number.
func (f *Feature) HasHeights() bool {
	_, text, _ := bytes.Cut(f.geometry, []byte(`"coordinates"`))
	first, _, _ := bytes.Cut(text, []byte("]"))
	return bytes.Count(first, []byte(",")) > 1
}

// GeometryText is the geometry as it was written.
func (f *Feature) GeometryText() string { return string(f.geometry) }

// Unlocated reports whether the feature says that it has no geometry.
func (f *Feature) Unlocated() bool { return f.unlocated }

// Readable reports whether the feature's properties could be read, whatever else
// is wrong with it.
func (f *Feature) Readable() bool { return f.readable }

// Properties returns the feature's properties in their order.
func (f *Feature) Properties() []Member { return f.properties }

// Property returns the raw value of a property, nil if there is none.
func (f *Feature) Property(name string) json.RawMessage {
	for _, m := range f.properties {
		if m.Key == name {
			return m.Raw
		}
	}
	return nil
}

// Text returns a property as text: a string without its quotes, a number as it
// was written; empty if absent or null.
func (f *Feature) Text(name string) string { return plainText(f.Property(name)) }

// Numbers returns a property that is one number or a list of numbers, nil if it
// is absent, null or empty.
func (f *Feature) Numbers(name string) ([]float64, error) {
	var list []float64
	if raw := f.Property(name); len(raw) > 0 && raw[0] == '[' {
		if err := json.Unmarshal(raw, &list); err != nil || bytes.Contains(raw, []byte("null")) {
			return nil, fmt.Errorf("%s is %.40s, which is not a list of numbers", name, raw)
		}
		return list, nil
	}
	return ParseNumbers(name, f.Text(name))
}

// ParseNumbers reads text that spells one number; none if it is blank. name is for
// the message.
func ParseNumbers(name, text string) ([]float64, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil, nil
	}
	value, err := strconv.ParseFloat(text, 64)
	// Text must be a number as JSON writes it: Go would read 1_000 as well.
	if err != nil || !json.Valid([]byte(text)) {
		return nil, fmt.Errorf("%s is %.40q, which is not a number", name, text)
	}
	return []float64{value}, nil
}

// NewFeature returns a feature made here, whose positions are longitude and latitude in
// a system.
func NewFeature(id string, g orb.Geometry, system *crs.System) *Feature {
	return &Feature{ID: id, Geometry: g, bound: flat.BoundOf(g), crs: system, decimals: mostTold}
}
