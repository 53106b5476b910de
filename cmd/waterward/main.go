// Command waterward says which permit path a proposed reef breakwater or sill
// falls under, how surely, and why.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	paceCollector()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	go func() { // the second signal ends it at once
		<-ctx.Done()
		stop()
	}()
	os.Exit(run(ctx, os.Args, os.Stdin, os.Stdout, os.Stderr))
}
