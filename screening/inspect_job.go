package screening

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"waterward/geo/geojson"
	"waterward/rules"
)

// JobInspection is what the files of a job hold, and what its books ask that they
// cannot answer.
type JobInspection struct {
	Files   []*Inspection `json:"files"`
	Layers  []LayerSeen   `json:"layers"`
	Asks    int           `json:"criteria"`
	Needs   []Need        `json:"needs"`
	Water   []Facing      `json:"water_side"`
	Doubts  []string      `json:"doubts"`  // what of the layers, set against one another, may mislead
	Refused []string      `json:"refused"` // why the job cannot be screened
}

// InspectJob inspects every file of a job and says which criteria of its books
// cannot be decided with them, and what to get. A layer that screening would refuse
// keeps it from nothing else.
func InspectJob(files Files, job *Job) (*JobInspection, error) {
	if err := job.usePresets(files); err != nil {
		return nil, err
	}
	if err := job.Check(); err != nil {
		return nil, &JobError{err.Error()}
	}
	for name := range job.FileNames() { // each is read more than once
		if again, err := rereadable(context.Background(), files, name); err == nil {
			files = again
		}
	}
	shelf, err := loadBooks(files, job, &inputLog{})
	if err != nil {
		return nil, err
	}
	out := &JobInspection{Needs: []Need{}, Doubts: []string{}, Refused: []string{}}
	proposals := newInspection("proposals", job.Proposals.File)
	out.Files = append(out.Files, proposals)
	i := &jobInspector{files: files, job: job, log: &inputLog{}, out: out}
	layers := i.layers()
	a := &asker{
		layers: layers.answering(), shelf: shelf, source: job.Proposals, radius: job.SearchRadius.Metres,
		given:   &job.Layers,
		levels:  job.Levels != nil,
		stated:  map[string]bool{},
		applies: map[*rules.Criterion]bool{},
	}
	i.proposals(proposals, a, layers)
	var needs []Need
	out.Asks, needs = a.needs()
	out.Needs = append(out.Needs, needs...)
	out.Water = facingsOf(layers, a.radius)
	out.Doubts = slices.Concat(out.Doubts, layers.doubts(a.radius), contradicted(layers, a.radius))
	if proposals.datum != "" { // they could be read
		out.Doubts = append(out.Doubts, layers.datums(proposals.datum)...)
	}
	return out, nil
}

// proposals inspects the proposals as screening reads them.
func (i *jobInspector) proposals(in *Inspection, a *asker, layers *mapped) {
	source := i.job.Proposals
	seek := newSought(source.Properties, "")
	err := in.read(i.files, source.CRS, func(f *geojson.Feature) {
		source.Properties.identify(f)
		seek.see(f)
		p := newProposal(f, source)
		a.hear(p)
		var fault *geojson.FeatureError
		if errors.As(p.err, &fault) {
			in.unusable(fault)
		} else {
			in.selfMeeting(f)
		}
	})
	switch {
	case err != nil:
		in.Refused = err.Error()
	case in.Extent == nil && !in.stray.IsEmpty():
		in.Refused = strayText("proposals", in.stray, layers.extent())
	}
	if in.Refused != "" {
		i.refuse(errors.New(in.Refused))
	}
	in.warn(seek.warnings("", in.File))
	in.finish()
}

// Write prints the inspection of a job for a person.
func (j *JobInspection) Write(w io.Writer) error {
	for _, in := range j.Files {
		if err := in.Write(w); err != nil {
			return err
		}
		fmt.Fprintln(w)
	}
	for _, l := range j.Layers {
		holds := number(l.Usable, "feature") + " can be used"
		if l.None {
			holds = "none, as the job says"
		}
		fmt.Fprintf(w, "%s: %s\n", l.Layer, holds)
		for _, text := range l.Minds {
			fmt.Fprintf(w, "  mind  %s\n", plainText(text))
		}
	}
	for _, f := range j.Water {
		fmt.Fprintf(w, "%s: %s\n", f.Layer, f)
	}
	for _, text := range j.Doubts {
		fmt.Fprintln(w, plainText(text))
	}
	fmt.Fprintf(w, "The books ask %d criteria.", j.Asks)
	if len(j.Needs) == 0 {
		fmt.Fprint(w, " The layers and the proposals have what all of them need.\n")
	} else {
		fmt.Fprint(w, " What the job has not, and the criteria that can stay unknown, or not firm, without it:\n")
	}
	for _, n := range j.Needs {
		fmt.Fprintf(w, "  %s (%s)\n", n.What, n.Get)
		for _, c := range n.Criteria {
			fmt.Fprintf(w, "    %s\n", c)
		}
	}
	for _, text := range j.Refused {
		fmt.Fprintf(w, "refused: %s\n", plainText(text))
	}
	return nil
}
