package job

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"waterward/rules"
	"waterward/screening/levels"
)

// Job says what to screen, against which layers, under which books.
type Job struct {
	Title        string          `yaml:"title"` // of its pages
	DecisionDate Day             `yaml:"decision_date"`
	Books        []string        `yaml:"books"`
	Unverified   bool            `yaml:"unverified"` // show notices that rest on unverified figures
	NoRepair     bool            `yaml:"no_repair"`  // areas that are not valid are refused, not rebuilt
	SearchRadius Distance        `yaml:"search_radius"`
	Proposals    ProposalSources `yaml:"proposals"`
	Layers       LayerSources    `yaml:"layers"`
	Envelope     Envelope        `yaml:"envelope"`
	Levels       *Levels         `yaml:"levels"`
	StakeoutCRS  System          `yaml:"stakeout_crs"` // of eastings and northings of places to be found
}

// LayerSources are the mapped layers; only the high water line is required.
type LayerSources struct {
	HighWater *LayerSource           `yaml:"high_water"`
	LowWater  *LayerSource           `yaml:"low_water"`
	Shoreline *LayerSource           `yaml:"shoreline"`
	Seagrass  *LayerSource           `yaml:"seagrass"`
	Wetlands  *LayerSource           `yaml:"wetlands"`
	Channels  *LayerSource           `yaml:"channels"`
	Riparian  *LayerSource           `yaml:"riparian"`
	Parcels   *LayerSource           `yaml:"parcels"`
	Areas     map[string]LayerSource `yaml:"areas"`
}

// LayerSource is one mapped layer and what is stated of it.
type LayerSource struct {
	Files    FileList `yaml:"file"`
	CRS      System   `yaml:"crs"`      // of both files, whatever they say themselves
	Surveyed string   `yaml:"surveyed"` // areas inside which the layer is complete
	None     bool     `yaml:"none"`     // it was looked for, and there is none
	Accuracy Distance `yaml:"accuracy"` // horizontal, 95 %
	// DatumShift is a known or suspected shift between this layer's horizontal
	// datum and the proposals', added to how far distances may be off.
	DatumShift Distance  `yaml:"datum_shift"`
	Datum      string    `yaml:"datum"` // of elevations
	Epoch      string    `yaml:"epoch"`
	Date       string    `yaml:"date"`
	Key        string    `yaml:"key"`        // the property that names a parcel
	MaxAge     rules.Age `yaml:"max_age"`    // older data support no firm result
	Preset     string    `yaml:"preset"`     // properties and only of a public schema
	Properties Fields    `yaml:"properties"` // where the file has what is read
	Only       *Only     `yaml:"only"`       // which features belong to the layer; nil: all
	Carry      []string  `yaml:"carry"`      // properties of parcels that go into the outputs as they are
}

// DefaultRadius is how far round a proposal layers are searched, in metres
// (1,000 ft).
const DefaultRadius = 304.8

// Check reports what a job lacks to screen proposals, all at once. It changes nothing.
func (j *Job) Check() error {
	return errors.Join(j.Proposals.check(), j.checkLayers())
}

// CheckEnvelope reports what a job lacks to look where structures could go.
func (j *Job) CheckEnvelope() error {
	err := j.checkLayers()
	if p := j.Layers.Parcels; p == nil || len(p.Files) == 0 {
		err = errors.Join(errors.New("no parcels: write layers: {parcels: {file: ...}}, or give --parcels"), err)
	}
	if err != nil {
		return &Error{err.Error()}
	}
	return j.Envelope.Settled().check()
}

// checkLayers reports what a job lacks whatever is to be done with it.
func (j *Job) checkLayers() error {
	var lacks []string
	if j.DecisionDate.IsZero() {
		lacks = append(lacks, "decision_date is missing: write decision_date: 2026-11-25, or give --decision-date")
	}
	if len(j.Books) == 0 {
		lacks = append(lacks, "no rule books: write books: [...], or give --book; built in are "+strings.Join(rules.BuiltInNames(), ", "))
	}
	if j.Layers.HighWater == nil || len(j.Layers.HighWater.Files) == 0 {
		lacks = append(lacks, "no high water line: write layers: {high_water: {file: ...}}, or give --high-water")
	}
	for name, source := range j.Layers.Named() {
		if source != nil && (len(source.Files) == 0 && !source.None || slices.Contains(source.Files, "")) {
			lacks = append(lacks, fmt.Sprintf("layer %s has no file", name))
		}
	}
	if why := j.StakeoutCRS.noGrid(); why != "" {
		lacks = append(lacks, "stakeout_crs: "+why)
	}
	for i := range j.Proposals {
		lacks = append(lacks, j.Proposals[i].Properties.check("proposals", ProposalProperties())...)
	}
	for name, source := range j.Layers.Each() {
		lacks = append(lacks, source.Properties.check(name, layerProperties)...)
		lacks = append(lacks, source.checkCarry(name)...)
		if o := source.Only; o != nil && (o.From == "" || len(o.AnyOf)+len(o.StartsWith) == 0) {
			lacks = append(lacks, fmt.Sprintf("%s: only says which features belong to the layer: {from: PROPERTY, any_of: [...]} or starts_with", name))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(j.Layers.Areas)) {
		if !plainName(name) {
			lacks = append(lacks, fmt.Sprintf("area %q: name it with lower-case letters, digits and _, as it becomes part of a column name", name))
		}
	}
	for name, source := range j.Layers.Each() {
		if on, ok := ParseDate(source.Date); ok && on.After(j.DecisionDate.Time) && !j.DecisionDate.IsZero() {
			lacks = append(lacks, fmt.Sprintf("%s: its date is %s, after the decision date %s: correct one of them", name, DayText(on), DayText(j.DecisionDate.Time)))
		}
		if len(source.Files) == 0 && !source.None && strings.HasPrefix(name, "areas.") {
			lacks = append(lacks, fmt.Sprintf("layer %s has no file", name))
		}
		if source.Epoch != "" {
			if _, err := levels.ParseEpoch(source.Epoch); err != nil {
				lacks = append(lacks, name+": epoch: "+err.Error())
			}
		}
	}
	if high, low := j.Layers.HighWater, j.Layers.LowWater; high != nil && low != nil &&
		high.Epoch != "" && low.Epoch != "" && high.Epoch != low.Epoch {
		lacks = append(lacks, fmt.Sprintf("high_water is of the tidal epoch %s and low_water of %s; lines of two epochs cannot be set against each other", high.Epoch, low.Epoch))
	}
	if len(lacks) > 0 {
		return errors.New(strings.Join(lacks, "\n"))
	}
	return nil
}

func plainName(name string) bool {
	for _, c := range name {
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '_') {
			return false
		}
	}
	return name != ""
}
