package inputs

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"waterward/rules"
	"waterward/screening/job"
)

// BookSet are the rule books of a run.
type BookSet struct {
	Day      time.Time
	Editions []rules.Editions // one book for each authority, all its editions
	Current  []*rules.Book    // of each, the edition in force on the day
	idle     []*rules.Book    // asked for, but of a status that never decides
}

// Begin is what every use of a job starts with: its presets are filled in, it is checked
// as [job.Job.Check] or [job.Job.CheckEnvelope] does, and its books are loaded.
func Begin(files job.Files, j *job.Job, check func(*job.Job) error, log *Log) (*BookSet, error) {
	if err := j.UsePresets(files); err != nil {
		return nil, err
	}
	if err := check(j); err != nil {
		return nil, &job.Error{Message: err.Error()}
	}
	return LoadBooks(files, j, log)
}

// LoadBooks loads the job's rule books and checks that they can decide.
func LoadBooks(files job.Files, j *job.Job, log *Log) (*BookSet, error) {
	var books []*rules.Book
	var faults []error
	fault := func(err error) { faults = append(faults, &job.Error{Message: err.Error()}) }
	for i, name := range j.Books {
		if slices.Contains(j.Books[:i], name) {
			fault(fmt.Errorf("book %s is named twice: name it once", name))
			continue
		}
		if book, _, pinned := strings.Cut(name, "@"); pinned && !rules.IsFile(name) {
			fault(fmt.Errorf("book %s: name the book alone, %s; decision_date and a proposal's started date choose the edition", name, book))
			continue
		}
		read, err := readBook(files, name, log)
		if err != nil {
			fault(err)
		}
		books = append(books, read...)
	}
	if len(faults) > 0 {
		return nil, job.JoinErrors(faults)
	}
	gathered, err := rules.Gather(books)
	if err != nil {
		return nil, &job.Error{Message: err.Error()}
	}
	s := &BookSet{Day: j.DecisionDate.Time}
	byAuthority := map[string]string{}
	for _, e := range gathered {
		for _, b := range e {
			if b.Status != rules.InForce {
				s.idle = append(s.idle, b)
			}
		}
		if !e.Applied() {
			continue
		}
		b, err := e.On(s.Day)
		if err == nil && byAuthority[b.Authority] != "" {
			err = fmt.Errorf("%s: decides for the authority %q, as %s does; one book for each", b.Name, b.Authority, byAuthority[b.Authority])
		}
		if err != nil {
			fault(err)
			continue
		}
		byAuthority[b.Authority] = b.Name
		s.Editions, s.Current = append(s.Editions, e), append(s.Current, b)
	}
	if len(s.Editions) == 0 && len(faults) == 0 {
		fault(fmt.Errorf("none of the rule books can decide: %s", strings.Join(s.IdleText(), "; ")))
	}
	return s, job.JoinErrors(faults)
}

// readBook returns a book of a file, or all editions of one built in.
func readBook(files job.Files, name string, log *Log) ([]*rules.Book, error) {
	if !rules.IsFile(name) {
		return rules.BuiltIn(name)
	}
	input, err := files.Open(name)
	if err != nil {
		return nil, fmt.Errorf("book: cannot be opened: %w", err)
	}
	defer input.Close()
	counted := log.Begin("book", name, input)
	b, err := rules.Load(name, counted)
	if err != nil {
		return nil, err
	}
	return []*rules.Book{b}, counted.Finish()
}

// IdleText says of each book that never decides why.
func (s *BookSet) IdleText() []string {
	var out []string
	for _, b := range s.idle {
		out = append(out, fmt.Sprintf("book %s, edition %s, is %s and decides nothing", b.Name, b.Edition, b.Status))
	}
	return out
}

// Live are all editions that may decide on some proposal.
func (s *BookSet) Live() []*rules.Book {
	var out []*rules.Book
	for i, e := range s.Editions {
		out = append(append(out, s.Current[i]), e.Older(s.Day)...)
	}
	return out
}

// Shown is the width of opening for which the summary shows runs, that of the
// first book that speaks of one, else 5 ft; and likewise for how much length an
// opening is asked, else 100 ft.
func (s *BookSet) Shown() (opening, every float64) {
	opening, every = 5*job.Foot, 100*job.Foot
	var hasOpening, hasEvery bool
	for _, b := range s.Current {
		for _, d := range b.Demands() {
			if d.Ref.Opening > 0 && !hasOpening {
				opening, hasOpening = d.Ref.Opening, true
			}
			if d.Ref.Every > 0 && !hasEvery {
				every, hasEvery = d.Ref.Every, true
			}
		}
	}
	return opening, every
}

// WidestOpening is the width, in metres, from which an opening counts by every book; 5 ft
// if none speaks of one.
func (s *BookSet) WidestOpening() float64 {
	most := 0.0
	for _, b := range s.Live() {
		for _, d := range b.Demands() {
			most = math.Max(most, d.Ref.Opening)
		}
	}
	if most == 0 {
		return 5 * job.Foot
	}
	return most
}

// Setback is the greatest distance, in metres, that any book asks to a channel.
func (s *BookSet) Setback() float64 {
	most := 0.0
	for _, b := range s.Live() {
		for _, d := range b.Demands() {
			if d.Measure.Name == "channel_nearest" {
				most = math.Max(most, d.Limit)
			}
		}
	}
	return most
}
