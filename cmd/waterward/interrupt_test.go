package main

import (
	"context"
	"io"
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
