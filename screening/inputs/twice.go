package inputs

import (
	"bytes"
	"context"
	"fmt"
	"io"

	"waterward/screening/job"
)

// Rereadable opens the proposals once and returns how to open them as often as
// needed: what can be read only once, such as a pipe, is kept in memory.
func Rereadable(ctx context.Context, files job.Files, name string) (job.Files, error) {
	return Await(ctx, func() (job.Files, error) {
		input, err := files.Open(name)
		if err != nil {
			return nil, &job.Error{Message: fmt.Sprintf("proposals: cannot be opened: %v", err)}
		}
		defer input.Close()
		if file, ok := input.(io.Seeker); ok {
			if _, err := file.Seek(0, io.SeekCurrent); err == nil {
				return files, nil
			}
		}
		text, err := io.ReadAll(input)
		if err != nil {
			return nil, fmt.Errorf("proposals: cannot be read: %w", err)
		}
		return held{files, name, text}, nil
	})
}

// Await does work that may wait for an input and does not hold up an interrupt.
func Await[T any](ctx context.Context, work func() (T, error)) (T, error) {
	type done struct {
		result T
		err    error
	}
	over := make(chan done, 1)
	go func() {
		result, err := work()
		over <- done{result, err}
	}()
	select {
	case d := <-over:
		return d.result, d.err
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
}

// held opens one input from memory.
type held struct {
	job.Files
	name string
	text []byte
}

func (h held) Open(name string) (io.ReadCloser, error) {
	if name == h.name {
		return io.NopCloser(bytes.NewReader(h.text)), nil
	}
	return h.Files.Open(name)
}
