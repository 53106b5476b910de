package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"
)

// errHeld: another process has a file locked.
var errHeld = errors.New("another process holds it")

// claims is how often a folder is claimed: one that another run lets go of in between is
// gone when it is to be locked.
const claims = 100

// claim makes the folder and holds it for this run alone. The lock is the system's, on a
// file in the folder of what is unfinished, and ends with the process, however that ends.
func (s *staging) claim() error {
	for range claims {
		if err := s.make(); err != nil {
			return refusal(fmt.Errorf("the output folder cannot be made: %w", err))
		}
		err := os.Mkdir(s.within(), 0o777)
		if errors.Is(err, fs.ErrExist) {
			err = ownFolder(s.within())
		}
		var file *os.File
		if err == nil {
			file, err = openLocked(s.within(lockFile))
		}
		switch {
		case errors.Is(err, errHeld):
			return &exitError{exitNoResult, fmt.Errorf("the output folder %s is being written by %s; wait for its end or give another by --out", s.dir, s.holder())}
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return unwritable(s.dir, err)
		}
		if !sameFile(file, s.within(lockFile)) { // its owner was about to remove it
			file.Close()
			continue
		}
		s.lock = file
		return nil
	}
	return &exitError{exitNoResult, fmt.Errorf("the output folder %s is taken by one run after the other; give another by --out", s.dir)}
}

// make makes the folder, and notes what of its path was not there.
func (s *staging) make() error {
	at := filepath.Clean(s.dir)
	for s.made = nil; at != filepath.Dir(at); at = filepath.Dir(at) {
		if _, err := os.Lstat(at); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		s.made = append(s.made, at)
	}
	return os.MkdirAll(s.dir, 0o777)
}

// sign writes into the lock who holds it.
func (s *staging) sign(command string) error {
	err := s.lock.Truncate(0)
	if err == nil {
		_, err = fmt.Fprintf(s.lock, "process %d, waterward %s, since %s", os.Getpid(), command, time.Now().UTC().Format(time.RFC3339))
	}
	return unwritable(s.dir, err)
}

// holder is who holds the lock.
func (s *staging) holder() string {
	const enough = 200 // bytes
	file, err := os.Open(s.within(lockFile))
	if err != nil {
		return "another run"
	}
	defer file.Close()
	if text, err := io.ReadAll(io.LimitReader(file, enough)); err == nil && len(text) > 0 {
		return strings.ReplaceAll(string(text), "\n", " ")
	}
	return "another run"
}

// release lets go of the folder. What is broken stays for the next run.
func (s *staging) release() {
	if s.broken {
		s.lock.Close()
		return
	}
	os.Remove(s.within(lockFile))
	s.lock.Close()
	os.Remove(s.within()) // unless the next run is in it
}

// ownFolder refuses what only has the name of the folder of what is unfinished: a link would
// have what it leads to swept.
func ownFolder(name string) error {
	info, err := os.Lstat(name)
	if err == nil && !info.IsDir() {
		err = fmt.Errorf("%s is no folder", name)
	}
	return err
}

// sameFile reports whether an open file is the one of that name still, and not through a link.
func sameFile(file *os.File, name string) bool {
	open, err := file.Stat()
	if err != nil {
		return false
	}
	there, err := os.Lstat(name)
	return err == nil && os.SameFile(open, there)
}

// unwritable says that nothing can be written into the folder.
func unwritable(dir string, err error) error {
	if err == nil {
		return nil
	}
	return refusal(fmt.Errorf("the output folder %s cannot be written: %w", dir, err))
}

// refusal is an error of the folder that was named, unless the disk is full.
func refusal(err error) error {
	if errors.Is(err, syscall.ENOSPC) {
		return &exitError{exitNoResult, err}
	}
	return &exitError{exitUsage, err}
}
