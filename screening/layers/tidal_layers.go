package layers

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/screening/job"
)

// TidalKinds are the words by which a line says what it is, of each tidal line.
var TidalKinds = map[string]struct {
	own   *regexp.Regexp // it is this line
	other *regexp.Regexp // it is another
}{
	"high_water": {ofWords(`mean high ?water`, `mhwl?\d*`), ofWords(neither, `(mean )?low ?water`, `mlwl?\d*`)},
	"low_water":  {ofWords(`mean low ?water`, `mlwl?\d*`), ofWords(neither, `(mean )?high ?water`, `mhwl?\d*`)},
}

// neither are lines of shoreline products that are mean high water no more than mean
// low water.
const neither = `apparent|(mean )?higher high ?water|(mean )?lower low ?water|(extreme|highest|lowest) (high|low) ?water|mhhwl?\d*|mllwl?\d*|` +
	`mean (sea|tide) level|msl\d*|mtl\d*|(highest|lowest) astronomical tide|high tide line|` +
	`navd ?88 (zero|0)|(zero|0(\.0+)?)( ft| feet| m)? navd ?(88)?|` +
	`contours?|isobaths?|depth curves?|(data|survey) limits?|limits? of (the )?(source )?(data|survey)|` +
	`(marsh|mangrove|swamp) (edge|line)|edge of (the )?(marsh|mangroves?|swamp|vegetation)|vegetation (edge|limit|line)|breakers?|piers?|docks?|groins?|jetty|jetties`

// ofWords finds any of the words given as whole words.
func ofWords(words ...string) *regexp.Regexp {
	return regexp.MustCompile(`\b(` + strings.Join(words, "|") + `)\b`)
}

// joints are where words are joined without a blank: DEPTH_CONTOUR, Low-water, DataLimit.
var joints = regexp.MustCompile(`([_/-])|(\p{Ll})(\p{Lu})|(\p{Lu})(\p{Lu}\p{Ll})`)

// Spaced is a text in lower case with blanks between its words.
func Spaced(text string) string {
	return strings.ToLower(strings.Join(strings.Fields(joints.ReplaceAllString(text, "$2$4 $3$5")), " "))
}

const (
	// LongestKind is how long a value may be to be a class and no remark.
	LongestKind = 60
	// mostCrossings is how many places are looked for where the tidal lines cross.
	mostCrossings = 10_000
)

// asides are properties whose values say something else than what a line is: its number,
// what it is measured from, how and from what it was made, where it lies, whose it is,
// what it is called, what else is to be said.
var asides = regexp.MustCompile(`(?i)id$|datum|elev|ref|vert|meth|deriv|sourc|src|cita|photo|imag|flight|coord|plac|loca|reach|water_?b|county|cnty|city|town|beach|regio|own|name|note|comment|remark|inform|memo|status`)

// ofOtherKind says by which property a feature of a tidal line is a line of another
// kind; empty if none says so, or if the job says what its values mean: by an only that
// reads the property, or by a preset.
func (l *Layer) ofOtherKind(f *geojson.Feature) string {
	kind, tidal := TidalKinds[l.Name]
	if !tidal || l.Source.Preset != "" {
		return ""
	}
	for _, m := range f.Properties() {
		read := l.Source.Only != nil && strings.EqualFold(l.Source.Only.From, m.Key)
		var text string
		if read || m.Raw[0] != '"' || len(m.Raw) > LongestKind || asides.MatchString(m.Key) || json.Unmarshal(m.Raw, &text) != nil {
			continue
		}
		if words := Spaced(text); kind.other.MatchString(words) && !kind.own.MatchString(words) {
			return fmt.Sprintf("its %.40s is %q, which is no line of %s", m.Key, text, strings.TrimSuffix(strings.TrimPrefix(l.Title, "the "), " line"))
		}
	}
	return ""
}

// Crossings are where the two tidal lines cross, in degrees.
func (m *Set) Crossings() []orb.Point {
	low := m.Layer("low_water")
	if low == nil {
		return nil
	}
	return geo.Crossings(m.Layer("high_water").Geo, low.Geo, mostCrossings)
}

// upsideDown refuses tidal lines whose stated elevations are the wrong way round.
func (m *Set) upsideDown() error {
	high, low := m.Layer("high_water"), m.Layer("low_water")
	if low == nil || high.Source.Datum != low.Source.Datum {
		return nil
	}
	least := func(l *Layer, better func(a, b float64) bool) (float64, bool) {
		var out float64
		found := false
		for _, it := range l.Items {
			if e := it.Elevation; e == e && (!found || better(e, out)) {
				out, found = e, true
			}
		}
		return out, found
	}
	top, known := least(high, func(a, b float64) bool { return a > b })
	bottom, also := least(low, func(a, b float64) bool { return a < b })
	if known && also && top < bottom {
		return &job.Error{Message: fmt.Sprintf("%s (high_water) lies at most %s high and %s (low_water) at least %s: the two layers have changed places, or an elevation is wrong",
			strings.Join(high.Source.Files, ", "), job.FeetText(top), strings.Join(low.Source.Files, ", "), job.FeetText(bottom))}
	}
	return nil
}
