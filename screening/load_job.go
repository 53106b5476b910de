package screening

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"go.yaml.in/yaml/v4"
)

// maxJob is the largest job file read, in bytes.
const maxJob = 1 << 20

// LoadJob reads a job file strictly: what it does not know is an error. name is
// only for messages.
func LoadJob(name string, r io.Reader) (*Job, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxJob+1))
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	if len(text) > maxJob {
		return nil, fmt.Errorf("%s: larger than a job file can be; is it a layer?", name)
	}
	job := &Job{}
	if err := yaml.Load(text, job, yaml.WithKnownFields()); err != nil && !errors.Is(err, io.EOF) {
		return nil, jobError(name, err)
	}
	return job, nil
}

// unknownField is what the reader of YAML says of a key it has no place for.
var unknownField = regexp.MustCompile(`^field (\S+) not found in type \S+$`)

// jobError gives every fault of a job file its line and column.
func jobError(name string, err error) error {
	var all *yaml.LoadErrors
	if !errors.As(err, &all) {
		var one *yaml.LoadError
		if !errors.As(err, &one) {
			return fmt.Errorf("%s: %w", name, err)
		}
		return fmt.Errorf("%s:%d:%d: not valid YAML: %s", name, max(one.Mark.Line, 1), max(one.Mark.Column, 1), one.Message)
	}
	var lines []string
	for _, e := range all.Errors {
		text := unknownField.ReplaceAllString(fmt.Sprint(e.Message), `unknown key "$1"`)
		if strings.HasSuffix(text, "into []string") {
			text = "this is a list: write it as [one, two]"
		}
		lines = append(lines, fmt.Sprintf("%s:%d:%d: %s", name, e.Mark.Line, e.Mark.Column, text))
	}
	return errors.New(strings.Join(lines, "\n"))
}
