package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"evenpull/sim/scenario"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/vary"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"
)

// loadTrain is load for a study of one train: the one asked for by --train, else
// the first that one of the keys names, else the first of all.
func (f *flags) loadTrain(c *cobra.Command, s streams, args []string, keys func(*scenario.Scenario) []string) (*scenario.Scenario, int, error) {
	sc, _, err := f.load(c, s, args)
	if err != nil {
		return nil, 0, err
	}
	for i := range sc.Trains {
		if sc.Trains[i].Name == f.train {
			return sc, i, nil
		}
	}
	for _, key := range keys(sc) {
		owner, _, _ := strings.Cut(key, ".")
		for i := range sc.Trains {
			if sc.Trains[i].Name == owner {
				return sc, i, nil
			}
		}
	}
	return sc, 0, nil
}

// write writes a result in the format asked for: in words, as the document, or as
// rows.
func write[T any](s streams, format string, result *T, o text.Options, words func(io.Writer, *T, text.Options) error, document data.Document[T]) error {
	switch format {
	case "json":
		return document.JSON(s.out, result)
	case "csv":
		return document.CSV(s.out, result)
	}
	o.Colour = wantsColour(s.out)
	return words(s.out, result, o)
}

// caution prints, beside a CSV, which has no place for it, what to mind with a
// spring that the result leads somebody to touch.
func caution(s streams, format string, cautions ...string) {
	if format != "csv" {
		return
	}
	for _, c := range cautions {
		fmt.Fprintf(s.err, "Caution: %s\n", c)
	}
}

// keyFault makes the fault of a KEY given by a flag one of the command line.
func keyFault(flag, key string, err error) error {
	var f scenario.Fault
	if errors.As(err, &f) && f.Key == key {
		return usagef("--%s %s: %s; %s", flag, key, f.Found, f.Want)
	}
	return err
}

// holdFlag registers --hold.
func holdFlag(c *cobra.Command, hold *string) {
	c.Flags().StringVar(hold, "hold", vary.Length.String(), "`what` of the strip stays when its thickness or the barrel changes: its length, or fill, the share of the barrel that it fills")
	completeWords(c, "hold", vary.Holds()...)
}

func holdOf(name string) (vary.Hold, error) {
	for i, h := range vary.Holds() {
		if h == name {
			return vary.Hold(i), nil
		}
	}
	return 0, usagef("--hold %q: want %s", name, strings.Join(vary.Holds(), " or "))
}

// interruptible is a context that an interrupt ends. A second interrupt ends the
// program.
func interruptible() (context.Context, context.CancelFunc) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// progress is a bar with the time left on a terminal, and nothing elsewhere. It
// gives the function that moves it and the one that takes it away.
func progress(w io.Writer, total int, what string) (moved func(done int), finished func()) {
	if !isTerminal(w) {
		return nil, func() {}
	}
	bar := progressbar.NewOptions(total,
		progressbar.OptionSetWriter(w), progressbar.OptionSetDescription(what), progressbar.OptionShowCount(),
		progressbar.OptionSetPredictTime(true), progressbar.OptionSetElapsedTime(true), progressbar.OptionSetWidth(30),
		progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionClearOnFinish(), progressbar.OptionSetRenderBlankState(false))
	// The bar is no part of the result: what goes wrong with it is let go.
	return func(done int) { _ = bar.Set(done) }, func() { _ = bar.Finish() }
}
