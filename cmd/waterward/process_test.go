package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// patience is how long a test waits for what takes moments.
const patience = 20 * time.Second

// process is a run in a process of its own.
type process struct {
	*exec.Cmd
	stdin io.WriteCloser
	said  *bytes.Buffer
}

// child is a command to be begun; as "waterward" the test binary is the command.
func child(t *testing.T, args ...string) *process {
	t.Helper()
	ctx, stop := context.WithTimeout(t.Context(), 2*patience)
	t.Cleanup(stop)
	c := exec.CommandContext(ctx, args[0], args[1:]...)
	said := &bytes.Buffer{}
	c.Stderr = said
	return &process{Cmd: c, said: said}
}

// begin begins a command whose standard input stays open.
func begin(t *testing.T, args ...string) *process {
	t.Helper()
	c := child(t, args...)
	stdin, err := c.StdinPipe()
	require.NoError(t, err)
	c.stdin = stdin
	require.NoError(t, c.Start())
	t.Cleanup(func() { stdin.Close() })
	return c
}

// waiting is a run that holds its folder and waits for its proposals.
func waiting(t *testing.T, out string) *process {
	t.Helper()
	c := begin(t, "waterward", "screen", "--job", "../../testdata/marrowby/job.yaml", "--proposals", "-", "--out", out, "--replace")
	c.holds(t, out)
	return c
}

// holds waits until the folder is held and ready to be written into.
func (c *process) holds(t *testing.T, out string) {
	t.Helper()
	require.Eventually(t, func() bool {
		_, err := os.Stat(filepath.Join(out, unfinished, oldFolder))
		return err == nil
	}, patience, time.Millisecond)
}

// ends waits for the end, and returns the exit code; -1 is that of a signal's.
func (c *process) ends(t *testing.T) int {
	t.Helper()
	c.Wait()
	return c.ProcessState.ExitCode()
}

// screened runs a whole screening into the folder.
func screened(t *testing.T, out string) (code int, said string) {
	t.Helper()
	var stderr bytes.Buffer
	code = run(t.Context(), []string{"waterward", "screen", "--job", "../../testdata/marrowby/job.yaml", "--out", out, "--replace", "--quiet"}, strings.NewReader(""), io.Discard, &stderr)
	return code, stderr.String()
}

// TestTwoRunsIntoOneFolder: the second is refused before it reads anything, and is told by
// whom; when the first is killed its lock is none, and the next run leaves nothing of it.
func TestTwoRunsIntoOneFolder(t *testing.T) {
	out := oldOutputs(t)
	c := waiting(t, out)
	for _, second := range []string{
		"screen --job ../../testdata/marrowby/job.yaml --low-water missing.geojson --out " + out,
		"envelope --job ../../testdata/marrowby/job.yaml --low-water missing.geojson --out " + out,
		"levels exposure --station missing.json --out " + out,
	} {
		var said bytes.Buffer
		require.Equal(t, exitNoResult, run(t.Context(), strings.Fields("waterward "+second), strings.NewReader(""), io.Discard, &said))
		require.Regexp(t, fmt.Sprintf(`^waterward: the output folder %s is being written by process %d, waterward screen, since 20\S+Z; wait for its end or give another by --out\n$`, out, c.Process.Pid), said.String())
	}
	require.NoError(t, c.Process.Kill())
	require.Equal(t, -1, c.ends(t))
	require.DirExists(t, filepath.Join(out, unfinished))
	code, said := screened(t, out)
	require.Equal(t, exitSomeUnusable, code)
	require.NotContains(t, said, "killed") // it had not begun to put anything in place
	require.NoDirExists(t, filepath.Join(out, unfinished))
	require.Equal(t, "screen", resultsIn(out).Command)
}

// TestFolderLetGoOf: runs that follow one another closely are refused or hold the folder
// alone, and the last leaves no lock.
func TestFolderLetGoOf(t *testing.T) {
	const runs, times = 4, 50
	dir := t.TempDir()
	var holds sync.Mutex
	done := make(chan error, runs)
	for range runs {
		go func() {
			for range times {
				s, err := newStaging(dir, "screen", false)
				if err != nil {
					if !strings.Contains(err.Error(), "is being written by") {
						done <- err
						return
					}
					continue
				}
				if !holds.TryLock() {
					done <- fmt.Errorf("two runs hold the folder")
					return
				}
				holds.Unlock()
				s.discard()
			}
			done <- nil
		}()
	}
	for range runs {
		require.NoError(t, <-done)
	}
	require.NoDirExists(t, filepath.Join(dir, unfinished))
}

// TestALinkForTheUnfinished: what a link leads to is neither swept nor written.
func TestALinkForTheUnfinished(t *testing.T) {
	elsewhere := t.TempDir()
	mine := files{"lock": "mine", "notes.txt": "mine"}
	mine.write(t, elsewhere)
	for _, link := range []func(out string) error{
		func(out string) error { return os.Symlink(elsewhere, filepath.Join(out, unfinished)) },
		func(out string) error {
			return errors.Join(os.Mkdir(filepath.Join(out, unfinished), 0o777),
				os.Symlink(filepath.Join(elsewhere, "lock"), filepath.Join(out, unfinished, lockFile)))
		},
	} {
		out := t.TempDir()
		require.NoError(t, link(out))
		_, err := newStaging(out, "screen", true)
		require.Error(t, err)
		require.Equal(t, mine, filesIn(t, elsewhere))
	}
}

// dies is the later run, killed after so many changes of its commit.
func dies() {
	s, err := newStaging(os.Args[1], "screen", true)
	if err == nil {
		for name, text := range later {
			to, _ := s.Create(name)
			io.WriteString(to, text)
			to.Close()
		}
		plan, _ := s.plan()
		left, _ := strconv.Atoi(os.Args[2])
		for _, p := range s.putting(plan) {
			for _, change := range p {
				if left == 0 {
					self, _ := os.FindProcess(os.Getpid())
					self.Kill()
					select {}
				}
				left--
				change()
			}
		}
	}
	os.Exit(exitDone)
}

// TestKilledWhilePuttingInPlace: a process killed after each of the changes that a commit
// makes, and the next command.
func TestKilledWhilePuttingInPlace(t *testing.T) {
	for changes := 0; ; changes++ {
		out := t.TempDir()
		earlier.write(t, out)
		if child(t, "dies", out, strconv.Itoa(changes)).ran(t) == exitDone {
			require.Equal(t, 8, changes) // the journal's two, three files away, three put
			require.Equal(t, later, filesIn(t, out))
			break
		}
		var said bytes.Buffer
		// which ends before it writes anything, for want of a station
		require.Equal(t, exitNoResult, run(t.Context(), []string{"waterward", "levels", "exposure", "--station", "missing.json", "--out", out, "--replace"}, nil, io.Discard, &said))
		require.Equal(t, earlier, filesIn(t, out), changes)
		require.NoDirExists(t, filepath.Join(out, unfinished))
		mended := fmt.Sprintf("waterward: a run into %s was killed while it put its outputs in place; the folder is as it was before that run\n", out)
		if changes < 2 { // no journal
			require.NotContains(t, said.String(), mended)
		} else {
			require.Contains(t, said.String(), mended)
		}
	}
}

// ran runs it to its end.
func (c *process) ran(t *testing.T) int {
	t.Helper()
	require.NoError(t, c.Start())
	return c.ends(t)
}
