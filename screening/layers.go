package screening

import (
	"encoding/json"
	"fmt"
	"io"
	"iter"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"waterward/geo"
)

const foot = 0.3048 // metres, international foot, exact

// Files opens the inputs of a run by the names the job gives them.
type Files interface {
	Open(name string) (io.ReadCloser, error)
}

// layerKind says what a layer may hold and how it is built.
type layerKind struct {
	title string
	lines bool
	areas bool
	join  bool // a shore mapped in pieces is one line
}

var layerKinds = map[string]layerKind{
	"high_water": {"the mean high water line", true, false, true},
	"low_water":  {"the mean low water line", true, false, true},
	"shoreline":  {"the shoreline", true, true, false},
	"seagrass":   {"seagrass", false, true, false},
	"channels":   {"channels", true, true, false},
	"riparian":   {"the riparian lines", true, false, false},
	"parcels":    {"parcels", false, true, false},
}

// named yields the layers of the closed list in a fixed order, nil if not given.
func (s *LayerSources) named() iter.Seq2[string, *LayerSource] {
	return func(yield func(string, *LayerSource) bool) {
		for _, l := range []struct {
			name   string
			source *LayerSource
		}{
			{"high_water", s.HighWater}, {"low_water", s.LowWater}, {"shoreline", s.Shoreline},
			{"seagrass", s.Seagrass}, {"channels", s.Channels}, {"riparian", s.Riparian}, {"parcels", s.Parcels},
		} {
			if !yield(l.name, l.source) {
				return
			}
		}
	}
}

// layer is a mapped layer as the sites use it.
type layer struct {
	name     string
	title    string
	source   LayerSource
	geo      *geo.Layer
	items    []attributes
	surveyed *geo.Layer // nil if not stated
}

// attributes are what the features of layers may state. NaN is unstated.
type attributes struct {
	label     string // what the feature is called in the outputs
	accuracy  float64
	elevation float64
	width     float64
	side      int
}

// mapped are all layers of a run.
type mapped struct {
	named map[string]*layer // only those given
	areas []*layer          // in order of name
}

func (m *mapped) layer(name string) *layer { return m.named[name] }

