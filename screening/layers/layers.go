package layers

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
	"waterward/screening/inputs"
	"waterward/screening/job"
)

// LayerKind says what a layer may hold and how it is built.
type LayerKind struct {
	Title string
	Lines bool
	Areas bool
	join  bool // a shore mapped in pieces is one line
}

// LayerKinds are the layers of the closed list by name.
var LayerKinds = map[string]LayerKind{
	"high_water": {"the mean high water line", true, false, true},
	"low_water":  {"the mean low water line", true, false, true},
	"shoreline":  {"the shoreline", true, true, false},
	"seagrass":   {"seagrass", false, true, false},
	"wetlands":   {"wetlands", false, true, false},
	"channels":   {"channels", true, true, false},
	"riparian":   {"the riparian lines", true, false, false},
	"parcels":    {"parcels", false, true, false},
}

// KindOfLayer is the kind of a layer by its name, areas.NAME for a named area.
func KindOfLayer(name string) LayerKind {
	if area, named := strings.CutPrefix(name, "areas."); named {
		return LayerKind{Title: "the area " + area, Areas: true}
	}
	return LayerKinds[name]
}

// Layer is a mapped layer as the sites use it.
type Layer struct {
	Name          string
	Title         string
	Source        job.LayerSource
	Geo           *geo.Layer
	Items         []Attributes
	Files         []layerFile
	places        *flat.Places // outside which nothing is kept; nil: everything is
	Usable        int          // features, kept or not
	day           time.Time    // whose rules decide; nothing mapped is younger
	asDrawn       bool         // areas that are not valid are refused, not rebuilt
	Repairs       []repair
	repeated      map[int]repeated // by item; see again
	counted       sync.Once
	refused       []string // elevations of its features that are not believed, and why
	Left          leftOut
	Shore         leftShore
	Mixed         bool         // its features differ in how accurate they are
	suspects      []geo.Defect // features that seem to have latitude and longitude swapped
	lost          int          // features that cannot be used and may lie anywhere
	Doubt         string       // why nothing that rests on the layer is firm; empty if nothing is against it
	Incomplete    []string     // why something of it may be missing
	Surveyed      *geo.Layer   // nil if not stated
	SurveyedOn    crs.Datum
	SurveyedGrain float64 // of the coarsest of its areas, metres
	Grain         float64 // of the coarsest of its features kept, metres; 0 if none counts
	Widest        float64 // width of the widest centreline, metres
}

// Set are all layers of a run.
type Set struct {
	Day      time.Time         // whose rules decide, from which the age of layers counts
	Named    map[string]*Layer // only those given
	Twice    []string          // files given as two layers
	Setback  float64           // the greatest distance, in metres, that any book asks to a channel
	Crossing []orb.Point       // where the two tidal lines cross, in degrees
	Areas    []*Layer          // in order of name
	Tides    *tides            // nil if the job gives no water levels
}

func (m *Set) Layer(name string) *Layer { return m.Named[name] }

// area returns a named area, nil if not given.
func (m *Set) area(name string) *Layer {
	for _, a := range m.Areas {
		if a.Name == "areas."+name {
			return a
		}
	}
	return nil
}

// Datums says which layers are on another horizontal datum than the proposals, and
// what that can mean.
func (m *Set) Datums(proposals crs.Datum) []string {
	var order []crs.Datum
	names := map[crs.Datum][]string{}
	for _, l := range m.All() {
		for _, file := range l.Files {
			datum := file.CRS.Datum
			if crs.DatumShift(datum, proposals) == 0 || slices.Contains(names[datum], l.Name) {
				continue
			}
			if names[datum] == nil {
				order = append(order, datum)
			}
			names[datum] = append(names[datum], l.Name)
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
				strings.Join(names[datum], ", "), datum, job.FeetText(crs.DatumShift(datum, proposals))))
			continue
		}
		out = append(out, fmt.Sprintf("%s %s on %s and the proposals on %s: positions may lie %s apart, which is added to how far distances may be off",
			strings.Join(names[datum], ", "), is, datum, proposals, job.FeetText(crs.DatumShift(datum, proposals))))
	}
	return out
}

// All returns every layer in a fixed order.
func (m *Set) All() []*Layer {
	var out []*Layer
	for name := range (&job.LayerSources{}).Named() {
		if l := m.Layer(name); l != nil {
			out = append(out, l)
		}
	}
	return append(out, m.Areas...)
}

