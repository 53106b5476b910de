package inspect

import (
	"slices"
	"strings"

	"waterward/geo"
	"waterward/geo/geojson"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
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
	files job.Files
	job   *job.Job
	log   *inputs.Log
	out   *JobInspection
}

// layers inspects every layer. What cannot be loaded is refused and left out.
func (i *jobInspector) layers() *layers.Set {
	m := &layers.Set{Named: map[string]*layers.Layer{}, Day: i.job.DecisionDate.Time}
	for name, source := range i.job.Layers.Each() {
		switch l := i.layer(name, source, layers.KindOfLayer(name)); {
		case l == nil:
		case strings.HasPrefix(name, "areas."):
			m.Areas = append(m.Areas, l)
		default:
			m.Named[name] = l
		}
	}
	if m.Layer("high_water") == nil { // which everything else is set against
		m.Named["high_water"] = &layers.Layer{Name: "high_water", Title: layers.LayerKinds["high_water"].Title, Geo: (&geo.LayerBuilder{}).Build(false)}
	}
	for _, err := range m.Refusals() {
		i.refuse(err)
	}
	m.Crossing = m.Crossings()
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
func (i *jobInspector) layer(name string, source *job.LayerSource, kind layers.LayerKind) *layers.Layer {
	from := &layers.Loader{Files: i.files, Log: i.log, Day: i.job.DecisionDate.Time, AsDrawn: i.job.NoRepair}
	l, err := from.Layer(name, *source, kind)
	i.refuse(err)
	if err != nil && source.Surveyed != "" { // the layer by itself may do
		bare := *source
		bare.Surveyed = ""
		l, err = from.Layer(name, bare, kind)
		i.refuse(err)
	}
	for _, file := range source.Files {
		i.file(name, file, source, l, from.AsDrawn)
	}
	var survey *layers.Layer
	if source.Surveyed != "" {
		from.AsDrawn = true
		where := job.LayerSource{Files: job.FileList{source.Surveyed}, CRS: source.CRS}
		survey, _ = from.Layer(name+".surveyed", where, layers.LayerKind{Title: "the surveyed area of " + kind.Title, Areas: true})
		i.file(name+".surveyed", source.Surveyed, &where, survey, true)
	}
	seen := LayerSeen{Layer: name, None: source.None, Minds: []string{}}
	if l != nil {
		seen.Usable = l.Usable
		seen.Minds = append(seen.Minds, l.Minds(i.job, survey)...)
	}
	i.out.Layers = append(i.out.Layers, seen)
	return l
}

// file inspects a file of a layer. Its faults are those that loading has found, or, if
// it cannot be loaded, what any layer would.
func (i *jobInspector) file(name, file string, source *job.LayerSource, l *layers.Layer, asDrawn bool) {
	in := newInspection(name, file)
	i.out.Files = append(i.out.Files, in)
	seek := inputs.NewSought(source.Properties, source.Key)
	err := in.read(i.files, source.CRS, func(f *geojson.Feature) {
		seek.See(f)
		if l == nil {
			in.check(f, asDrawn)
		} else if belongs, err := layers.Belongs(source.Only, f); belongs && err == nil && f.Err == nil {
			in.selfMeeting(f)
		}
	})
	if err != nil {
		in.Refused = err.Error()
	}
	in.warn(seek.Warnings("", file))
	if l != nil {
		in.take(l)
	}
	in.finish()
}

// take takes over the faults that loading a layer has found in the file.
func (in *Inspection) take(l *layers.Layer) {
	for _, d := range l.Geo.Defects {
		if d.Err.File == in.File {
			in.unusable(d.Err)
		}
	}
	for _, r := range l.Repairs {
		if r.File == in.File {
			in.Rebuilt++
			in.fault(r.Label, strings.TrimPrefix(r.Text, in.File+": "+r.Label+": "), "")
		}
	}
}
