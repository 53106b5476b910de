package screening

import (
	"errors"
	"strings"
)

// JobError is a fault of the job: a missing layer, a file that cannot be
// opened, books that cannot be applied.
type JobError struct{ Message string }

func (e *JobError) Error() string { return e.Message }

// joinErrors makes one error of several, a line each; nil of none. It is a
// *JobError if all of them are.
func joinErrors(all []error) error {
	if len(all) == 0 {
		return nil
	}
	ofJob := true
	var lines []string
	for _, err := range all {
		var e *JobError
		ofJob = ofJob && errors.As(err, &e)
		lines = append(lines, err.Error())
	}
	text := strings.Join(lines, "\n")
	if ofJob {
		return &JobError{text}
	}
	return errors.New(text)
}