// loadLayers reads all layers, several at once, and lists every fault found.
func loadLayers(files Files, job *Job, log *inputLog) (*mapped, error) {
	type task struct {
		source LayerSource
		kind   layerKind
		name   string
		into   *layer
		err    error
	}
	var tasks []*task
	for name, source := range job.Layers.named() {
		if source != nil {
			tasks = append(tasks, &task{source: *source, kind: layerKinds[name], name: name})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(job.Layers.Areas)) {
		kind := layerKind{"the area " + name, false, true, false}
		tasks = append(tasks, &task{source: job.Layers.Areas[name], kind: kind, name: "areas." + name})
	}
	var wait sync.WaitGroup
	for _, t := range tasks {
		wait.Go(func() { t.into, t.err = loadLayer(files, t.name, t.source, t.kind, log) })
	}
	wait.Wait()
	m := &mapped{named: map[string]*layer{}}
	var faults []error
	for _, t := range tasks {
		switch {
		case t.err != nil:
			faults = append(faults, t.err)
		case strings.HasPrefix(t.name, "areas."):
			m.areas = append(m.areas, t.into)
		default:
			m.named[t.name] = t.into
		}
	}
	if len(faults) > 0 {
		return nil, joinErrors(faults)
	}
	return m, m.swapped()
}

func loadLayer(files Files, name string, source LayerSource, kind layerKind, log *inputLog) (*layer, error) {
	l := &layer{name: name, title: kind.title, source: source}
	var builder geo.LayerBuilder
	err := readFeatures(files, name, source.File, log, func(f *geo.Feature) {
		l.add(&builder, f, kind)
	})
	if err != nil {
		return nil, err
	}
	l.geo = builder.Build(kind.join)
	if source.Surveyed != "" {
		s := &layer{name: name + ".surveyed"}
		var area geo.LayerBuilder
		err := readFeatures(files, s.name, source.Surveyed, log, func(f *geo.Feature) {
			s.add(&area, f, layerKind{areas: true})
		})
		if err != nil {
			return nil, err
		}
		l.surveyed = area.Build(false)
		if defects := l.surveyed.Defects; len(defects) > 0 {
			// Half a coverage statement would pass for the whole of one.
			return nil, defects[0].Err
		}
	}
	return l, nil
}

// readFeatures visits every feature of a file and records the file in the log.
func readFeatures(files Files, role, name string, log *inputLog, visit func(*geo.Feature)) error {
	input, err := files.Open(name)
	if err != nil {
		return &JobError{fmt.Sprintf("%s: cannot be opened: %v", role, err)}
	}
	defer input.Close()
	counted := log.begin(role, name, input)
	reader, err := geo.NewReader(name, counted)
	if err != nil {
		return err
	}
	for {
		f, err := reader.Next()
		if err == io.EOF {
			if err := refuse(reader, name); err != nil {
				return err
			}
			return counted.finish()
		}
		if err != nil {
			return err
		}
		counted.feature(f)
		visit(f)
	}
}

// refuse reports what a file says of itself that keeps it from being used: that
// it is one page of several, or in another coordinate system.
func refuse(r *geo.Reader, name string) error {
	for _, m := range slices.Concat(r.Before(), r.After()) {
		switch m.Key {
		case "exceededTransferLimit", "properties":
			var inner struct {
				Exceeded bool `json:"exceededTransferLimit"`
			}
			paged := string(m.Raw) == "true" || json.Unmarshal(m.Raw, &inner) == nil && inner.Exceeded
			if paged {
				return &geo.FileError{File: name, Wrong: "it is one page of a longer layer (exceededTransferLimit); fetch all of it"}
			}
		case "crs":
			var crs struct {
				Properties struct {
					Name string `json:"name"`
				} `json:"properties"`
			}
			json.Unmarshal(m.Raw, &crs)
			if string(m.Raw) != "null" && !isWGS84(crs.Properties.Name) {
				return &geo.FileError{File: name, Wrong: fmt.Sprintf("its crs member is %.80s; export it as WGS 84 longitude and latitude (RFC 7946)", m.Raw)}
			}
		}
	}
	return nil
}

// isWGS84 knows the names that the older GeoJSON gave to longitude and latitude
// on WGS 84.
func isWGS84(name string) bool {
	name = strings.ToUpper(name)
	return strings.HasSuffix(name, "CRS84") || strings.HasPrefix(name, "EPSG:4326") || strings.HasPrefix(name, "URN:OGC:DEF:CRS:EPSG:") && strings.HasSuffix(name, ":4326")
}

// add puts a feature into the layer under construction, or records why it
// cannot be used.
func (l *layer) add(b *geo.LayerBuilder, f *geo.Feature, kind layerKind) {
	reject := func(wrong, remedy string) {
		err := f.Err
		if err == nil {
			err = &geo.FeatureError{File: l.source.File, Number: f.Number, ID: f.ID, Wrong: wrong, Remedy: remedy}
		}
		where, known := f.Whereabouts()
		b.AddDefect(err, where, known)
	}
	a, err := l.attributes(f)
	switch {
	case f.Err != nil:
		reject("", "")
		return
	case err != nil:
		reject(err.Error(), "correct the property")
		return
	}
	switch g := f.Geometry.(type) {
	case orb.LineString, orb.MultiLineString:
		lines, _ := g.(orb.MultiLineString)
		if line, ok := g.(orb.LineString); ok {
			lines = orb.MultiLineString{line}
		}
		if !kind.lines {
			reject("it is a line where areas are expected", "draw it as a polygon")
			return
		}
		if slices.ContainsFunc(lines, isPoint) {
			reject("a line of it has all its positions in one place", "draw it whole")
			return
		}
		b.AddLine(f.ID, f.Number, lines...)
	case orb.Polygon, orb.MultiPolygon:
		area, _ := g.(orb.MultiPolygon)
		if p, ok := g.(orb.Polygon); ok {
			area = orb.MultiPolygon{p}
		}
		if !kind.areas {
			reject("it is an area where lines are expected", "draw its line")
			return
		}
		if err := geo.CheckArea(area); err != nil {
			reject(err.Error(), "redraw the ring so that it does not cross itself, with holes inside and parts apart")
			return
		}
		b.AddArea(f.ID, f.Number, area)
	default:
		reject("it is a point", "draw a line or an area")
		return
	}
	l.items = append(l.items, a)
}

func isPoint(line orb.LineString) bool {
	return !slices.ContainsFunc(line, func(p orb.Point) bool { return p != line[0] })
}

func (l *layer) attributes(f *geo.Feature) (attributes, error) {
	a := attributes{label: f.ID, accuracy: l.source.Accuracy.OrNaN(), elevation: math.NaN(), width: math.NaN()}
	if a.label == "" {
		a.label = "#" + strconv.Itoa(f.Number)
	}
	for _, p := range []struct {
		name string
		into *float64
	}{{"accuracy_ft", &a.accuracy}, {"elevation_ft", &a.elevation}, {"width_ft", &a.width}} {
		value, ok, err := f.Number64(p.name)
		if err != nil {
			return a, err
		}
		if ok && value < 0 && p.name != "elevation_ft" {
			return a, fmt.Errorf("%s is %g, which is less than nothing", p.name, value)
		}
		if ok {
			*p.into = value * foot
		}
	}
	switch side := f.Text("side"); side {
	case "":
	case "water_left":
		a.side = 1
	case "water_right":
		a.side = -1
	default:
		return a, fmt.Errorf("side is %.40q, not water_left or water_right", side)
	}
	if l.name == "parcels" {
		key := l.source.Key
		if key == "" {
			key = "parcel_id"
		}
		if id := f.Text(key); id != "" {
			a.label = id
		}
	}
	if strings.HasPrefix(l.name, "areas.") {
		if name := f.Text("name"); name != "" {
			a.label = name
		}
	}
	return a, nil
}

// swapped refuses a layer that meets the high water line only if its latitude
// and longitude change places.
func (m *mapped) swapped() error {
	shore, ok := m.layer("high_water").geo.Bound()
	if !ok {
		return nil
	}
	var faults []error
	check := func(l *layer) {
		b, ok := l.geo.Bound()
		if ok && !b.Intersects(shore) && swap(b).Intersects(geo.Window(shore, defaultRadius)) {
			faults = append(faults, &JobError{fmt.Sprintf("%s: its positions meet the high water line only with latitude and longitude swapped; one of the two files has them the wrong way round (GeoJSON puts longitude first)", l.source.File)})
		}
	}
	for _, name := range []string{"low_water", "shoreline", "seagrass", "channels", "riparian", "parcels"} {
		if l := m.layer(name); l != nil {
			check(l)
		}
	}
	for _, l := range m.areas {
		check(l)
	}
	return joinErrors(faults)
}

func swap(b orb.Bound) orb.Bound {
	return orb.Bound{Min: orb.Point{b.Min[1], b.Min[0]}, Max: orb.Point{b.Max[1], b.Max[0]}}
}
