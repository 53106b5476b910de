package inspect

import (
	"cmp"
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/crs"
	"waterward/geo/geojson"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Inspection is what a file of features says of itself.
type Inspection struct {
	Layer      string         `json:"layer,omitempty"` // what a job takes the file for
	File       string         `json:"file"`
	Bytes      int64          `json:"bytes"`
	SHA256     string         `json:"sha256"`
	Features   int            `json:"features"`
	Unusable   int            `json:"unusable"`
	Rebuilt    int            `json:"rebuilt"` // areas that a layer would rebuild
	Types      map[string]int `json:"geometry_types"`
	CRS        string         `json:"crs"`
	Assumed    bool           `json:"crs_assumed"` // as nothing states one
	Extent     []float64      `json:"extent"`      // degrees: west, south, east, north; null if nothing is usable
	Decimals   int            `json:"decimals"`
	GrainFt    float64        `json:"grain_ft"`
	Properties []PropertySeen `json:"properties"`
	Faults     []FaultSeen    `json:"faults"`
	Page       string         `json:"page_of_more,omitempty"` // by what it says that more of its layer is elsewhere
	Refused    string         `json:"refused,omitempty"`      // why nothing can be screened with the file
	Warnings   []string       `json:"warnings"`

	datum  crs.Datum
	stray  orb.Bound      // of positions that can be no degrees, in the file's own system
	broken map[string]int // types of the geometries that cannot be used
	alien  int            // features that do not say that they are
}

// File reads a file and says what a careful colleague would of it before it is
// used. crs is its system, if stated.
func File(files job.Files, name string, system job.System) (*Inspection, error) {
	in := newInspection("", name)
	if err := in.read(files, system, func(f *geojson.Feature) { in.check(f, false) }); err != nil {
		return nil, errors.New(ownFlag(err.Error()))
	}
	for i := range in.Faults {
		in.Faults[i].Remedy = ownFlag(in.Faults[i].Remedy)
	}
	in.finish()
	return in, nil
}

// ownFlag names the flag of inspect, which is of no layer, in place of that of screen.
func ownFlag(text string) string { return strings.ReplaceAll(text, "--crs LAYER=", "--crs ") }

func newInspection(layer, file string) *Inspection {
	return &Inspection{
		Layer: layer, File: file, Types: map[string]int{}, broken: map[string]int{}, stray: layers.EmptyBound,
		Properties: []PropertySeen{}, Faults: []FaultSeen{}, Warnings: []string{},
	}
}

// read counts every feature of the file, has it checked and settles what is known at
// the end.
func (in *Inspection) read(files job.Files, system job.System, check func(*geojson.Feature)) error {
	log := &inputs.Log{}
	reader, err := layers.ReadFeatures(files, "", in.File, system, log, func(f *geojson.Feature) {
		in.count(f)
		check(f)
	})
	if err != nil {
		return err
	}
	r := log.Sorted()[0]
	in.Bytes, in.SHA256, in.Features, in.CRS, in.Extent = r.Bytes, r.SHA256, r.Features, r.CRS, r.Extent
	in.Assumed = system.System == nil && !statesCRS(reader)
	in.Decimals, in.GrainFt = reader.Decimals(), reader.Grain()/job.Foot
	in.datum, in.stray = reader.CRS().Datum, reader.Stray()
	if in.Extent != nil { // else there are no positions to warn of
		in.warn(r.Warnings)
	}
	in.Page = inputs.PageSign(reader)
	if err := inputs.Refuse(reader, in.File); err != nil && in.mustBeWhole() {
		in.Refused = err.Error()
	}
	return nil
}

// mustBeWhole reports whether a job takes the file for what a page of cannot be screened
// with: rows would lack, or a survey would end where the page does.
func (in *Inspection) mustBeWhole() bool {
	return in.Layer == "proposals" || strings.HasSuffix(in.Layer, ".surveyed")
}

// finish chooses what is shown, the most frequent first.
func (in *Inspection) finish() {
	in.hide()
	for i := range in.Properties {
		in.Properties[i].choose()
	}
	slices.SortStableFunc(in.Faults, func(a, b FaultSeen) int { return cmp.Compare(b.Count, a.Count) })
}

// count counts a feature and what it states.
func (in *Inspection) count(f *geojson.Feature) {
	for _, m := range f.Properties() {
		in.property(m)
	}
	if f.Err == nil {
		in.Types[f.Geometry.GeoJSONType()]++
		return
	}
	var geometry struct{ Type string }
	json.Unmarshal([]byte(f.GeometryText()), &geometry) // what cannot be read is of no type
	in.broken[geometry.Type]++
	if f.Readable() && f.GeometryText() == "" && !f.Unlocated() {
		in.alien++
	}
}

// warn takes over warnings of a file of no role.
func (in *Inspection) warn(texts []string) {
	for _, text := range texts {
		in.Warnings = append(in.Warnings, strings.TrimPrefix(text, ": "))
	}
}

// statesCRS reports whether a file states a system, as GeoJSON once had it.
func statesCRS(r *geojson.Reader) bool {
	stated := func(m geojson.Member) bool { return m.Key == "crs" && string(m.Raw) != "null" }
	return slices.ContainsFunc(r.Before(), stated) || slices.ContainsFunc(r.After(), stated) || !r.CRS().IsDegrees() || r.CRS().Datum != crs.WGS84
}
