package site

import (
	"slices"
	"strings"

	"waterward/geo"
	"waterward/rules"
	"waterward/screening/job"
)

// Record is all that a screening says of a measure; tables of measures are made of it.
type Record struct {
	Name   string
	Column Column // in the tables
	Layer  string // that it is taken from; empty: from none

	Property string   // of the proposal, that it rests on; empty: on none
	Stated   bool     // it is that property as it stands
	Within   job.Span // of a stated number
	why      string   // why no map answers it, before what to do

	Shore   bool   // it hangs on the home bank or the low water line along it, or is measured with what does
	bank    bool   // it is not known where it is not known to which shore a structure belongs
	bed     bool   // it rests on the elevation of the bed stated
	Tides   bool   // it rests on water levels
	project bool   // it is added up over the proposals of a project
	needs   string // the measure of a place that it is made of

	off    func(*geo.Bank, *geo.Footprint) geo.Readings     // how it is taken from a tidal line
	toe    bool                                             // so, from the waterward toe
	count  func(*geo.Footprint, rules.Ref, float64) float64 // how it is taken of openings, by the overall length
	Strip  func(limit, width float64, ref rules.Ref) Strip  // what a limit leaves of a strip along the shore
	placed *widened                                         // how it differs for a mound as placed
	Placed int                                              // its place among the columns of the mound as placed, from 1; 0: it has none

	place bool  // it is a matter of the place alone, whatever stands there
	Whole whole // how that of a structure follows from those of its places
	Drawn bool  // its limits are lines at a distance from those of its layer
	side  geo.LimitSide
	Blame string // what it is that keeps a structure off a place
	Reach bool   // what fails it lies beyond a path's own reach, which is no loss
}

// Column is a column of the tables.
type Column struct {
	Name     string  // ends in the unit
	PerUnit  float64 // SI units in one unit of it; 0 of words
	Decimals int
}

// whole says how the value of a structure follows from those of the places it covers.
type whole int

const (
	alike    whole = iota // it is the same for all of them, or not made of them
	Least                 // it is the least of them
	Greatest              // it is the greatest of them, or their sum
)

// RecordOf is the record of a measure; of a named area it has its layer, column and name.
// It is empty of what rules do not know.
func RecordOf(measure string) Record {
	family, area, named := strings.Cut(measure, ":")
	r, known := byName[family]
	if known && named {
		r.Name, r.Layer, r.Blame = measure, "areas."+area, area
		r.Column.Name += "_" + area
	}
	return r
}

// those are the records of which something holds, in the order of the tables.
func those(holds func(Record) bool) []Record {
	return slices.DeleteFunc(slices.Clone(records), func(r Record) bool { return !holds(r) })
}

// namesOf are the names of those measures.
func namesOf(holds func(Record) bool) []string {
	var out []string
	for _, r := range those(holds) {
		out = append(out, r.Name)
	}
	return out
}

// What of the records is asked for often.
var (
	byName = func() map[string]Record {
		out := map[string]Record{}
		for _, r := range records {
			out[r.Name] = r
		}
		return out
	}()
	offLines = those(func(r Record) bool { return r.off != nil })
	// Shown are the quantities that are measured, each a column.
	Shown = those(func(r Record) bool { return r.Column.PerUnit != 0 && !r.Stated })
	// ShownPlaced are those of which a column says what they are of the mound as placed.
	ShownPlaced = inPlace(those(func(r Record) bool { return r.Placed > 0 }))
	// StatedNumbers are what no layer answers: the proposal may state them.
	StatedNumbers = those(func(r Record) bool { return r.Stated && r.Column.PerUnit != 0 })
	// statedWords are the words that a proposal states of itself.
	statedWords = those(func(r Record) bool { return r.Stated && r.Column.PerUnit == 0 })
	// ofBank are the measures that hang on which shore the structure belongs to, ofBed on the
	// stated bed, ofProject those added up over a project.
	ofBank    = namesOf(func(r Record) bool { return r.bank })
	ofBed     = namesOf(func(r Record) bool { return r.bed })
	ofProject = namesOf(func(r Record) bool { return r.project })
	// ofLayer are the measures that are taken from each layer, toesOf those among them that
	// hang on where the toe lies.
	ofLayer = byLayer(func(Record) bool { return true })
	toesOf  = byLayer(func(r Record) bool { return r.toe })
	// OfWetlandBehind are the measures of the wetland behind the structure.
	OfWetlandBehind = namesOf(func(r Record) bool { return r.Layer == "wetlands" && r.Shore })
)

// byLayer are the names of the measures of each layer of which something holds.
func byLayer(holds func(Record) bool) map[string][]string {
	out := map[string][]string{}
	for _, r := range those(holds) {
		out[r.Layer] = append(out[r.Layer], r.Name)
	}
	return out
}

func inPlace(placed []Record) []Record {
	slices.SortFunc(placed, func(a, b Record) int { return a.Placed - b.Placed })
	return placed
}

// PlaceRecord is the record of a measure that is a matter of the place alone; false of
// any other.
func PlaceRecord(measure string) (Record, bool) {
	r := RecordOf(measure)
	return r, r.place
}

// Causes are what can keep a structure off a place that its path would reach, named areas
// left out.
func Causes() []string {
	var out []string
	for _, r := range records {
		if r.place && !r.Reach && r.Blame != "" && !slices.Contains(out, r.Blame) {
			out = append(out, r.Blame)
		}
	}
	return out
}

// SameLines reports whether the limits of two measures are drawn from the same lines: of
// wetlands those of the own shore are not those of all.
func (r Record) SameLines(o Record) bool {
	return r.Layer == o.Layer && r.side == o.side && r.Shore == o.Shore
}
