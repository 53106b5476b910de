package layers

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/geo/geojson"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/levels"
)

// layerFile is one of the files of a layer.
type layerFile struct {
	name   string
	CRS    *crs.System // of its positions
	stray  orb.Bound   // of positions that can be no longitude and latitude
	usable int         // features
	bound  orb.Bound   // of those, in degrees
}

// Coarseness is how far a feature's positions may be off, in metres, for want of digits:
// half a unit along an axis, which chance passes in no direction more than once in twenty
// times; 0 if they are fine enough.
func Coarseness(f *geojson.Feature) float64 {
	if grain := f.Grain(); grain > inputs.Coarse {
		return grain
	}
	return 0
}

// Loader reads layers.
type Loader struct {
	Files   job.Files
	Log     *inputs.Log
	Places  *flat.Places // outside which nothing but the extent is kept; nil: everything is
	Day     time.Time    // whose rules decide
	AsDrawn bool         // areas that are not valid are refused, not rebuilt
}

// Layer reads the files of one layer.
func (from *Loader) Layer(name string, source job.LayerSource, kind LayerKind) (*Layer, error) {
	files, log := from.Files, from.Log
	l := &Layer{Name: name, Title: kind.Title, Source: source, places: from.Places, day: from.Day, asDrawn: from.AsDrawn}
	l.Source.Datum = levels.Word(source.Datum)
	var builder geo.LayerBuilder
	twice := inputs.NewRepeats(len(source.Files) > 1)
	leftOut, carry := 0, newCarrying(&source)
	for _, file := range source.Files {
		before, skipped, bound := l.Usable, leftOut, EmptyBound
		missing := inputs.NewSought(source.Properties, source.Key)
		read := 0
		reader, err := ReadFeatures(files, name, file, source.CRS, log, func(f *geojson.Feature) {
			read++
			missing.See(f)
			carry.see(f)
			switch belongs, err := Belongs(source.Only, f); {
			case err != nil:
				l.reject(&builder, f, file, err.Error(), "correct the property, or say in only what it means")
			case !belongs:
				leftOut++
				l.leaveOut(f)
			case !twice.Again(f, file):
				if l.add(&builder, f, file, kind); f.Err == nil {
					bound = bound.Union(f.Bound())
				}
			}
		})
		if err != nil {
			return nil, err
		}
		if text := inputs.Partial(reader, file, read); text != "" {
			l.Incomplete = append(l.Incomplete, text)
		}
		l.Files = append(l.Files, layerFile{file, reader.CRS(), reader.Stray(), l.Usable - before, bound})
		log.Note(file, name, leftOut-skipped, twice.Dropped[file], missing.Warnings(name, file))
	}
	if err := carry.missing(name, &source); err != nil {
		return nil, err
	}
	if len(l.Shore.Kinds) > 0 {
		l.Shore.Lines = l.Shore.builder.Build(false)
	}
	l.Geo, l.Mixed = builder.Build(kind.join), mixedAccuracy(l.Items)
	if leftOut > 0 && l.Usable == 0 && len(l.Geo.Defects) == 0 && source.Surveyed == "" && !source.None {
		return nil, &job.Error{Message: fmt.Sprintf("%s: none of the %d features of %s belongs to the layer by only: %s is %s",
			name, leftOut, strings.Join(source.Files, ", "), source.Only.From, MostFrequent(l.Left.count, job.MostNamed))}
	}
	if source.None && l.Usable > 0 {
		return nil, &job.Error{Message: fmt.Sprintf("%s: the job says that there is none, and %s has %s: take none: true out, or the file", name, strings.Join(source.Files, ", "), job.Count(l.Usable, "feature"))}
	}
	if source.Surveyed == "" {
		return l, nil
	}
	// A rebuilt coverage could claim what nobody surveyed.
	s := &Layer{Name: name + ".surveyed", places: from.Places, asDrawn: true}
	var area geo.LayerBuilder
	reader, err := ReadFeatures(files, s.Name, source.Surveyed, source.CRS, log, func(f *geojson.Feature) {
		s.add(&area, f, source.Surveyed, LayerKind{Areas: true})
	})
	if err != nil {
		return nil, err
	}
	if err := inputs.Refuse(reader, source.Surveyed); err != nil {
		return nil, err
	}
	l.Surveyed, l.SurveyedOn, l.SurveyedGrain = area.Build(false), reader.CRS().Datum, s.Grain
	if stray := reader.Stray(); !stray.IsEmpty() {
		return nil, strayedSurvey(source.Surveyed, stray)
	}
	if defects := l.Surveyed.Defects; len(defects) > 0 {
		// Half a coverage statement would pass for the whole of one.
		return nil, defects[0].Err
	}
	return l, nil
}

// ReadFeatures visits every feature of a file, of which nothing but the geometry is to
// be kept, and records the file in the log, by its role if it has one. It returns the reader, which then knows
// what the file says of itself.
func ReadFeatures(files job.Files, role, name string, system job.System, log *inputs.Log, visit func(*geojson.Feature)) (*geojson.Reader, error) {
	input, err := files.Open(name)
	if err != nil {
		return nil, &job.Error{Message: fmt.Sprintf("%s: cannot be opened: %v", cmp.Or(role, name), err)}
	}
	defer input.Close()
	counted := log.Begin(role, name, input)
	reader, err := NewReader(name, counted, system)
	if err != nil {
		return nil, err
	}
	reader.Lend()
	for f, err := range reader.Features() {
		if err != nil {
			return nil, err
		}
		counted.Feature(f)
		visit(f)
	}
	counted.Settle(reader)
	return reader, counted.Finish()
}

// NewReader reads a file in the system stated for it, or in the one it states.
func NewReader(name string, in io.Reader, system job.System) (*geojson.Reader, error) {
	reader, err := geojson.NewReader(name, in)
	if err == nil && system.System != nil {
		reader.In(system.System)
	}
	return reader, err
}

// mixedAccuracy reports whether features differ in how far they may be off, or in age.
func mixedAccuracy(items []Attributes) bool {
	return slices.ContainsFunc(items, func(a Attributes) bool {
		first := items[0]
		return !sameNumber(a.Accuracy, first.Accuracy) || a.Shift != first.Shift || a.Datum != first.Datum || a.Date != first.Date
	})
}
