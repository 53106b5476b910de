package screening

import (
	"fmt"

	"waterward/rules"
)

// loadBooks loads the job's rule books and checks that they can decide.
func loadBooks(files Files, job *Job, log *inputLog) ([]*rules.Book, error) {
	var books []*rules.Book
	var faults []error
	byAuthority := map[string]string{}
	for _, name := range job.Books {
		b, err := loadBook(files, name, log)
		if err == nil {
			err = b.Covers(job.DecisionDate.Time)
		}
		if err == nil && byAuthority[b.Authority] != "" {
			err = fmt.Errorf("%s: decides for the authority %q, as %s does; one book for each", name, b.Authority, byAuthority[b.Authority])
		}
		if err != nil {
			faults = append(faults, &JobError{err.Error()})
			continue
		}
		byAuthority[b.Authority] = name
		books = append(books, b)
	}
	return books, joinErrors(faults)
}

func loadBook(files Files, name string, log *inputLog) (*rules.Book, error) {
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
	return b, counted.finish()
}

// openingShown is the width of opening for which the summary shows runs: that
// of the first book that speaks of one, else 5 ft.
func openingShown(books []*rules.Book) float64 {
	for _, b := range books {
		for _, path := range b.Paths {
			for _, c := range path.Criteria {
				if c.Ref.Opening > 0 {
					return c.Ref.Opening
				}
			}
		}
	}
	return 5 * foot
}
