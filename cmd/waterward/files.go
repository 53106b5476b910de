package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"waterward/screening/out"
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
	if !in.flags[name] && !filepath.IsAbs(name) {
		name = filepath.Join(in.base, name)
	}
	file, err := os.Open(name)
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

// staging writes outputs under temporary names and puts all of them in place
// only when asked to: a run that fails leaves the old ones.
type staging struct {
	dir   string
	tmp   string // a folder of this run alone within dir
	names []string
}

// newStaging makes sure that the folder can be written before any work starts, and, unless
// told to replace them, that it holds no outputs of another command.
func newStaging(dir, command string, replace bool) (*staging, error) {
	if of := commandOf(dir); of != "" && of != command && !replace {
		return nil, fmt.Errorf("the folder %s holds what waterward %s has written; give another by --out, or say --replace", dir, of)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("the output folder cannot be made: %w", err)
	}
	tmp, err := os.MkdirTemp(dir, ".waterward-*")
	if err != nil {
		return nil, fmt.Errorf("the output folder %s cannot be written: %w", dir, err)
	}
	return &staging{dir: dir, tmp: tmp}, nil
}

// commandOf is the command whose outputs a folder holds; empty if it has none that says so.
func commandOf(dir string) string {
	var of struct {
		Command string `json:"command"`
	}
	text, err := os.ReadFile(filepath.Join(dir, out.Manifest))
	if err != nil || json.Unmarshal(text, &of) != nil {
		return ""
	}
	return of.Command
}

func (s *staging) temporary(name string) string {
	return filepath.Join(s.tmp, name)
}

// Create starts an output.
func (s *staging) Create(name string) (io.WriteCloser, error) {
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

// commit puts all outputs in their places.
func (s *staging) commit() error {
	var undo []func()
	for _, name := range s.names {
		place, old := filepath.Join(s.dir, name), filepath.Join(s.tmp, name+".old")
		var err error
		if info, e := os.Stat(place); e == nil && info.IsDir() {
			err = errors.New("a folder has its name")
		} else {
			err = os.Rename(place, old)
		}
		if err == nil {
			undo = append(undo, func() { os.Rename(old, place) })
		} else if errors.Is(err, os.ErrNotExist) {
			undo, err = append(undo, func() { os.Remove(place) }), nil
		}
		if err == nil {
			err = os.Rename(s.temporary(name), place)
		}
		if err != nil {
			for _, back := range undo {
				back()
			}
			return fmt.Errorf("%s cannot be put in place (is it open in another program?): %w", name, err)
		}
	}
	return nil
}

// discard removes what was not committed, and what gave way.
func (s *staging) discard() { os.RemoveAll(s.tmp) }