// Load reads all layers of a job, several at once, and lists every fault found.
func (from *Loader) Load(j *job.Job) (*Set, error) {
	type task struct {
		source job.LayerSource
		kind   LayerKind
		name   string
		into   *Layer
		err    error
	}
	var tasks []*task
	for name, source := range j.Layers.Named() {
		if source != nil {
			tasks = append(tasks, &task{source: *source, kind: KindOfLayer(name), name: name})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(j.Layers.Areas)) {
		tasks = append(tasks, &task{source: j.Layers.Areas[name], kind: KindOfLayer("areas." + name), name: "areas." + name})
	}
	var wait sync.WaitGroup
	for _, t := range tasks {
		wait.Go(func() { t.into, t.err = from.Layer(t.name, t.source, t.kind) })
	}
	wait.Wait()
	m := &Set{Named: map[string]*Layer{}, Day: j.DecisionDate.Time}
	var faults []error
	for _, t := range tasks {
		switch {
		case t.err != nil:
			faults = append(faults, t.err)
		case strings.HasPrefix(t.name, "areas."):
			m.Areas = append(m.Areas, t.into)
		default:
			m.Named[t.name] = t.into
		}
	}
	if len(faults) > 0 {
		return nil, job.JoinErrors(faults)
	}
	if wrong := m.Refusals(); len(wrong) > 0 {
		return nil, job.JoinErrors(wrong)
	}
	tides, err := loadTides(from.Files, j, from.Log)
	if err != nil {
		return nil, err
	}
	m.Tides = tides
	m.Crossing = m.Crossings()
	m.judgeLayers(j.SearchRadius.Metres)
	m.Twice = m.givenTwice(from.Log)
	return m, nil
}

// Answering are the layers that can answer anything.
func (m *Set) Answering() *Set {
	out := &Set{Day: m.Day, Named: map[string]*Layer{}}
	for name, l := range m.Named {
		if l.Useless() == "" && (l.Usable > 0 || name != "high_water") {
			out.Named[name] = l
		}
	}
	for _, l := range m.Areas {
		if l.Useless() == "" {
			out.Areas = append(out.Areas, l)
		}
	}
	return out
}

// Minds is what a layer lacks as the job describes it. survey is nil if there is none.
func (l *Layer) Minds(j *job.Job, survey *Layer) []string {
	var out []string
	if why := l.Useless(); why != "" && len(l.Items) == 0 && len(l.Geo.Defects) == 0 {
		out = append(out, why)
	}
	inaccurate, undated, old, levels := 0, 0, 0, 0
	var age string // why the first that is too old is so
	most, met := l.Source.MaxAge, "max_age"
	if most == (rules.Age{}) {
		most, met = l.UsualAge(), "the usual age"
	}
	for _, it := range l.Items {
		if math.IsNaN(it.Accuracy) {
			inaccurate++
		}
		if it.Date == "" {
			undated++
		}
		if why := l.TooOld(most, it.Date, j.DecisionDate.Time); why != "" && (it.Date != "" || most == l.Source.MaxAge) {
			old++
			age = cmp.Or(age, why)
		}
		if !math.IsNaN(it.Elevation) {
			levels++
		}
	}
	all := job.Count(len(l.Items), "feature")
	if inaccurate > 0 && Usable(l.Name) {
		out = append(out, fmt.Sprintf("no accuracy is stated for %d of %s", inaccurate, all))
	}
	if undated > 0 && Usable(l.Name) {
		out = append(out, fmt.Sprintf("no date is stated for %d of %s", undated, all))
	}
	if old > 0 {
		out = append(out, fmt.Sprintf("%s is not met by %d of %s (first: %s)", met, old, all, age))
	}
	if l.lost > 0 {
		out = append(out, job.Count(l.lost, "feature")+" of it may lie anywhere, so nothing measured to it is firm")
	}
	if levels > 0 && l.Source.Datum == "" {
		out = append(out, "its elevations have no datum")
	}
	bound, drawn := l.Geo.Bound()
	if drawn && l.Source.Surveyed == "" && Surveyable(l.Name) {
		out = append(out, "no surveyed area is stated: within "+job.FeetText(j.SearchRadius.Metres)+" of its extent it counts as complete, and nothing that hangs on that is firm")
	}
	if survey != nil {
		if where, known := survey.Geo.Bound(); known && drawn && !bound.Intersects(where) {
			out = append(out, "its surveyed area lies nowhere near it")
		}
	}
	return out
}

// Stated adds to the record of a layer what the job states of it and what of it
// could not be used.
func (m *Set) Stated(in *inputs.Record) {
	for _, l := range m.All() {
		if l.Name != in.Role {
			continue
		}
		in.Date, in.Datum, in.Epoch = l.Source.Date, l.Source.Datum, l.Source.Epoch
		for _, d := range l.Geo.Defects {
			if d.Err.File == in.File {
				in.Defects = append(in.Defects, d.Err.Error())
			}
		}
		for _, p := range l.Repairs {
			if p.File == in.File {
				in.Repairs = append(in.Repairs, p.Text)
			}
		}
	}
}

// Side makes what the features state of their sides evidence.
func (l *Layer) Side(item int) int { return l.Items[item].Side }

// Usable reports whether distances are measured to a layer of that name, so that its
// accuracy and its date matter.
func Usable(name string) bool { return name != "shoreline" && name != "parcels" }

// Surveyable reports whether it matters where a layer of that name was surveyed: what
// is not mapped of the others is no shore and no land.
func Surveyable(name string) bool {
	return Usable(name) && name != "high_water" && name != "low_water"
}
