package job

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"go.yaml.in/yaml/v4"

	"waterward/geo/text"
)

// maxJob is the largest job file or preset read, in bytes.
const maxJob = 1 << 20

// Load reads a job file strictly: what it does not know is an error, a
// *Error. name is only for messages.
func Load(name string, r io.Reader) (*Job, error) {
	job := &Job{}
	if err := loadYAML(name, r, job); err != nil {
		return nil, err
	}
	return job, nil
}

// loadYAML reads a job or a part of one; what a file of nothing says is nothing.
func loadYAML(name string, r io.Reader, into any) error {
	page, err := io.ReadAll(io.LimitReader(r, maxJob+1))
	switch {
	case err != nil:
		return &Error{fmt.Sprintf("%s: cannot be read: %v", name, err)}
	case len(page) > maxJob:
		return &Error{name + ": larger than a job file can be; is it a layer?"}
	}
	if wrong := text.Fault(page); wrong != "" {
		return &Error{name + ": " + wrong}
	}
	if err := yaml.Load(page, into, yaml.WithKnownFields()); err != nil && !errors.Is(err, io.EOF) {
		return jobError(name, err)
	}
	return nil
}

// plainer are the messages of the reader of YAML, which name types of Go, in words
// for those who write jobs.
var plainer = []struct {
	message *regexp.Regexp
	plain   string
}{
	{regexp.MustCompile(`(?s)^field (.*) not found in type \S+$`), `unknown key "$1"`},
	{regexp.MustCompile(`(?s)^field (.*) already set in type \S+$`), `the key "$1" stands here twice`},
	{regexp.MustCompile(`(?s)^cannot construct .* into \[\]string$`), "this is a list: write it as [one, two]"},
	{regexp.MustCompile(`(?s)^cannot construct .* into string$`), "this is one name or text, no list and no mapping"},
	{regexp.MustCompile(`(?s)^cannot construct .* into bool$`), "write true or false"},
	{regexp.MustCompile(`(?s)^cannot construct .* into \S+$`), "this is a mapping: write it as {key: value}"},
}

// jobError gives every fault of a job file its line and column.
func jobError(name string, err error) error {
	var all *yaml.LoadErrors
	if !errors.As(err, &all) {
		var one *yaml.LoadError
		if !errors.As(err, &one) {
			return &Error{fmt.Sprintf("%s: %v", name, err)}
		}
		return &Error{fmt.Sprintf("%s:%d:%d: not valid YAML: %s", name, max(one.Mark.Line, 1), max(one.Mark.Column, 1), one.Message)}
	}
	var lines []string
	for _, e := range all.Errors {
		said := fmt.Sprint(e.Message)
		for _, p := range plainer {
			said = p.message.ReplaceAllString(said, p.plain)
		}
		lines = append(lines, fmt.Sprintf("%s:%d:%d: %s", name, e.Mark.Line, e.Mark.Column, text.Visible(said)))
	}
	return &Error{strings.Join(lines, "\n")}
}
