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

// place is where a file lies: what the job names beside it, what a flag names here.
func (in *inputs) place(name string) string {
	if in.flags[name] || filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.base, name)
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

// overwritten returns an output that would replace what was read.
func (in *inputs) overwritten(out *staging) string {
	for _, o := range out.outputs {
		there, err := os.Stat(out.place(o.name))
		for _, info := range in.read {
			if err == nil && os.SameFile(there, info) {
				return o.name
			}
		}
	}
	return ""
}
