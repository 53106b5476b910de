package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// A folder of outputs is committed as one. The manifest is the first to go and the last to
// come, so that a folder that has one has exactly what it lists. Before the first file is
// moved a journal says which are; a run that is killed after that is undone from it by the
// next run into the folder:
//
//   - Each file that gives way is, whole, either in its place or in the folder old; nothing
//     is put in place before all of them are in old. So what is in old goes back, and what
//     was put where there was nothing is removed.
//   - Once the new manifest is in its place the new outputs are; nothing is undone then.
//
// Both stay true when the undoing is killed. They hold after a power cut too, on a file
// system that renames as a whole or not at all: outputs and journal are on the disk before
// the first file is moved, and of what is done between two syncs of the folders any part
// may be lost, in any order. These syncs take some 15 ms together.

// journal says what a commit does.
type journal struct {
	Away []string `json:"away"` // gives way, and is kept in the folder old
	Put  []string `json:"put"`  // is put in place
}

// phase are changes of the disk whose order does not matter; the folders are synced after
// them.
type phase []func() error

// commit puts all outputs in their places. What an earlier run has written there gives way
// as a whole.
func (s *staging) commit() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.over {
		return context.Canceled
	}
	j, err := s.plan()
	if err != nil {
		return err
	}
	if err = s.do(j, s.putting(j)); err == nil {
		s.committed = true
		return nil
	}
	if undone := s.do(j, s.undoing(j)); undone != nil {
		s.broken = true
		return fmt.Errorf("the outputs cannot be put in place: %w; nor can the old ones be put back: %w; the next run into %s tries it again", err, undone, s.dir)
	}
	return err
}

// plan is what a commit has to do.
func (s *staging) plan() (j journal, err error) {
	for _, o := range s.outputs {
		j.Put = append(j.Put, o.name)
	}
	names := slices.Clone(j.Put)
	for _, o := range s.old.Outputs { // and this run does not write anew
		if !slices.Contains(names, o.File) && ours(o.File) {
			names = append(names, o.File)
		}
	}
	for _, name := range names {
		info, err := os.Lstat(s.place(name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return j, unplaced(name, err)
		case info.IsDir():
			return j, unplaced(name, errors.New("a folder has its name"))
		default:
			j.Away = append(j.Away, name)
		}
	}
	return j, nil
}

// ours reports whether a name can be that of an output: of a file in the folder or in one
// within it.
func ours(name string) bool {
	return filepath.IsLocal(name) && path.Clean(name) == name && strings.Count(name, "/") <= 1 && !strings.HasPrefix(name, unfinished)
}

// putting is a commit.
func (s *staging) putting(j journal) []phase {
	rename := func(name, from, to string) func() error {
		return func() error {
			err := os.MkdirAll(filepath.Dir(to), 0o777)
			if err == nil {
				err = os.Rename(from, to)
			}
			if err != nil {
				return unplaced(name, err)
			}
			return nil
		}
	}
	firstAway, away := s.apart(j.Away, func(name string) func() error { return rename(name, s.place(name), s.kept(name)) })
	lastPut, put := s.apart(j.Put, func(name string) func() error { return rename(name, s.temporary(name), s.place(name)) })
	return []phase{
		{func() error { return s.writeJournal(j) }},
		{rename(journalFile, s.within(journalDraft), s.within(journalFile))},
		firstAway, away, put, lastPut,
	}
}

// undoing takes a commit back, wherever it has come to.
func (s *staging) undoing(j journal) []phase {
	last, back := s.apart(j.Away, func(name string) func() error {
		return func() error {
			if err := os.MkdirAll(filepath.Dir(s.place(name)), 0o777); err != nil {
				return err
			}
			return unlessGone(os.Rename(s.kept(name), s.place(name)))
		}
	})
	for _, name := range j.Put {
		if slices.Contains(j.Away, name) {
			continue
		}
		back = append(back, func() error {
			if _, err := os.Lstat(s.temporary(name)); err == nil {
				return nil // it was not put in place
			}
			return unlessGone(os.Remove(s.place(name)))
		})
	}
	return []phase{back, last}
}

// apart is what is done to the manifest, and to the other files.
func (s *staging) apart(names []string, change func(name string) func() error) (ofManifest, ofOthers phase) {
	for _, name := range names {
		if name == manifest {
			ofManifest = append(ofManifest, change(name))
		} else {
			ofOthers = append(ofOthers, change(name))
		}
	}
	return ofManifest, ofOthers
}

// do makes changes, phase after phase, up to the first that fails.
func (s *staging) do(j journal, phases []phase) error {
	for _, p := range phases {
		for _, change := range p {
			if err := change(); err != nil {
				return err
			}
		}
		s.sync(j)
	}
	for _, folder := range j.folders() {
		os.Remove(s.place(folder)) // one that is not empty stays
	}
	return nil
}

// folders are those within that of the outputs in which files are changed.
func (j journal) folders() (made []string) {
	for _, name := range slices.Concat(j.Away, j.Put) {
		if folder := path.Dir(name); folder != "." && !slices.Contains(made, folder) {
			made = append(made, folder)
		}
	}
	return made
}

// sync waits until the folders are on the disk. Systems that cannot be asked for it are not.
func (s *staging) sync(j journal) {
	folders := []string{s.within(newFolder), s.within(oldFolder), s.within(), s.dir}
	for _, name := range j.folders() {
		folders = append(folders, s.temporary(name), s.kept(name), s.place(name))
	}
	for _, folder := range folders {
		if file, err := os.Open(folder); err == nil {
			file.Sync()
			file.Close()
		}
	}
}

// mend undoes what a killed run has left half put in place, and removes the rest of it.
func (s *staging) mend() error {
	j, begun, err := s.readJournal()
	if err == nil && begun {
		if _, err = os.Lstat(s.temporary(manifest)); err == nil { // the new outputs are not all in place
			s.mended = true
			err = s.do(j, s.undoing(j))
		}
		err = unlessGone(err)
	}
	if err != nil {
		s.broken = true
		return usageError("the folder %s holds what a killed run has left half put in place, and it cannot be undone: %w; put it right in %s, or give another folder by --out", s.dir, err, s.within())
	}
	return unwritable(s.dir, s.sweep())
}

// readJournal reads the journal of a killed run, if it had begun to put its outputs in place.
func (s *staging) readJournal() (j journal, begun bool, err error) {
	text, err := os.ReadFile(s.within(journalFile))
	if err != nil {
		return j, false, unlessGone(err)
	}
	err = json.Unmarshal(text, &j)
	for _, name := range slices.Concat(j.Away, j.Put) {
		if !ours(name) && err == nil {
			err = fmt.Errorf("%q is not the name of a file", name)
		}
	}
	return j, true, err
}

// writeJournal writes a journal under its temporary name.
func (s *staging) writeJournal(j journal) error {
	text, err := json.Marshal(j)
	if err != nil {
		return err
	}
	file, err := os.Create(s.within(journalDraft))
	if err != nil {
		return unwritable(s.dir, err)
	}
	_, err = file.Write(text)
	if err == nil {
		err = file.Sync()
	}
	if closed := file.Close(); err == nil {
		err = closed
	}
	return unwritable(s.dir, err)
}

func unlessGone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

func unplaced(name string, err error) error {
	return fmt.Errorf("%s cannot be put in place (is it open in another program?): %w", name, err)
}
