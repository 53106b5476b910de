package main

import (
	"cmp"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// files are the names of a folder's files, and what is in them.
type files map[string]string

func (f files) write(t *testing.T, dir string) {
	t.Helper()
	for name, text := range f {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o777))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666))
	}
}

// filesIn are the files of a folder and of those within it; what is unfinished is left out.
func filesIn(t *testing.T, dir string) files {
	t.Helper()
	found := files{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.Name() == unfinished {
			return cmp.Or(err, fs.SkipDir)
		}
		if !d.IsDir() {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			rel, err := filepath.Rel(dir, path)
			require.NoError(t, err)
			found[filepath.ToSlash(rel)] = string(text)
		}
		return nil
	}))
	return found
}

// A later run has one output in common with the earlier, does not write one of it any more
// and writes another anew.
var (
	earlier = files{manifest: `{"tool": "waterward", "command": "screen", "outputs": [{"file": "both.csv"}, {"file": "sheets/gone.html"}]}`, "both.csv": "earlier", "sheets/gone.html": "earlier"}
	later   = files{manifest: `{"tool": "waterward", "command": "screen", "outputs": [{"file": "both.csv"}, {"file": "sheets/fresh.html"}]}`, "both.csv": "later", "sheets/fresh.html": "later"}
)

// before are the folders a run may find, and what of them stays beside its outputs.
var before = map[string]struct{ holds, stays files }{
	"an empty folder":  {files{}, files{}},
	"an earlier run's": {merged(earlier, files{"notes.txt": "mine"}), files{"notes.txt": "mine"}},
	"of no run":        {files{"both.csv": "mine", manifest: `{"command": "sow", "outputs": [{"file": "notes.txt"}]}`, "notes.txt": "mine"}, files{"notes.txt": "mine"}},
	"half of its own":  {files{"sheets/fresh.html": "mine"}, files{}},
}

func merged(a, b files) files {
	both := maps.Clone(a)
	maps.Copy(both, b)
	return both
}

// staged is the later run, when all it has to do is to commit.
func staged(t *testing.T, dir string) *staging {
	t.Helper()
	s, err := newStaging(dir, "screen", true)
	require.NoError(t, err)
	for name, text := range later {
		to, err := s.Create(name)
		require.NoError(t, err)
		_, err = to.Write([]byte(text))
		require.NoError(t, err)
		require.NoError(t, to.Close())
	}
	return s
}

// killed is the end of a process: nothing is done any more, and the lock is none.
func killed(s *staging) {
	for _, o := range s.outputs {
		o.file.Close()
	}
	s.lock.Close()
}

// cut is what a kill or a power cut has left of phases: the changes carried out.
type cut []struct{ phase, change int }

// cuts are all of them: every phase up to some, and of the next any part.
func cuts(phases []phase) []cut {
	all, whole := []cut{{}}, cut{}
	for i, p := range phases {
		for part := 1; part < 1<<len(p); part++ {
			done := slices.Clone(whole)
			for k := range p {
				if part>>k&1 == 1 {
					done = append(done, struct{ phase, change int }{i, k})
				}
			}
			all = append(all, done)
		}
		whole = all[len(all)-1]
	}
	return all
}

func (c cut) carryOut(t *testing.T, phases []phase) {
	t.Helper()
	for _, at := range c {
		require.NoError(t, phases[at.phase][at.change]())
	}
}

// resumed is a copy of a folder, held by the next run.
func resumed(t *testing.T, from string) *staging {
	t.Helper()
	s := &staging{dir: copied(t, from)}
	require.NoError(t, s.claim())
	return s
}

func copied(t *testing.T, from string) string {
	t.Helper()
	dir, err := os.MkdirTemp(filepath.Dir(from), "")
	require.NoError(t, err)
	require.NoError(t, os.CopyFS(dir, os.DirFS(from)))
	return dir
}

