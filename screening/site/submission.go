package site

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"waterward/geo/geojson"
	"waterward/screening/job"
	"waterward/screening/layers"
)

// Submission is one feature of an application as it came: in a file, which its source says
// how to read, perhaps one version of several, perhaps one part of a structure.
type Submission struct {
	*geojson.Feature
	From  *job.ProposalsFile
	Order int // among all that are read in a run, from 1

	Refused error         // why nothing can be decided on it, whatever is drawn
	Aside   string        // why it is not decided by itself; empty if it is
	Parts   []*Submission // of one structure drawn in parts, of which this is the first: all, in their order
}

// Submit is a feature as the file says that it is to be read.
func Submit(f *geojson.Feature, from *job.ProposalsFile, order int) *Submission {
	from.Properties.Identify(f)
	return &Submission{Feature: f, From: from, Order: order}
}

// Alone is a feature that stands by itself and says what there is to say of it.
func Alone(f *geojson.Feature, file string) *Submission {
	return Submit(f, &job.ProposalsFile{Name: file, ProposalsSource: &job.ProposalsSource{}}, 1)
}

// Title names the proposal: by its id, else by its place in the file, a file that cannot be
// read by its own name.
func (s *Submission) Title() string {
	switch {
	case s.ID != "":
		return s.ID
	case s.Number == 0:
		return s.From.Name
	}
	return fmt.Sprintf("#%d", s.Number)
}

// Version is which version of its application it says that it is; empty if it does not say.
func (s *Submission) Version() string {
	text, _ := s.Text("version")
	return strings.TrimSpace(text)
}

// PartTitle names it as a part of its structure.
func (s *Submission) PartTitle() string {
	part, _ := s.Text("part")
	return fmt.Sprintf("part %s of %s", strings.TrimSpace(part), s.Title())
}

// Text is a word or a name that the feature states.
func (s *Submission) Text(name string) (string, error) {
	return s.From.Properties.Text(s.Feature, name)
}

// fault is what is wrong with the feature, and what to do.
func (s *Submission) fault(wrong, remedy string) error {
	return &geojson.FeatureError{File: s.From.Name, Number: s.Number, ID: s.ID, Wrong: wrong, Remedy: remedy}
}

// HalfWidth is by how much the structure reaches beyond its drawing on either side, metres.
func (s *Submission) HalfWidth() float64 { return s.From.HalfWidth(s.Feature) }

// drawn are the features of the whole structure.
func (s *Submission) drawn() []*Submission {
	if len(s.Parts) > 0 {
		return s.Parts
	}
	return []*Submission{s}
}

// Bound is that of the whole structure, in degrees.
func (s *Submission) Bound() orb.Bound {
	all := s.drawn()
	b := all[0].Feature.Bound()
	for _, part := range all[1:] {
		b = b.Union(part.Feature.Bound())
	}
	return b
}

// Coarseness is how far positions of the structure may be off, in metres, for want of digits.
func (s *Submission) Coarseness() float64 {
	most := 0.0
	for _, part := range s.drawn() {
		most = math.Max(most, layers.Coarseness(part.Feature))
	}
	return most
}

// stated is the same for parts of a structure that state the same of it: all but where and
// how wide they are drawn. What two sources say is never the same, as each has its units.
func (s *Submission) stated() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%p", s.From.ProposalsSource)
	for _, name := range job.ProposalProperties() {
		switch name {
		case "part", "width_ft", "diameter_ft", "accuracy_ft":
			continue
		}
		text, err := s.Text(name)
		fmt.Fprintf(&b, "%q %v,", text, err)
	}
	return b.String()
}
