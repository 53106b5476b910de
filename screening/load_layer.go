package screening

import (
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
	"waterward/screening/levels"
)

// layerFile is one of the files of a layer.
type layerFile struct {
	name   string
	crs    *crs.System // of its positions
	stray  orb.Bound   // of positions that can be no longitude and latitude
	usable int         // features
	bound  orb.Bound   // of those, in degrees
}

// coarseness is how far a feature's positions may be off, in metres, for want of digits:
// half a unit along an axis, which chance passes in no direction more than once in twenty
// times; 0 if they are fine enough.
func coarseness(f *geojson.Feature) float64 {
	if grain := f.Grain(); grain > coarse {
		return grain
	}
	return 0
}

// loader reads layers.
type loader struct {
	files   Files
	log     *inputLog
	places  *flat.Places // outside which nothing but the extent is kept; nil: everything is
	day     time.Time    // whose rules decide
	asDrawn bool         // areas that are not valid are refused, not rebuilt
}

func (from *loader) layer(name string, source LayerSource, kind layerKind) (*layer, error) {
	files, log := from.files, from.log
	l := &layer{name: name, title: kind.title, source: source, places: from.places, day: from.day, asDrawn: from.asDrawn}
	l.source.Datum = levels.Word(source.Datum)
	var builder geo.LayerBuilder
	twice := newRepeats(len(source.Files) > 1)
	leftOut := 0
	for _, file := range source.Files {
		before, skipped, bound := l.usable, leftOut, emptyBound
		missing := newSought(source.Properties, source.Key)
		read := 0
		reader, err := readFeatures(files, name, file, source.CRS, log, func(f *geojson.Feature) {
			read++
			missing.see(f)
			switch belongs, err := belongs(source.Only, f); {
			case err != nil:
				l.reject(&builder, f, file, err.Error(), "correct the property, or say in only what it means")
			case !belongs:
				leftOut++
				l.leaveOut(f)
			case !twice.again(f, file):
				if l.add(&builder, f, file, kind); f.Err == nil {
					bound = bound.Union(f.Bound())
				}
			}
		})
		if err != nil {
			return nil, err
		}
		if text := partial(reader, file, read); text != "" {
			l.incomplete = append(l.incomplete, text)
		}
		l.files = append(l.files, layerFile{file, reader.CRS(), reader.Stray(), l.usable - before, bound})
		log.note(file, name, leftOut-skipped, twice.dropped[file], missing.warnings(name, file))
	}
	if len(l.shore.kinds) > 0 {
		l.shore.lines = l.shore.builder.Build(false)
	}
	l.geo, l.mixed = builder.Build(kind.join), mixedAccuracy(l.items)
	if leftOut > 0 && l.usable == 0 && len(l.geo.Defects) == 0 && source.Surveyed == "" && !source.None {
		return nil, &JobError{fmt.Sprintf("%s: none of the %d features of %s belongs to the layer by only: %s is %s",
			name, leftOut, strings.Join(source.Files, ", "), source.Only.From, mostFrequent(l.left.count, mostNamed))}
	}
	if source.None && l.usable > 0 {
		return nil, &JobError{fmt.Sprintf("%s: the job says that there is none, and %s has %s: take none: true out, or the file", name, strings.Join(source.Files, ", "), number(l.usable, "feature"))}
	}
	if source.Surveyed == "" {
		return l, nil
	}
	// A rebuilt coverage could claim what nobody surveyed.
	s := &layer{name: name + ".surveyed", places: from.places, asDrawn: true}
	var area geo.LayerBuilder
	reader, err := readFeatures(files, s.name, source.Surveyed, source.CRS, log, func(f *geojson.Feature) {
		s.add(&area, f, source.Surveyed, layerKind{areas: true})
	})
	if err != nil {
		return nil, err
	}
	if err := refuse(reader, source.Surveyed); err != nil {
		return nil, err
	}
	l.surveyed, l.surveyedOn, l.surveyedGrain = area.Build(false), reader.CRS().Datum, s.grain
	if stray := reader.Stray(); !stray.IsEmpty() {
		return nil, strayedSurvey(source.Surveyed, stray)
	}
	if defects := l.surveyed.Defects; len(defects) > 0 {
		// Half a coverage statement would pass for the whole of one.
		return nil, defects[0].Err
	}
	return l, nil
}

// readFeatures visits every feature of a file, of which nothing but the geometry is to
// be kept, and records the file in the log. It returns the reader, which then knows
// what the file says of itself.
func readFeatures(files Files, role, name string, system System, log *inputLog, visit func(*geojson.Feature)) (*geojson.Reader, error) {
	input, err := files.Open(name)
	if err != nil {
		return nil, &JobError{fmt.Sprintf("%s: cannot be opened: %v", role, err)}
	}
	defer input.Close()
	counted := log.begin(role, name, input)
	reader, err := newReader(name, counted, system)
	if err != nil {
		return nil, err
	}
	reader.Lend()
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

// newReader reads a file in the system stated for it, or in the one it states.
func newReader(name string, in io.Reader, system System) (*geojson.Reader, error) {
	reader, err := geojson.NewReader(name, in)
	if err == nil && system.System != nil {
		reader.In(system.System)
	}
	return reader, err
}

// mixedAccuracy reports whether features differ in how far they may be off, or in age.
func mixedAccuracy(items []attributes) bool {
	return slices.ContainsFunc(items, func(a attributes) bool {
		first := items[0]
		return !sameNumber(a.accuracy, first.accuracy) || a.shift != first.shift || a.datum != first.datum || a.date != first.date
	})
}
