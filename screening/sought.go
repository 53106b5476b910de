package screening

import (
	"fmt"
	"maps"
	"slices"

	"waterward/screening/job"
	"waterward/screening/site"
)

// sought counts how many proposals of each source have the properties in which the job
// looks for what is read.
type sought struct {
	sources []*job.ProposalsSource
	of      map[*job.ProposalsSource]*having
}

// having is what the features of one source have.
type having struct {
	files    []string
	features int            // whose properties can be read
	found    map[string]int // by what is read
	names    map[string]bool
}

func newSought() *sought { return &sought{of: map[*job.ProposalsSource]*having{}} }

func (s *sought) see(f *site.Submission) {
	if !f.Readable() {
		return
	}
	source := f.From.ProposalsSource
	t := s.of[source]
	if t == nil {
		t = &having{found: map[string]int{}, names: map[string]bool{}}
		s.of[source], s.sources = t, append(s.sources, source)
	}
	if !slices.Contains(t.files[max(0, len(t.files)-1):], f.From.Name) {
		t.files = append(t.files, f.From.Name)
	}
	t.features++
	for _, m := range f.Properties() {
		if len(t.names) < job.MostNames {
			t.names[m.Key] = true
		}
	}
	for name, field := range source.Properties {
		if field.From != "" && f.Property(job.Spelled(f.Feature, field.From)) != nil {
			t.found[name]++
		}
	}
}

// missing refuses properties that the job looks for and no proposal of the source has, and
// tells of those that only some have.
func (s *sought) missing() (told []string, err error) {
	var faults []error
	for _, source := range s.sources {
		t := s.of[source]
		where := job.Few(t.files)
		for _, name := range slices.Sorted(maps.Keys(source.Properties)) {
			from := source.Properties[name].From
			_, own := source.Own()[name]
			switch found := t.found[name]; {
			case from == "" || found == t.features:
			case found > 0:
				told = append(told, fmt.Sprintf("proposals: %d of %s in %s have no %s, in which %s is looked for", t.features-found, job.Count(t.features, "feature"), where, from, name))
			case own:
				names := slices.Sorted(maps.Keys(t.names))
				faults = append(faults, job.NoProperty("proposals", where, from, "in which "+name+" is looked for", names))
			default:
				told = append(told, fmt.Sprintf("proposals: no feature of %s has the property %s, in which the preset %s looks for %s", where, from, source.Preset, name))
			}
		}
	}
	return told, job.JoinErrors(faults)
}
