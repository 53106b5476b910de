package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// silent is an input that stays open and sends nothing.
type silent struct{ asked, over chan struct{} }

func (s silent) Read([]byte) (int, error) {
	close(s.asked)
	<-s.over
	return 0, io.EOF
}

// TestInterruptedWhileStandardInputIsSilent: the first interruption ends a run
// that waits for its proposals, with the exit code the README gives it.
func TestInterruptedWhileStandardInputIsSilent(t *testing.T) {
	stdin := silent{make(chan struct{}), make(chan struct{})}
	defer close(stdin.over)
	ctx, interrupt := context.WithCancel(t.Context())
	job, out := "../../testdata/marrowby/job.yaml", t.TempDir()
	ended := make(chan int, 1)
	go func() {
		ended <- run(ctx, []string{"waterward", "screen", "--job", job, "--proposals", "-", "--out", out}, stdin, io.Discard, io.Discard)
	}()
	<-stdin.asked
	interrupt()
	select {
	case code := <-ended:
		require.Equal(t, exitInterrupted, code)
	case <-time.After(5 * time.Second):
		t.Fatal("it still waits for standard input")
	}
}

// TestEndedFromOutside: a termination asked for from outside, as by a time limit or
// a shutdown, is an interruption too: the old outputs stay, nothing is left beside
// them.
func TestEndedFromOutside(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	out := oldOutputs(t)
	command := exec.Command(self, "screen", "--job", "../../testdata/marrowby/job.yaml", "--proposals", "-", "--out", out)
	command.Args[0] = "waterward" // as which the test binary is the command
	var said bytes.Buffer
	command.Stderr = &said
	stdin, err := command.StdinPipe()
	require.NoError(t, err)
	require.NoError(t, command.Start())
	defer stdin.Close()
	require.Eventually(t, func() bool { // it has begun
		there, err := filepath.Glob(filepath.Join(out, unfinished))
		return err == nil && len(there) == 1
	}, 10*time.Second, time.Millisecond)
	require.NoError(t, command.Process.Signal(syscall.SIGTERM))
	var exit *exec.ExitError
	require.ErrorAs(t, command.Wait(), &exit)
	require.Equal(t, exitInterrupted, exit.ExitCode())
	require.Contains(t, said.String(), "interrupted")
	untouched(t, out)
}
