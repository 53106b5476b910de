package screening

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/geo/crs"
	"waterward/geo/flat"
	"waterward/rules"
)

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
	"wetlands":   {"wetlands", false, true, false},
	"channels":   {"channels", true, true, false},
	"riparian":   {"the riparian lines", true, false, false},
	"parcels":    {"parcels", false, true, false},
}

// kindOfLayer is the kind of a layer by its name, areas.NAME for a named area.
func kindOfLayer(name string) layerKind {
	if area, named := strings.CutPrefix(name, "areas."); named {
		return layerKind{title: "the area " + area, areas: true}
	}
	return layerKinds[name]
}

// layer is a mapped layer as the sites use it.
type layer struct {
	name          string
	title         string
	source        LayerSource
	geo           *geo.Layer
	items         []attributes
	files         []layerFile
	places        *flat.Places // outside which nothing is kept; nil: everything is
	usable        int          // features, kept or not
	day           time.Time    // whose rules decide; nothing mapped is younger
	asDrawn       bool         // areas that are not valid are refused, not rebuilt
	repairs       []repair
	refused       []string // elevations of its features that are not believed, and why
	left          leftOut
	shore         leftShore
	mixed         bool         // its features differ in how accurate they are
	suspects      []geo.Defect // features that seem to have latitude and longitude swapped
	lost          int          // features that cannot be used and may lie anywhere
	doubt         string       // why nothing that rests on the layer is firm; empty if nothing is against it
	incomplete    []string     // why something of it may be missing
	surveyed      *geo.Layer   // nil if not stated
	surveyedOn    crs.Datum
	surveyedGrain float64 // of the coarsest of its areas, metres
	grain         float64 // of the coarsest of its features kept, metres; 0 if none counts
	widest        float64 // width of the widest centreline, metres
}

// mapped are all layers of a run.
type mapped struct {
	day      time.Time         // whose rules decide, from which the age of layers counts
	named    map[string]*layer // only those given
	twice    []string          // files given as two layers
	setback  float64           // the greatest distance, in metres, that any book asks to a channel
	crossing []orb.Point       // where the two tidal lines cross, in degrees
	areas    []*layer          // in order of name
	tides    *tides            // nil if the job gives no water levels
}

func (m *mapped) layer(name string) *layer { return m.named[name] }

// area returns a named area, nil if not given.
func (m *mapped) area(name string) *layer {
	for _, a := range m.areas {
		if a.name == "areas."+name {
			return a
		}
	}
	return nil
}

// datums says which layers are on another horizontal datum than the proposals, and
// what that can mean.
func (m *mapped) datums(proposals crs.Datum) []string {
	var order []crs.Datum
	names := map[crs.Datum][]string{}
	for _, l := range m.all() {
		for _, file := range l.files {
			datum := file.crs.Datum
			if crs.DatumShift(datum, proposals) == 0 || slices.Contains(names[datum], l.name) {
				continue
			}
			if names[datum] == nil {
				order = append(order, datum)
			}
			names[datum] = append(names[datum], l.name)
		}
	}
	var out []string
	for _, datum := range order {
		is := "is"
		if len(names[datum]) > 1 {
			is = "are"
		}
		if datum == proposals {
			out = append(out, fmt.Sprintf("%s and the proposals are on %s, of which realization nobody says: positions may lie %s apart, which is added to how far distances may be off; name it by the coordinate system",
				strings.Join(names[datum], ", "), datum, feetText(crs.DatumShift(datum, proposals))))
			continue
		}
		out = append(out, fmt.Sprintf("%s %s on %s and the proposals on %s: positions may lie %s apart, which is added to how far distances may be off",
			strings.Join(names[datum], ", "), is, datum, proposals, feetText(crs.DatumShift(datum, proposals))))
	}
	return out
}

// all returns every layer in a fixed order.
func (m *mapped) all() []*layer {
	var out []*layer
	for name := range (&LayerSources{}).named() {
		if l := m.layer(name); l != nil {
			out = append(out, l)
		}
	}
	return append(out, m.areas...)
}

