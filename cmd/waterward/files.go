package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
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
	named map[string]bool // names the job file gives
	read  []os.FileInfo   // what has been opened
}

// given notes that a name comes from a flag.
func (in *inputs) given(name string) string {
	if in.flags == nil {
		in.flags = map[string]bool{}
	}
	for in.named[name] && !filepath.IsAbs(name) && name != "-" {
		name = "./" + name // the job names another file so
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
	file, err := os.Open(in.place(name))
	if err != nil {
		return nil, err
	}
	info, err := file.Stat()
	if err == nil && info.IsDir() {
		err = fmt.Errorf("%s is a folder", name)
	}
	if err != nil {
		file.Close()
		return nil, err
	}
	in.once.Lock()
	in.read = append(in.read, info)
	in.once.Unlock()
	return file, nil
}

// place is where a file lies: what the job names beside it, what a flag names here.
func (in *inputs) place(name string) string {
	if in.flags[name] || filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.base, name)
}

// overwritten returns an output that would replace what was read.
func (in *inputs) overwritten(out *staging) string {
	for _, name := range out.names {
		there, err := os.Stat(filepath.Join(out.dir, name))
		for _, info := range in.read {
			if err == nil && os.SameFile(there, info) {
				return name
			}
		}
	}
	return ""
}

// manifest is the file of a folder that says which command has written the others.
const manifest = "run.json"

// staging writes outputs under temporary names and puts all of them in place
// only when asked to: a run that fails leaves the old ones.
type staging struct {
	dir     string
	tmp     string // a folder of this run alone within dir
	names   []string
	old     results // what the folder holds
	replace bool    // it gives way, all of it
}

// newStaging makes sure that the folder can be written before any work starts, and, unless
// told to replace them, that it holds no results of another command.
func newStaging(dir, command string, replace bool) (*staging, error) {
	old := resultsIn(dir)
	if old.Command != "" && old.Command != command && !replace {
		return nil, fmt.Errorf("the folder %s holds what waterward %s has written; give another by --out, or say --replace", dir, old.Command)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("the output folder cannot be made: %w", err)
	}
	tmp, err := os.MkdirTemp(dir, ".waterward-*")
	if err != nil {
		return nil, fmt.Errorf("the output folder %s cannot be written: %w", dir, err)
	}
	return &staging{dir: dir, tmp: tmp, old: old, replace: replace}, nil
}

// results are what the run.json of a folder says of the files beside it.
type results struct {
	Command string `json:"command"`
	Outputs []struct {
		File string `json:"file"`
	} `json:"outputs"`
}

// resultsIn are the results that a folder holds; none if it has no run.json of ours.
func resultsIn(dir string) (r results) {
	if text, err := os.ReadFile(filepath.Join(dir, manifest)); err != nil || json.Unmarshal(text, &r) != nil {
		return results{}
	}
	return r
}

// has reports whether a file is one of the results.
func (r *results) has(name string) bool {
	if name == manifest {
		return r.Command != ""
	}
	for _, o := range r.Outputs {
		if o.File == name {
			return true
		}
	}
	return false
}

func (s *staging) temporary(name string) string {
	return filepath.Join(s.tmp, name)
}

// Create starts an output. Unless told to, it takes the place of no file that no run has
// written.
func (s *staging) Create(name string) (io.WriteCloser, error) {
	if _, err := os.Stat(filepath.Join(s.dir, name)); err == nil && !s.replace && !s.old.has(name) {
		return nil, usageError("the folder %s holds a %s that waterward did not write; give another by --out, or say --replace", s.dir, name)
	}
	file, err := os.Create(s.temporary(name))
	if err != nil {
		return nil, s.unwritten(name, err)
	}
	s.names = append(s.names, name)
	return &output{file, name, s}, nil
}

// unwritten says which output cannot be written and what to do.
func (s *staging) unwritten(name string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err // the path is a temporary one
	}
	return fmt.Errorf("%s cannot be written: %w; make room there or give another folder by --out (outputs of earlier runs are as they were)", filepath.Join(s.dir, name), err)
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

func (o *output) Close() error {
	if err := o.file.Close(); err != nil {
		return o.of.unwritten(o.name, err)
	}
	return nil
}

// commit puts all outputs in their places. What an earlier run has written there gives way
// as a whole.
func (s *staging) commit() error {
	var undo []func()
	// away moves a file out of the way; one that is not there needs no moving.
	away := func(name string) error {
		place, old := filepath.Join(s.dir, name), filepath.Join(s.tmp, name+".old")
		if info, err := os.Stat(place); err == nil && info.IsDir() {
			return errors.New("a folder has its name")
		}
		err := os.Rename(place, old)
		if errors.Is(err, os.ErrNotExist) {
			undo = append(undo, func() { os.Remove(place) })
			return nil
		}
		if err == nil {
			undo = append(undo, func() { os.Rename(old, place) })
		}
		return err
	}
	put := func(name string) error {
		if err := away(name); err != nil {
			return err
		}
		return os.Rename(s.temporary(name), filepath.Join(s.dir, name))
	}
	var err error
	var at string
	for _, at = range s.leftover() {
		if err = away(at); err != nil {
			break
		}
	}
	for i := 0; i < len(s.names) && err == nil; i++ {
		at = s.names[i]
		err = put(at)
	}
	if err != nil {
		for _, back := range undo {
			back()
		}
		return fmt.Errorf("%s cannot be put in place (is it open in another program?): %w", at, err)
	}
	return nil
}

// leftover are the results of another run that this one does not write anew.
func (s *staging) leftover() []string {
	var names []string
	for _, o := range s.old.Outputs {
		if !slices.Contains(s.names, o.File) && filepath.Base(o.File) == o.File {
			names = append(names, o.File)
		}
	}
	return names
}

// discard removes what was not committed, and what gave way.
func (s *staging) discard() { os.RemoveAll(s.tmp) }
