package main

import (
	"context"
	"errors"
	"io"
	"os"
	"os/signal"
	"syscall"

	"evenpull/cmd/evenpull/internal/files"
)

// interruptible is a context that an interrupt ends. A second interrupt ends the
// program.
func interruptible() (context.Context, context.CancelFunc) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// finishing is the context in which a study is written that may have been stopped early:
// what there is of it is written all the same.
func finishing(ctx context.Context) context.Context {
	if ctx.Err() != nil {
		return context.WithoutCancel(ctx)
	}
	return ctx
}

// interrupted says in words what became of a command that was interrupted; "" when err
// does not come from that.
func interrupted(ctx context.Context, err error) string {
	var left files.Interrupted
	var off leftOff
	switch {
	case ctx.Err() == nil || !errors.Is(err, context.Canceled):
		return ""
	case errors.As(err, &off):
		return "interrupted; " + off.Error()
	case errors.As(err, &left):
		return "interrupted; " + left.Name + " was not written"
	}
	return "interrupted; nothing was written"
}

// reading is a reader that an interrupt ends, such as standard input on which nothing
// comes.
type reading struct {
	ctx context.Context
	in  io.Reader
}

func (r reading) Read(p []byte) (int, error) {
	type result struct {
		n   int
		err error
	}
	done := make(chan result, 1)
	own := make([]byte, len(p)) // which a reader that is left waiting may still write to
	go func() {
		n, err := r.in.Read(own)
		done <- result{n, err}
	}()
	select {
	case got := <-done:
		return copy(p, own[:got.n]), got.err
	case <-r.ctx.Done():
		return 0, r.ctx.Err()
	}
}
