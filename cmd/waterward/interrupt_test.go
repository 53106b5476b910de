//go:build unix

package main

import (
	"bytes"
	"context"
	"io"
	"os"
	ossignal "os/signal"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// silent is an input that stays open and sends nothing.
type silent struct {
	once        sync.Once
	asked, over chan struct{}
}

func (s *silent) Read([]byte) (int, error) {
	s.once.Do(func() { close(s.asked) })
	<-s.over
	return 0, io.EOF
}

// TestInterruptedWhileStandardInputIsSilent: the first interruption ends a run
// that waits for its proposals, with the exit code the README gives it.
func TestInterruptedWhileStandardInputIsSilent(t *testing.T) {
	for _, command := range []string{
		"screen --job ../../testdata/marrowby/job.yaml --proposals - --out OUT",
		"screen --job - --out OUT",
		"inspect -",
		"inspect --job -",
		"levels datums --station -",
		"levels predict --station - --from 2026-11-25 --until 2026-11-27",
		"levels exposure --station - --out OUT",
		"levels exposure --record - --unit feet --datum MLLW --zone GMT --out OUT",
	} {
		stdin := &silent{asked: make(chan struct{}), over: make(chan struct{})}
		ctx, interrupt := context.WithCancel(t.Context())
		out := oldOutputs(t)
		ended := make(chan int, 1)
		go func() {
			ended <- run(ctx, strings.Fields("waterward "+strings.Replace(command, "OUT", out+" --replace", 1)), stdin, io.Discard, io.Discard)
		}()
		<-stdin.asked
		interrupt()
		require.Equal(t, exitInterrupted, inTime(t, ended), command)
		untouched(t, out)
		close(stdin.over)
	}
}

func inTime(t *testing.T, ended chan int) int {
	t.Helper()
	select {
	case code := <-ended:
		return code
	case <-time.After(patience):
		t.Fatal("it goes on")
	}
	return 0
}

// TestInterruptedWhileAPipeIsSilent: a named pipe that nobody opens to write holds up
// opening it, and one that nobody writes to, reading it.
func TestInterruptedWhileAPipeIsSilent(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe.yaml")
	require.NoError(t, syscall.Mkfifo(pipe, 0o666))
	for _, command := range []string{
		"inspect PIPE", "rules check PIPE", "rules show PIPE", "levels datums --station PIPE", "screen --job PIPE --out " + filepath.Join(t.TempDir(), "new"),
	} {
		for _, opened := range []bool{false, true} {
			ctx, interrupt := context.WithCancel(t.Context())
			ended := make(chan int, 1)
			go func() {
				ended <- run(ctx, strings.Fields("waterward "+strings.Replace(command, "PIPE", pipe, 1)), nil, io.Discard, io.Discard)
			}()
			writer := -1
			open := func() bool { // as long as nobody reads it cannot be
				var err error
				writer, err = syscall.Open(pipe, syscall.O_WRONLY|syscall.O_NONBLOCK, 0)
				return err == nil
			}
			if opened {
				require.Eventually(t, open, patience, time.Millisecond, command)
			}
			interrupt()
			require.Equal(t, exitInterrupted, inTime(t, ended), command)
			if opened || open() { // let the reader that was left behind go
				syscall.Close(writer)
			}
		}
	}
}

// TestEndedFromOutside: an interruption by the terminal, the end of the terminal and a
// termination asked for from outside, as by a time limit or a shutdown, are one: the old
// outputs stay, nothing is left beside them.
func TestEndedFromOutside(t *testing.T) {
	all := []os.Signal{syscall.SIGINT, syscall.SIGHUP, syscall.SIGTERM}
	caught := make(chan os.Signal, 1)
	ossignal.Notify(caught, all...) // what the tests are started to ignore, by nohup say, what they start would too
	defer ossignal.Stop(caught)
	for _, signal := range all {
		out := oldOutputs(t)
		c := waiting(t, out)
		require.NoError(t, c.Process.Signal(signal))
		require.Equal(t, exitInterrupted, c.ends(t))
		require.Equal(t, "waterward: interrupted; the old outputs are as they were\n", c.said.String())
		untouched(t, out)
	}
}

// TestASignalThatIsIgnored: a run that is to outlive its terminal, as nohup starts one,
// does, and is ended by another signal.
func TestASignalThatIsIgnored(t *testing.T) {
	out := oldOutputs(t)
	c := begin(t, "sh", "-c", `trap "" HUP; exec waterward "$@"`, "waterward", "screen", "--job", "../../testdata/marrowby/job.yaml", "--proposals", "-", "--out", out)
	c.holds(t, out)
	require.NoError(t, c.Process.Signal(syscall.SIGHUP))
	_, err := io.WriteString(c.stdin, `{"type": "FeatureCollection", "features": []}`)
	require.NoError(t, err)
	require.NoError(t, c.stdin.Close())
	require.NotEqual(t, exitInterrupted, c.ends(t))
	require.NotContains(t, c.said.String(), "interrupted")
}

// TestInterruptedInALongPrediction: at work on it, and printing it for somebody who
// does not read on.
func TestInterruptedInALongPrediction(t *testing.T) {
	out := t.TempDir()
	for _, command := range []string{
		"levels predict --station ../../testdata/marrowby/ts01.csv --from 1990-01-01 --until 2100-01-01",
		"levels exposure --station ../../testdata/marrowby/ts01.csv --years 1900-2012 --out " + out,
	} {
		read, stdout, err := os.Pipe()
		require.NoError(t, err)
		c := child(t, append([]string{"waterward"}, strings.Fields(command)...)...)
		c.Stdout = stdout
		require.NoError(t, c.Start())
		stdout.Close()
		if strings.Contains(command, "predict") { // it is printing
			_, err := io.ReadFull(read, make([]byte, 100))
			require.NoError(t, err)
		} else {
			c.holds(t, out)
		}
		begun := time.Now()
		require.NoError(t, c.Process.Signal(syscall.SIGINT))
		require.Equal(t, exitInterrupted, c.ends(t), command)
		require.Less(t, time.Since(begun), 5*time.Second, command) // moments, on a machine that is busy
		read.Close()
	}
	require.Empty(t, filesIn(t, out))
	require.NoDirExists(t, filepath.Join(out, unfinished))
}

// TestNobodyReadsOn: who takes what is printed no more ends a command that prints, without
// a word, and never one that writes a folder.
func TestNobodyReadsOn(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	for command, want := range map[string]int{
		"inspect ../../testdata/marrowby/mhw.geojson": exitInterrupted,
		"rules list": exitInterrupted,
		"levels predict --station ../../testdata/marrowby/ts01.csv --from 1990-01-01 --until 2000-01-01": exitInterrupted,
		"screen --job ../../testdata/marrowby/job.yaml --out " + out:                                     exitSomeUnusable,
	} {
		read, written, err := os.Pipe()
		require.NoError(t, err)
		read.Close()
		c := child(t, append([]string{"waterward"}, strings.Fields(command)...)...)
		c.Stdout, c.Stderr = written, written
		require.NoError(t, c.Start())
		written.Close()
		require.Equal(t, want, c.ends(t), command)
	}
	whole := resultsIn(out)
	require.NotEmpty(t, whole.Outputs)
	there, err := os.ReadDir(out)
	require.NoError(t, err)
	require.Len(t, there, 1+len(whole.Outputs))
}

// TestInterruptedWhenAllIsInPlace: it is said, and the new outputs stay.
func TestInterruptedWhenAllIsInPlace(t *testing.T) {
	out := t.TempDir()
	earlier.write(t, out)
	ctx, interrupt := context.WithCancel(t.Context())
	var said bytes.Buffer
	err := attended(ctx, &said, func(ctx context.Context) error {
		s, err := take(ctx, func() (*staging, error) { return staged(t, out), nil })
		require.NoError(t, err)
		require.NoError(t, s.commit())
		interrupt()
		select {} // as when it prints for somebody who does not read
	})
	require.Equal(t, exitInterrupted, finish(err, &said))
	require.Equal(t, "waterward: interrupted; the new outputs are in place\n", said.String())
	require.Equal(t, later, filesIn(t, out))
	require.NoDirExists(t, filepath.Join(out, unfinished))
}

// TestInterruptedIsFinal: what a command that was let go of still tries comes to nothing, and
// nobody need read that it was interrupted.
func TestInterruptedIsFinal(t *testing.T) {
	out := t.TempDir()
	earlier.write(t, out)
	ctx, interrupt := context.WithCancel(t.Context())
	unread, stderr := io.Pipe()
	var s *staging
	ended := make(chan int, 1)
	go func() {
		ended <- finish(attended(ctx, stderr, func(ctx context.Context) error {
			s, _ = take(ctx, func() (*staging, error) { return staged(t, out), nil })
			interrupt()
			select {}
		}), io.Discard)
	}()
	require.Equal(t, exitInterrupted, inTime(t, ended))
	unread.Close()
	_, err := s.Create("more.csv")
	require.ErrorIs(t, err, context.Canceled)
	require.ErrorIs(t, s.commit(), context.Canceled)
	_, err = take(context.WithValue(ctx, handKey{}, &hand{}), func() (*staging, error) { return newStaging(out, "screen", true) })
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, earlier, filesIn(t, out))
	require.NoDirExists(t, filepath.Join(out, unfinished))
}
