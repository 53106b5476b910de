package inspect

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"waterward/geo/geojson"
	"waterward/geo/text"
	"waterward/rules"
	"waterward/screening/inputs"
	"waterward/screening/job"
	"waterward/screening/layers"
	"waterward/screening/site"
)

// JobInspection is what the files of a job hold, and what its books ask that they
// cannot answer.
type JobInspection struct {
	Files   []*Inspection `json:"files"`
	Layers  []LayerSeen   `json:"layers"`
	Asks    int           `json:"criteria"`
	Needs   []Need        `json:"needs"`
	Water   []site.Facing `json:"water_side"`
	Doubts  []string      `json:"doubts"`  // what of the layers, set against one another, may mislead
	Refused []string      `json:"refused"` // why the job cannot be screened
}

// Job inspects every file of a job and says which criteria of its books
// cannot be decided with them, and what to get. A layer that screening would refuse
// keeps it from nothing else.
func Job(files job.Files, j *job.Job) (*JobInspection, error) {
	all, left, err := j.Expand(files)
	if err != nil {
		return nil, err
	}
	names := j.FileNames()
	for _, file := range all {
		names[file.Name] = true
	}
	for name := range names { // each is read more than once
		if again, err := inputs.Rereadable(context.Background(), files, name); err == nil {
			files = again
		}
	}
	shelf, err := inputs.Begin(files, j, (*job.Job).Check, &inputs.Log{})
	if err != nil {
		return nil, err
	}
	out := &JobInspection{Needs: []Need{}, Doubts: []string{}, Refused: []string{}}
	for _, file := range all {
		out.Files = append(out.Files, newInspection("proposals", file.Name))
	}
	proposals := out.Files
	i := &jobInspector{files: files, job: j, log: &inputs.Log{}, out: out}
	mapped := i.layers()
	a := &asker{
		layers: mapped.Answering(), shelf: shelf, radius: j.SearchRadius.Metres,
		given:   &j.Layers,
		levels:  j.Levels != nil,
		stated:  map[string]bool{},
		applies: map[*rules.Criterion]bool{},
	}
	for n, in := range proposals {
		i.proposals(in, all[n], a, mapped)
	}
	var needs []Need
	out.Asks, needs = a.needs()
	out.Needs = append(out.Needs, needs...)
	out.Water = site.FacingsOf(mapped, a.radius)
	out.Doubts = append(out.Doubts, mapped.Doubts(a.radius)...)
	out.Doubts = append(out.Doubts, site.Contradicted(mapped, a.radius)...)
	for _, in := range proposals {
		if in.datum == "" { // it could not be read
			continue
		}
		for _, text := range mapped.Datums(in.datum) {
			if !slices.Contains(out.Doubts, text) {
				out.Doubts = append(out.Doubts, text)
			}
		}
	}
	if len(left) > 0 {
		out.Doubts = append(out.Doubts, job.LeftText(left))
	}
	return out, nil
}

// proposals inspects a file of proposals as screening reads it.
func (i *jobInspector) proposals(in *Inspection, source *job.ProposalsFile, a *asker, mapped *layers.Set) {
	seek := inputs.NewSought(source.Properties, "")
	err := in.read(i.files, source.CRS, func(f *geojson.Feature) {
		p := site.NewProposal(site.Submit(f, source, f.Number))
		seek.See(f)
		a.hear(p)
		var fault *geojson.FeatureError
		if errors.As(p.Err, &fault) {
			in.unusable(fault)
		} else {
			in.selfMeeting(f)
		}
	})
	switch {
	case err != nil:
		in.Refused = err.Error()
	case in.Extent == nil && !in.stray.IsEmpty():
		in.Refused = layers.StrayText("proposals", in.stray, mapped.Extent())
	}
	if in.Refused != "" {
		i.refuse(errors.New(in.Refused))
	}
	in.warn(seek.Warnings("", in.File))
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
		holds := job.Count(l.Usable, "feature") + " can be used"
		if l.None {
			holds = "none, as the job says"
		}
		fmt.Fprintf(w, "%s: %s\n", l.Layer, holds)
		for _, said := range l.Minds {
			fmt.Fprintf(w, "  mind  %s\n", text.Visible(said))
		}
	}
	for _, f := range j.Water {
		fmt.Fprintf(w, "%s: %s\n", f.Layer, f)
	}
	for _, said := range j.Doubts {
		fmt.Fprintln(w, text.Visible(said))
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
	for _, said := range j.Refused {
		fmt.Fprintf(w, "refused: %s\n", text.Visible(said))
	}
	return nil
}
