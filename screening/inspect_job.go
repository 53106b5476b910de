package screening

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo"
	"waterward/rules"
)

// JobInspection is what the files of a job hold, and what its books ask that they
// cannot answer.
type JobInspection struct {
	Files  []*Inspection `json:"files"`
	Asks   int           `json:"criteria"`
	Needs  []Need        `json:"needs"`
	Water  []Facing      `json:"water_side"`
	Doubts []string      `json:"doubts"` // what of the layers, set against one another, may mislead
}

// Need is something a job does not have, and the criteria that hang on it.
type Need struct {
	What     string   `json:"what"`
	Get      string   `json:"get"`
	Criteria []string `json:"criteria"`
}

// InspectJob inspects every file of a job and says which criteria of its books
// cannot be decided with them, and what to get.
func InspectJob(files Files, job *Job) (*JobInspection, error) {
	if err := job.usePresets(files); err != nil {
		return nil, err
	}
	if err := job.Check(); err != nil {
		return nil, &JobError{err.Error()}
	}
	log := &inputLog{}
	shelf, err := loadBooks(files, job, log)
	if err != nil {
		return nil, err
	}
	layers, err := (&loader{files: files, log: log, asDrawn: job.NoRepair}).layers(job)
	if err != nil {
		return nil, err
	}
	out := &JobInspection{}
	proposals, err := Inspect(files, job.Proposals.File, job.Proposals.CRS)
	if err != nil {
		return nil, err
	}
	out.Files = append(out.Files, proposals)
	for _, source := range job.Layers.each() {
		for _, name := range source.Files {
			in, err := Inspect(files, name, source.CRS)
			if err != nil {
				return nil, err
			}
			out.Files = append(out.Files, in)
		}
	}
	b := &basis{layers: layers, shelf: shelf, source: job.Proposals, radius: job.SearchRadius.Metres}
	for _, book := range shelf.current {
		for _, path := range book.Paths {
			for _, c := range path.Criteria {
				out.Asks++
				name := strings.Join([]string{book.Name, path.ID, c.ID}, "/")
				for _, need := range b.needs(c, proposals) {
					out.need(need, name)
				}
			}
		}
	}
	out.Water = layers.facings(job.SearchRadius.Metres)
	out.Doubts = layers.doubts(job.SearchRadius.Metres)
	return out, nil
}

func (j *JobInspection) need(need Need, criterion string) {
	at := slices.IndexFunc(j.Needs, func(n Need) bool { return n.What == need.What })
	if at < 0 {
		at = len(j.Needs)
		j.Needs = append(j.Needs, need)
	}
	if n := &j.Needs[at]; !slices.Contains(n.Criteria, criterion) {
		n.Criteria = append(n.Criteria, criterion)
	}
}

// needs are what a criterion, with its conditions, asks that the job has not:
// layers, and what no proposal states.
func (b *basis) needs(c *rules.Criterion, proposals *Inspection) []Need {
	var out []Need
	for _, d := range append([]*rules.Demand{&c.Demand}, c.When...) {
		if layer := b.missingLayer(d); layer != "" {
			out = append(out, Need{What: "layers." + layer, Get: "give the layer, with its surveyed area"})
		}
		for _, in := range d.Inputs() {
			property := statedBy(in.Ref.Measure)
			if property == "" || b.stated(property, proposals) {
				continue
			}
			out = append(out, Need{What: "the property " + property, Get: "no proposal states it: ask the applicants"})
		}
	}
	return out
}

// statedBy is the property that a measure rests on; empty if it is measured.
func statedBy(measure string) string {
	for _, w := range statedWords {
		if w.measure == measure {
			return w.property
		}
	}
	for _, m := range statedMeasures {
		if m.measure == measure {
			return m.property
		}
	}
	return map[string]string{
		"crest_above_mhw": "crest_elev_ft", "crest_above_wetland": "wetland_elev_ft", "fill_tide_ranges": "fill_elev_ft",
		"mhw_mean_depth": "bed_elev_ft", "mlw_greatest_depth": "bed_elev_ft", "fill_volume": "bed_elev_ft", "fill_per_length": "bed_elev_ft",
	}[measure]
}

// stated reports whether any proposal states a property, under the name the job
// gives it.
func (b *basis) stated(property string, proposals *Inspection) bool {
	name := property
	if field, mapped := b.source.Properties[property]; mapped {
		if field.Is != "" {
			return true
		}
		name = field.From
	}
	return slices.ContainsFunc(proposals.Properties, func(p PropertySeen) bool {
		return strings.EqualFold(p.Name, name) && len(p.Types) > 0 && !(len(p.Types) == 1 && p.Types["empty"] > 0)
	})
}

// Apart names the files that lie nowhere near any of the others.
func Apart(found []*Inspection) []string {
	var out []string
	for i, in := range found {
		if in.Extent == nil {
			continue
		}
		others, met := 0, false
		for j, other := range found {
			if i == j || other.Extent == nil {
				continue
			}
			others++
			met = met || in.bound().Intersects(geo.Window(other.bound(), defaultRadius))
		}
		if others > 0 && !met {
			out = append(out, in.File+" lies nowhere near any other of these files: is it another place, or another coordinate system?")
		}
	}
	return out
}

func (in *Inspection) bound() orb.Bound {
	return orb.Bound{Min: orb.Point{in.Extent[0], in.Extent[1]}, Max: orb.Point{in.Extent[2], in.Extent[3]}}
}

// apart names the layers that lie nowhere near the high water line.
func (m *mapped) apart(radius float64) []string {
	shore, ok := m.layer("high_water").geo.Bound()
	if !ok {
		return nil
	}
	var out []string
	for _, l := range m.all() {
		if b, ok := l.geo.Bound(); ok && !b.Intersects(geo.Window(shore, radius)) {
			out = append(out, l.name)
		}
	}
	return out
}

func apartText(name string) string {
	return name + " lies nowhere near the high water line: is it another place, or another coordinate system?"
}

// Write prints the inspection of a job for a person.
func (j *JobInspection) Write(w io.Writer) error {
	for _, in := range j.Files {
		if err := in.Write(w); err != nil {
			return err
		}
		fmt.Fprintln(w)
	}
	for _, f := range j.Water {
		fmt.Fprintf(w, "%s: which side is water, at %d features looked at: %s\n", f.Layer, f.Looked, f)
	}
	for _, text := range j.Doubts {
		fmt.Fprintln(w, text)
	}
	fmt.Fprintf(w, "The books ask %d criteria.", j.Asks)
	if len(j.Needs) == 0 {
		fmt.Fprint(w, " The layers and the proposals have what all of them need.\n")
		return nil
	}
	fmt.Fprint(w, " What the job has not, and the criteria that stay unknown without it:\n")
	for _, n := range j.Needs {
		fmt.Fprintf(w, "  %s (%s)\n", n.What, n.Get)
		for _, c := range n.Criteria {
			fmt.Fprintf(w, "    %s\n", c)
		}
	}
	return nil
}