// TestCutShortAnywhere: wherever putting the outputs in place is cut short, and wherever
// undoing that is, and wherever the removal of what is unfinished, a manifest stands beside
// exactly the files it lists, and the next run finds the old outputs, or the new ones if all
// of them were in place.
func TestCutShortAnywhere(t *testing.T) {
	tried := 0
	for name, b := range before {
		t.Run(name, func(t *testing.T) {
			after := merged(later, b.stays)
			// whole: where there is a manifest of ours, all is old or all is new.
			whole := func(dir string) {
				if resultsIn(dir).Command != "" {
					require.Contains(t, []files{b.holds, after}, filesIn(t, dir))
				}
			}
			// next is the next run into the folder, up to its work.
			next := func(dir string, want files) *staging {
				tried++
				s, err := newStaging(dir, "screen", true)
				require.NoError(t, err)
				require.Equal(t, want, filesIn(t, dir))
				s.discard()
				require.Equal(t, want, filesIn(t, dir))
				require.NoDirExists(t, filepath.Join(dir, unfinished))
				return s
			}
			// swept: any part of what is unfinished may have been removed.
			swept := func(dir string, want files) {
				var there []string
				require.NoError(t, filepath.WalkDir(filepath.Join(dir, unfinished), func(path string, d fs.DirEntry, err error) error {
					if !d.IsDir() && d.Name() != lockFile {
						rel, _ := filepath.Rel(dir, path)
						there = append(there, rel)
					}
					return err
				}))
				for part := range 1 << len(there) {
					dir := copied(t, dir)
					for i, name := range there {
						if part>>i&1 == 1 {
							require.NoError(t, os.Remove(filepath.Join(dir, name)))
						}
					}
					next(dir, want)
				}
			}
			begun := filepath.Join(t.TempDir(), "begun")
			require.NoError(t, os.Mkdir(begun, 0o777))
			b.holds.write(t, begun)
			s := staged(t, begun)
			plan, err := s.plan()
			require.NoError(t, err)
			killed(s)
			commits := cuts(s.putting(plan))
			first := true
			for i, commit := range commits {
				s := resumed(t, begun)
				commit.carryOut(t, s.putting(plan))
				killed(s)
				whole(s.dir)
				if i == len(commits)-1 {
					require.False(t, next(copied(t, s.dir), after).mended)
					swept(s.dir, after)
					continue
				}
				_, unbegun := os.Stat(s.within(journalFile))
				require.Equal(t, unbegun == nil, next(copied(t, s.dir), b.holds).mended)
				if unbegun != nil {
					continue
				}
				undoings := cuts(s.undoing(plan))
				for i, undoing := range undoings {
					again := resumed(t, s.dir)
					undoing.carryOut(t, again.undoing(plan))
					killed(again)
					whole(again.dir)
					if first && i == len(undoings)-1 { // all is staged still, as after no other cut
						swept(again.dir, b.holds)
						first = false
					}
					next(again.dir, b.holds)
				}
			}
		})
	}
	t.Logf("%d states", tried)
}

// TestAFileComeMeanwhile: what a killed run had not put in place is not its own.
func TestAFileComeMeanwhile(t *testing.T) {
	dir := t.TempDir()
	earlier.write(t, dir)
	s := staged(t, dir)
	plan, err := s.plan()
	require.NoError(t, err)
	phases := s.putting(plan)
	cuts(phases)[3].carryOut(t, phases) // the manifest is away
	killed(s)
	come := files{"sheets/fresh.html": "mine"}
	come.write(t, dir)
	s, err = newStaging(dir, "screen", true)
	require.NoError(t, err)
	s.discard()
	require.Equal(t, merged(earlier, come), filesIn(t, dir))
}

// TestAJournalThatCannotBeRead: nothing is guessed, nothing is removed.
func TestAJournalThatCannotBeRead(t *testing.T) {
	for _, text := range []string{`{"away": ["both`, `{"away": ["../both.csv"], "put": ["run.json"]}`, `{"away": ["sheets/../../both.csv"], "put": ["run.json"]}`, `{"away": ["a/b/c.html"], "put": ["run.json"]}`, `{"away": ["both.csv"], "put": [".waterward-unfinished/lock"]}`} {
		dir := t.TempDir()
		earlier.write(t, dir)
		s := staged(t, dir)
		plan, err := s.plan()
		require.NoError(t, err)
		phases := s.putting(plan)
		cuts(phases)[3].carryOut(t, phases) // the manifest is away
		killed(s)
		require.NoError(t, os.WriteFile(s.within(journalFile), []byte(text), 0o666))
		for range 2 {
			_, err = newStaging(dir, "screen", true)
			require.ErrorContains(t, err, "it cannot be undone")
			require.FileExists(t, s.within(oldFolder, manifest))
			require.FileExists(t, s.temporary(manifest))
		}
	}
}
