package work

import (
	"context"
	"iter"
)

// InOrder does pieces of work on several workers and hands on what each made in the
// order of the pieces, from one goroutine. No more than a few pieces for each worker
// are held at once. Told to end, it waits neither for pieces in work nor for the next;
// if it returns nil, all pieces have been drawn and done.
func InOrder[P, T any](ctx context.Context, pieces iter.Seq[P], workers int, work func(P) T, then func(made T) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	type slot struct {
		piece P
		made  chan T
	}
	// A few slots for each worker keep all of them busy while one piece takes long.
	order := make(chan slot, 8*workers)
	todo := make(chan slot)
	go func() {
		defer close(order)
		defer close(todo)
		for piece := range pieces {
			s := slot{piece, make(chan T, 1)}
			select {
			case order <- s:
			case <-ctx.Done():
				return
			}
			select {
			case todo <- s:
			case <-ctx.Done():
				return
			}
		}
	}()
	for range workers {
		go func() {
			for s := range todo {
				s.made <- work(s.piece)
			}
		}()
	}
	for {
		select {
		case s, open := <-order:
			if !open {
				return ctx.Err()
			}
			select {
			case made := <-s.made:
				if err := then(made); err != nil {
					return err
				}
			case <-ctx.Done():
				return ctx.Err()
			}
		case <-ctx.Done(): // the next piece may be long in coming
			return ctx.Err()
		}
	}
}
