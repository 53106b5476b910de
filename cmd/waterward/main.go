// Command waterward says which permit path a proposed reef breakwater or sill
// falls under, how surely, and why.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
)

// memory is how much, in bytes, may be held before what is no longer used is given
// back at once; until then it may be as much again as what is used.
const memory = 2 << 30

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memory)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	go func() { // the second signal ends it at once
		<-ctx.Done()
		stop()
	}()
	os.Exit(run(ctx, os.Args, os.Stdin, os.Stdout, os.Stderr))
}
