package inspect

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// PropertySeen is a property of the features.
type PropertySeen struct {
	Name     string         `json:"name"`
	Types    map[string]int `json:"types"`             // number, text, yes or no, list, object, empty
	Classes  []ClassSeen    `json:"classes,omitempty"` // if it has few values: the most frequent
	More     int            `json:"more_classes,omitempty"`
	Examples []string       `json:"examples"` // if it has many
	Hidden   bool           `json:"not_shown,omitempty"`

	seen  map[string]int // how often each value stands there; nil: it has too many
	wordy bool           // values of it are several words
}

// ClassSeen is one of the few values of a property.
type ClassSeen struct {
	Value string `json:"value"`
	Count int    `json:"count"`
}

const (
	// mostProperties bounds what is kept of a file, as mostFaults does.
	mostProperties = 300
	// mostClasses is how many values a property may have to tell classes of features.
	mostClasses = 50
	// mostShown is how many of them are shown.
	mostShown = 8
)

// personal finds properties that may name a person, or say where one lives.
var personal = regexp.MustCompile(`(?i)owner|(^|_)own|^o_?(name|addr|city|state|zip)|addr|street|situs|name_?[12]$|` +
	`(^|_)(first|middle|last|full|sur)_?n|mail|phone|^tel$|_tel$|fax|applicant|(^|_)agent|grant(or|ee)|taxpayer|tenant|less(or|ee)|` +
	`contact|resident|occupant|deed|buyer|seller|trustee|person`)

// ofParcels finds properties by which a file is known to be of parcels.
var ofParcels = regexp.MustCompile(`(?i)parcel|^pin$|^apn$|^parid$|folio|tax_?id|^altkey$|owner|^oname$|taxpayer|grantee`)

// named finds names, and words finds several words in a row: of parcels either may be
// the owner's.
var (
	named = regexp.MustCompile(`(?i)name|(^|_)nm(_|$)`)
	words = regexp.MustCompile(`\pL{2,}[ ,.&'/-]+\pL{2,}`)
)

func (in *Inspection) property(m geojson.Member) {
	at := slices.IndexFunc(in.Properties, func(p PropertySeen) bool { return p.Name == m.Key })
	if at < 0 {
		if len(in.Properties) == mostProperties {
			return
		}
		at = len(in.Properties)
		in.Properties = append(in.Properties, PropertySeen{Name: m.Key, Types: map[string]int{}, Examples: []string{}, seen: map[string]int{}})
	}
	p := &in.Properties[at]
	kind, text := kindOf(m.Raw)
	p.Types[kind]++
	if kind == "empty" {
		return
	}
	p.wordy = p.wordy || kind != "number" && words.MatchString(text)
	if len(p.Examples) < mostExamples && !slices.Contains(p.Examples, layers.Short(text)) {
		p.Examples = append(p.Examples, layers.Short(text))
	}
	if p.seen == nil {
		return
	}
	if p.seen[text]++; len(p.seen) > mostClasses || len(text) > layers.LongestKind {
		p.seen = nil
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

// hide marks what may name a person, and takes it out of the places of faults.
func (in *Inspection) hide() {
	parcels := in.Layer == "parcels" || slices.ContainsFunc(in.Properties, func(p PropertySeen) bool { return ofParcels.MatchString(p.Name) })
	for i := range in.Properties {
		p := &in.Properties[i]
		p.Hidden = personal.MatchString(p.Name) || parcels && (p.wordy || named.MatchString(p.Name))
	}
	if !parcels {
		return
	}
	for _, f := range in.Faults {
		for i, where := range f.First {
			f.First[i], _, _ = strings.Cut(where, layers.IdMark)
		}
	}
}

// choose takes the values to be shown: with how often each stands there, if they are
// few or come again and again; else some of them.
func (p *PropertySeen) choose() {
	all := 0
	for _, n := range p.seen {
		all += n
	}
	classes := len(p.seen) > 0 && (len(p.seen) <= mostShown || all >= 2*len(p.seen))
	switch {
	case p.Hidden:
		p.Examples = []string{}
	case classes:
		p.Examples = []string{}
		values := slices.SortedFunc(maps.Keys(p.seen), func(a, b string) int { return cmp.Or(p.seen[b]-p.seen[a], strings.Compare(a, b)) })
		p.More = max(0, len(values)-mostShown)
		for _, value := range values[:len(values)-p.More] {
			p.Classes = append(p.Classes, ClassSeen{layers.Short(value) + asDay(value), p.seen[value]})
		}
	default:
		for i, text := range p.Examples {
			p.Examples[i] += asDay(text)
		}
	}
}

// asDay is the day that a count of milliseconds may mean, in brackets; empty if it is
// none of these times.
func asDay(text string) string {
	_, err := strconv.ParseInt(text, 10, 64)
	day, ok := job.ParseDate(text)
	if err != nil || !ok || len(text) < job.Milliseconds || day.Year() < 1970 || day.Year() > 2100 {
		return ""
	}
	return " (if milliseconds: " + day.Format(time.DateOnly) + ")"
}

// String is what a property holds, for a person.
func (p *PropertySeen) String() string {
	shown := strings.Join(p.Examples, ", ")
	if p.Hidden {
		shown = "not shown, as it may name a person"
	}
	var classes []string
	for _, c := range p.Classes {
		classes = append(classes, fmt.Sprintf("%s (%d)", c.Value, c.Count))
	}
	if p.More > 0 {
		classes = append(classes, "and "+job.Count(p.More, "more value"))
	}
	return fmt.Sprintf("%s: %s; %s", p.Name, counts(p.Types), shown+strings.Join(classes, ", "))
}
