package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// unfinished is the folder, within that of the outputs, in which a run keeps all it has not
// finished. One that nobody holds the lock of is of a run that was killed.
const unfinished = ".waterward-unfinished"

// What stands in it.
const (
	lockFile     = "lock"
	journalFile  = "journal.json"
	journalDraft = "journal.json.draft"
	newFolder    = "new" // outputs on their way into their places
	oldFolder    = "old" // what gave way to them
)

// staging writes outputs under temporary names and puts all of them in place
// only when asked to: a run that fails leaves the old ones.
type staging struct {
	dir     string
	made    []string // folders that were not there before, the innermost first
	lock    *os.File // held as long as the folder is ours
	old     results  // what the folder holds
	replace bool     // it gives way, all of it
	mended  bool     // what a killed run had half put in place was undone

	mu        sync.Mutex // an interruption lets go of the folder while the work goes on
	outputs   []*output
	over      bool // let go of
	committed bool
	broken    bool // half put in place: the next run has to undo it
}

// newStaging makes sure that the folder can be written, and by this run alone, before any
// work starts, and, unless told to replace them, that it holds no results of another command.
func newStaging(dir, command string, replace bool) (*staging, error) {
	s := &staging{dir: dir, replace: replace}
	if err := s.claim(); err != nil {
		os.Remove(s.within())
		s.unmake()
		return nil, err
	}
	err := s.sign(command)
	if err == nil {
		err = s.mend()
	}
	if err == nil {
		s.old = resultsIn(dir)
		if s.old.Command != "" && s.old.Command != command && !replace {
			err = usageError("the folder %s holds what waterward %s has written; give another by --out, or say --replace", dir, s.old.Command)
		}
	}
	for _, folder := range []string{newFolder, oldFolder} {
		if err == nil {
			err = unwritable(dir, os.Mkdir(s.within(folder), 0o777))
		}
	}
	if err != nil {
		s.discard()
		return nil, err
	}
	return s, nil
}

// within is a place in the folder of what is unfinished.
func (s *staging) within(names ...string) string {
	return filepath.Join(append([]string{s.dir, unfinished}, names...)...)
}

// Outputs may stand in folders of their own within that of the outputs; their names have
// slashes.
func (s *staging) place(name string) string     { return filepath.Join(s.dir, filepath.FromSlash(name)) }
func (s *staging) temporary(name string) string { return s.within(newFolder, filepath.FromSlash(name)) }
func (s *staging) kept(name string) string      { return s.within(oldFolder, filepath.FromSlash(name)) }

// Create starts an output. Unless told to, it takes the place of no file that no run has
// written.
func (s *staging) Create(name string) (io.WriteCloser, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.over {
		return nil, context.Canceled
	}
	if _, err := os.Lstat(s.place(name)); err == nil && !s.replace && !s.old.has(name) {
		return nil, usageError("the folder %s holds a %s that waterward did not write; give another by --out, or say --replace", s.dir, name)
	}
	err := os.MkdirAll(filepath.Dir(s.temporary(name)), 0o777)
	if err != nil {
		return nil, s.unwritten(name, err)
	}
	file, err := os.Create(s.temporary(name))
	if err != nil {
		return nil, s.unwritten(name, err)
	}
	o := &output{file, name, s}
	s.outputs = append(s.outputs, o)
	return o, nil
}

// unwritten says which output cannot be written and what to do.
func (s *staging) unwritten(name string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err // the path is a temporary one
	}
	return fmt.Errorf("%s cannot be written: %w; make room there or give another folder by --out (outputs of earlier runs are as they were)", s.place(name), err)
}

// output is an output under its temporary name.
type output struct {
	file *os.File
	name string
	of   *staging
}

func (o *output) Write(p []byte) (int, error) {
	n, err := o.file.Write(p)
	if err != nil {
		err = o.of.unwritten(o.name, err)
	}
	return n, err
}

// Close ends an output when all of it is on the disk: what is put in place must outlast a
// power cut. All waiting for the disk took 0.05 s of a county's run, whose outputs are
// 136 MB, and 0.2 s for 300 MB written at once.
func (o *output) Close() error {
	err := o.file.Sync()
	if closed := o.file.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return o.of.unwritten(o.name, err)
	}
	return nil
}

// discard removes what was not committed, and what gave way, and lets go of the folder; one
// that this run has made for nothing goes too. It may be called again.
func (s *staging) discard() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.over {
		return
	}
	s.over = true
	for _, o := range s.outputs {
		o.file.Close() // some systems remove no open file
	}
	if !s.broken {
		s.sweep()
	}
	s.release()
	if !s.committed {
		s.unmake()
	}
}

// fate is what became of the outputs.
func (s *staging) fate() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case s.committed:
		return "the new outputs are in place"
	case s.broken:
		return "the next run into the folder puts the old outputs back"
	}
	return "the old outputs are as they were"
}

// sweep removes all that is unfinished but the lock.
func (s *staging) sweep() error {
	entries, err := os.ReadDir(s.within())
	for _, e := range entries {
		if e.Name() != lockFile && err == nil {
			err = os.RemoveAll(s.within(e.Name()))
		}
	}
	return err
}

// unmake removes the folders that were made for the outputs, if they are empty.
func (s *staging) unmake() {
	for _, folder := range s.made {
		os.Remove(folder)
	}
}
