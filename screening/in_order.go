package screening

import "context"

// inOrder does n pieces of work on several workers and hands on what each made in
// the order of the pieces, from one goroutine. No more than a few pieces for each
// worker are held at once. Told to end, it does not wait for pieces in work.
func inOrder[T any](ctx context.Context, n, workers int, work func(i int) T, then func(i int, made T) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	type slot struct {
		i    int
		made chan T
	}
	order := make(chan slot, 8*workers)
	todo := make(chan slot)
	go func() {
		defer close(order)
		defer close(todo)
		for i := range n {
			s := slot{i, make(chan T, 1)}
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
				s.made <- work(s.i)
			}
		}()
	}
	for s := range order {
		select {
		case made := <-s.made:
			if err := then(s.i, made); err != nil {
				return err
			}
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return ctx.Err()
}
