package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
)

// inputs opens files: those a job names relative to the job file, those given
// by flags relative to the working directory, "-" as standard input.
type inputs struct {
	stdin io.Reader
	base  string          // the folder of the job file
	flags map[string]bool // names given by flags
	once  sync.Mutex      // layers are opened several at once
	taken bool            // standard input has been given out
}

// given notes that a name comes from a flag.
func (in *inputs) given(name string) string {
	if in.flags == nil {
		in.flags = map[string]bool{}
	}
	in.flags[name] = true
	return name
}

// Open opens an input by the name a job or a flag gives it.
func (in *inputs) Open(name string) (io.ReadCloser, error) {
	if name == "-" {
		in.once.Lock()
		defer in.once.Unlock()
		if in.taken {
			return nil, errors.New("standard input can be read only once")
		}
		in.taken = true
		return io.NopCloser(in.stdin), nil
	}
	if !in.flags[name] && !filepath.IsAbs(name) {
		name = filepath.Join(in.base, name)
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	if info, err := file.Stat(); err == nil && info.IsDir() {
		file.Close()
		return nil, fmt.Errorf("%s is a folder", name)
	}
	return file, nil
}

// staging writes outputs under temporary names and puts all of them in place
// only when asked to: a run that fails leaves the old ones.
type staging struct {
	dir   string
	names []string
	done  bool
}

// newStaging makes sure that the folder can be written before any work starts.
func newStaging(dir string) (*staging, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("the output folder cannot be made: %w", err)
	}
	probe, err := os.CreateTemp(dir, ".waterward-*")
	if err != nil {
		return nil, fmt.Errorf("the output folder %s cannot be written: %w", dir, err)
	}
	probe.Close()
	return &staging{dir: dir}, os.Remove(probe.Name())
}

func (s *staging) temporary(name string) string {
	return filepath.Join(s.dir, ".waterward-"+name+".tmp")
}

// Create starts an output.
func (s *staging) Create(name string) (io.WriteCloser, error) {
	file, err := os.Create(s.temporary(name))
	if err != nil {
		return nil, err
	}
	s.names = append(s.names, name)
	return file, nil
}

// commit puts all outputs in their places.
func (s *staging) commit() error {
	s.done = true
	for _, name := range s.names {
		if err := os.Rename(s.temporary(name), filepath.Join(s.dir, name)); err != nil {
			return fmt.Errorf("%s cannot be put in place (is it open in another program?): %w", name, err)
		}
	}
	return nil
}

// discard removes what was not committed.
func (s *staging) discard() {
	if s.done {
		return
	}
	for _, name := range s.names {
		os.Remove(s.temporary(name))
	}
}
