package out

import "cmp"

// Sink takes what a run finds, result by result, for a file or several.
type Sink[R any] interface {
	// Prepare makes of a result what the file will hold of it; several workers may do so at
	// once. What it returns is called in the order of the results, from one goroutine.
	Prepare(result R) (put func())
	// Finish writes what is still to be written.
	Finish()

	open(files *files) error
}

// files are those that sinks have created, in their order.
type files struct {
	to   Outputs
	all  []*File
	lost error // the first file that could not be created on the way
}

// Sinks are all the files of a run.
type Sinks[R any] struct {
	sinks []Sink[R]
	files
}

// Open creates the files of some sinks, in their order.
func Open[R any](outputs Outputs, sinks ...Sink[R]) (*Sinks[R], error) {
	s := &Sinks[R]{sinks: sinks, files: files{to: outputs}}
	for _, sink := range sinks {
		if err := sink.open(&s.files); err != nil {
			s.Close()
			return nil, err
		}
	}
	return s, nil
}

// Prepare readies a result for all files. What it returns puts it into each, and returns
// the first fault of writing so far.
func (s *Sinks[R]) Prepare(result R) (put func() error) {
	puts := make([]func(), len(s.sinks))
	for i, sink := range s.sinks {
		puts[i] = sink.Prepare(result)
	}
	return func() error {
		for _, put := range puts {
			put()
		}
		return s.fault()
	}
}

func (s *Sinks[R]) fault() error {
	if s.lost != nil {
		return s.lost
	}
	for _, f := range s.all {
		if f.fault != nil {
			return f.fault
		}
	}
	return nil
}

// Finish ends all files and returns the first fault of writing.
func (s *Sinks[R]) Finish() error {
	for _, sink := range s.sinks {
		sink.Finish()
	}
	return cmp.Or(s.fault(), s.Close())
}

// Close closes all files as they are.
func (s *Sinks[R]) Close() error {
	var first error
	for _, f := range s.all {
		first = cmp.Or(first, f.close())
	}
	return first
}

// Records are what run.json says of the files.
func (s *Sinks[R]) Records() []Record {
	records := make([]Record, len(s.all))
	for i, f := range s.all {
		records[i] = f.record()
	}
	return records
}
