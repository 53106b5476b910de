package screening

import (
	"slices"
	"strings"

	"waterward/geo"
	"waterward/geo/geojson"
)

// LayerSeen is what a layer of a job is worth as the job describes it.
type LayerSeen struct {
	Layer  string   `json:"layer"`
	Usable int      `json:"usable"` // features
	None   bool     `json:"none"`   // the job says that there is none
	Minds  []string `json:"minds"`
}

// jobInspector reads the files of a job as screening does, but goes on where that ends.
type jobInspector struct {
	files Files
	job   *Job
	log   *inputLog
	out   *JobInspection
}

// layers inspects every layer. What cannot be loaded is refused and left out.
func (i *jobInspector) layers() *mapped {
	m := &mapped{named: map[string]*layer{}, day: i.job.DecisionDate.Time}
	for name, source := range i.job.Layers.each() {
		switch l := i.layer(name, source, kindOfLayer(name)); {
		case l == nil:
		case strings.HasPrefix(name, "areas."):
			m.areas = append(m.areas, l)
		default:
			m.named[name] = l
		}
	}
	if m.layer("high_water") == nil { // which everything else is set against
		m.named["high_water"] = &layer{name: "high_water", title: layerKinds["high_water"].title, geo: (&geo.LayerBuilder{}).Build(false)}
	}
	for _, err := range m.refusals() {
		i.refuse(err)
	}
	m.crossing = m.crossings()
	return m
}

// refuse notes why the job cannot be screened.
func (i *jobInspector) refuse(err error) {
	if err == nil {
		return
	}
	for _, text := range strings.Split(err.Error(), "\n") {
		if !slices.Contains(i.out.Refused, text) {
			i.out.Refused = append(i.out.Refused, text)
		}
	}
}

// layer inspects a layer and the file that says where it was surveyed; nil if it cannot
// be loaded.
func (i *jobInspector) layer(name string, source *LayerSource, kind layerKind) *layer {
	from := &loader{files: i.files, log: i.log, day: i.job.DecisionDate.Time, asDrawn: i.job.NoRepair}
	l, err := from.layer(name, *source, kind)
	i.refuse(err)
	if err != nil && source.Surveyed != "" { // the layer by itself may do
		bare := *source
		bare.Surveyed = ""
		l, err = from.layer(name, bare, kind)
		i.refuse(err)
	}
	for _, file := range source.Files {
		i.file(name, file, source, l, from.asDrawn)
	}
	var survey *layer
	if source.Surveyed != "" {
		from.asDrawn = true
		where := LayerSource{Files: FileList{source.Surveyed}, CRS: source.CRS}
		survey, _ = from.layer(name+".surveyed", where, layerKind{title: "the surveyed area of " + kind.title, areas: true})
		i.file(name+".surveyed", source.Surveyed, &where, survey, true)
	}
	seen := LayerSeen{Layer: name, None: source.None, Minds: []string{}}
	if l != nil {
		seen.Usable = l.usable
		seen.Minds = append(seen.Minds, l.minds(i.job, survey)...)
	}
	i.out.Layers = append(i.out.Layers, seen)
	return l
}

// file inspects a file of a layer. Its faults are those that loading has found, or, if
// it cannot be loaded, what any layer would.
func (i *jobInspector) file(name, file string, source *LayerSource, l *layer, asDrawn bool) {
	in := newInspection(name, file)
	i.out.Files = append(i.out.Files, in)
	seek := newSought(source.Properties, source.Key)
	err := in.read(i.files, source.CRS, func(f *geojson.Feature) {
		seek.see(f)
		if l == nil {
			in.check(f, asDrawn)
		} else if belongs, err := belongs(source.Only, f); belongs && err == nil && f.Err == nil {
			in.selfMeeting(f)
		}
	})
	if err != nil {
		in.Refused = err.Error()
	}
	in.warn(seek.warnings("", file))
	if l != nil {
		in.take(l)
	}
	in.finish()
}

// take takes over the faults that loading a layer has found in the file.
func (in *Inspection) take(l *layer) {
	for _, d := range l.geo.Defects {
		if d.Err.File == in.File {
			in.unusable(d.Err)
		}
	}
	for _, r := range l.repairs {
		if r.file == in.File {
			in.Rebuilt++
			in.fault(r.label, strings.TrimPrefix(r.text, in.File+": "+r.label+": "), "")
		}
	}
}
