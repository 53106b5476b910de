package job

import (
	"errors"
	"strings"
)

// Error is a fault of the job: a missing layer, a file that cannot be
// opened, books that cannot be applied.
type Error struct{ Message string }

func (e *Error) Error() string { return e.Message }

// JoinErrors makes one error of several, a line each; nil of none. It is a
// *Error if all of them are.
func JoinErrors(all []error) error {
	if len(all) == 0 {
		return nil
	}
	ofJob := true
	var lines []string
	for _, err := range all {
		var e *Error
		ofJob = ofJob && errors.As(err, &e)
		lines = append(lines, err.Error())
	}
	text := strings.Join(lines, "\n")
	if ofJob {
		return &Error{text}
	}
	return errors.New(text)
}
