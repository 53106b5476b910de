package screening

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"waterward/rules"
)

// shelf are the rule books of a run.
type shelf struct {
	day      time.Time
	editions []rules.Editions // one book for each authority, all its editions
	current  []*rules.Book    // of each, the edition in force on the day
	idle     []*rules.Book    // asked for, but of a status that never decides
}

// loadBooks loads the job's rule books and checks that they can decide.
func loadBooks(files Files, job *Job, log *inputLog) (*shelf, error) {
	var books []*rules.Book
	var faults []error
	fault := func(err error) { faults = append(faults, &JobError{err.Error()}) }
	for i, name := range job.Books {
		if slices.Contains(job.Books[:i], name) {
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
		return nil, joinErrors(faults)
	}
	gathered, err := rules.Gather(books)
	if err != nil {
		return nil, &JobError{err.Error()}
	}
	s := &shelf{day: job.DecisionDate.Time}
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
		b, err := e.On(s.day)
		if err == nil && byAuthority[b.Authority] != "" {
			err = fmt.Errorf("%s: decides for the authority %q, as %s does; one book for each", b.Name, b.Authority, byAuthority[b.Authority])
		}
		if err != nil {
			fault(err)
			continue
		}
		byAuthority[b.Authority] = b.Name
		s.editions, s.current = append(s.editions, e), append(s.current, b)
	}
	if len(s.editions) == 0 && len(faults) == 0 {
		fault(fmt.Errorf("none of the rule books can decide: %s", strings.Join(s.idleText(), "; ")))
	}
	return s, joinErrors(faults)
}

// readBook returns a book of a file, or all editions of one built in.
func readBook(files Files, name string, log *inputLog) ([]*rules.Book, error) {
	if !rules.IsFile(name) {
		return rules.BuiltIn(name)
	}
	input, err := files.Open(name)
	if err != nil {
		return nil, fmt.Errorf("book: cannot be opened: %w", err)
	}
	defer input.Close()
	counted := log.begin("book", name, input)
	b, err := rules.Load(name, counted)
	if err != nil {
		return nil, err
	}
	return []*rules.Book{b}, counted.finish()
}

// idleText says of each book that never decides why.
func (s *shelf) idleText() []string {
	var out []string
	for _, b := range s.idle {
		out = append(out, fmt.Sprintf("book %s, edition %s, is %s and decides nothing", b.Name, b.Edition, b.Status))
	}
	return out
}

// live are all editions that may decide on some proposal.
func (s *shelf) live() []*rules.Book {
	var out []*rules.Book
	for i, e := range s.editions {
		out = append(append(out, s.current[i]), e.Older(s.day)...)
	}
	return out
}

// shown is the width of opening for which the summary shows runs, that of the
// first book that speaks of one, else 5 ft; and likewise for how much length an
// opening is asked, else 100 ft.
func (s *shelf) shown() (opening, every float64) {
	opening, every = 5*foot, 100*foot
	var hasOpening, hasEvery bool
	for _, b := range s.current {
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

// widestOpening is the width, in metres, from which an opening counts by every book; 5 ft
// if none speaks of one.
func (s *shelf) widestOpening() float64 {
	most := 0.0
	for _, b := range s.live() {
		for _, d := range b.Demands() {
			most = math.Max(most, d.Ref.Opening)
		}
	}
	if most == 0 {
		return 5 * foot
	}
	return most
}

// setback is the greatest distance, in metres, that any book asks to a channel.
func (s *shelf) setback() float64 {
	most := 0.0
	for _, b := range s.live() {
		for _, d := range b.Demands() {
			if d.Measure.Name == "channel_nearest" {
				most = math.Max(most, d.Limit)
			}
		}
	}
	return most
}