// layers reads all layers of a job, several at once, and lists every fault found.
func (from *loader) layers(job *Job) (*mapped, error) {
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
			tasks = append(tasks, &task{source: *source, kind: kindOfLayer(name), name: name})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(job.Layers.Areas)) {
		tasks = append(tasks, &task{source: job.Layers.Areas[name], kind: kindOfLayer("areas." + name), name: "areas." + name})
	}
	var wait sync.WaitGroup
	for _, t := range tasks {
		wait.Go(func() { t.into, t.err = from.layer(t.name, t.source, t.kind) })
	}
	wait.Wait()
	m := &mapped{named: map[string]*layer{}, day: job.DecisionDate.Time}
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
	if wrong := m.refusals(); len(wrong) > 0 {
		return nil, joinErrors(wrong)
	}
	tides, err := loadTides(from.files, job, from.log)
	if err != nil {
		return nil, err
	}
	m.tides = tides
	m.crossing = m.crossings()
	m.judgeLayers(job.SearchRadius.Metres)
	m.twice = m.givenTwice(from.log)
	return m, nil
}

// answering are the layers that can answer anything.
func (m *mapped) answering() *mapped {
	out := &mapped{day: m.day, named: map[string]*layer{}}
	for name, l := range m.named {
		if l.useless() == "" && (l.usable > 0 || name != "high_water") {
			out.named[name] = l
		}
	}
	for _, l := range m.areas {
		if l.useless() == "" {
			out.areas = append(out.areas, l)
		}
	}
	return out
}

// minds is what a layer lacks as the job describes it. survey is nil if there is none.
func (l *layer) minds(job *Job, survey *layer) []string {
	var out []string
	if why := l.useless(); why != "" && len(l.items) == 0 && len(l.geo.Defects) == 0 {
		out = append(out, why)
	}
	inaccurate, undated, old, levels := 0, 0, 0, 0
	var age string // why the first that is too old is so
	most, met := l.source.MaxAge, "max_age"
	if most == (rules.Age{}) {
		most, met = l.usualAge(), "the usual age"
	}
	for _, it := range l.items {
		if math.IsNaN(it.accuracy) {
			inaccurate++
		}
		if it.date == "" {
			undated++
		}
		if why := l.tooOld(most, it.date, job.DecisionDate.Time); why != "" && (it.date != "" || most == l.source.MaxAge) {
			old++
			age = cmp.Or(age, why)
		}
		if !math.IsNaN(it.elevation) {
			levels++
		}
	}
	all := number(len(l.items), "feature")
	if inaccurate > 0 && measured(l.name) {
		out = append(out, fmt.Sprintf("no accuracy is stated for %d of %s", inaccurate, all))
	}
	if undated > 0 && measured(l.name) {
		out = append(out, fmt.Sprintf("no date is stated for %d of %s", undated, all))
	}
	if old > 0 {
		out = append(out, fmt.Sprintf("%s is not met by %d of %s (first: %s)", met, old, all, age))
	}
	if l.lost > 0 {
		out = append(out, number(l.lost, "feature")+" of it may lie anywhere, so nothing measured to it is firm")
	}
	if levels > 0 && l.source.Datum == "" {
		out = append(out, "its elevations have no datum")
	}
	bound, drawn := l.geo.Bound()
	if drawn && l.source.Surveyed == "" && surveyable(l.name) {
		out = append(out, "no surveyed area is stated: within "+feetText(job.SearchRadius.Metres)+" of its extent it counts as complete, and nothing that hangs on that is firm")
	}
	if survey != nil {
		if where, known := survey.geo.Bound(); known && drawn && !bound.Intersects(where) {
			out = append(out, "its surveyed area lies nowhere near it")
		}
	}
	return out
}

// stated adds to the record of a layer what the job states of it and what of it
// could not be used.
func (m *mapped) stated(in *inputRecord) {
	for _, l := range m.all() {
		if l.name != in.Role {
			continue
		}
		in.Date, in.Datum, in.Epoch = l.source.Date, l.source.Datum, l.source.Epoch
		for _, d := range l.geo.Defects {
			if d.Err.File == in.File {
				in.Defects = append(in.Defects, d.Err.Error())
			}
		}
		for _, p := range l.repairs {
			if p.file == in.File {
				in.Repairs = append(in.Repairs, p.text)
			}
		}
	}
}

// side makes what the features state of their sides evidence.
func (l *layer) side(item int) int { return l.items[item].side }

// measured reports whether distances are measured to a layer of that name, so that its
// accuracy and its date matter.
func measured(name string) bool { return name != "shoreline" && name != "parcels" }

// surveyable reports whether it matters where a layer of that name was surveyed: what
// is not mapped of the others is no shore and no land.
func surveyable(name string) bool {
	return measured(name) && name != "high_water" && name != "low_water"
}
