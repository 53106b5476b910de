package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"waterward/screening"
)

// interrupted is a context that ends when the run is told to: by the person who started it,
// by the end of the terminal or by the system. A signal that whoever started it wants
// ignored stays so. The second one ends the process at once.
//
// Nobody reading what is printed any more is no signal but a fault of writing: a run whose
// messages nobody reads still puts its outputs in place.
func interrupted() context.Context {
	var signals []os.Signal
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) {
			signals = append(signals, s)
		}
	}
	signal.Ignore(syscall.SIGPIPE)
	if len(signals) == 0 { // which would ask for all of them
		return context.Background()
	}
	ctx, stop := signal.NotifyContext(context.Background(), signals...)
	context.AfterFunc(ctx, stop)
	return ctx
}

// hand holds the folder of outputs that a command works on, so that it can be let go of
// while the command goes on.
type hand struct {
	mu     sync.Mutex
	folder *staging
}

type handKey struct{}

// take opens a folder of outputs, unless the run is interrupted.
func take(ctx context.Context, open func() (*staging, error)) (*staging, error) {
	h := ctx.Value(handKey{}).(*hand)
	h.mu.Lock()
	defer h.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	folder, err := open()
	if err == nil {
		h.folder = folder
	}
	return folder, err
}

// letGo lets go of the folder, and says what became of the outputs.
func (h *hand) letGo() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.folder == nil {
		return "interrupted"
	}
	h.folder.discard()
	return "interrupted; " + h.folder.fate()
}

// attended works until the work is over or the context ends, whatever the work waits for
// or is busy with, and lets go of the outputs then.
func attended(ctx context.Context, stderr io.Writer, work func(context.Context) error) error {
	var h hand
	ended := make(chan error, 1)
	go func() { ended <- work(context.WithValue(ctx, handKey{}, &h)) }()
	select {
	case err := <-ended:
		if !screening.Interrupted(err) {
			return err
		}
	case <-ctx.Done():
	}
	text, said := h.letGo(), make(chan struct{})
	go func() {
		defer close(said)
		say(stderr, text)
	}()
	select {
	case <-said:
	case <-time.After(500 * time.Millisecond): // nobody reads it
	}
	return &exitError{exitInterrupted, errReported}
}
