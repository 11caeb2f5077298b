package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/vary"

	"github.com/spf13/cobra"
)

// loadTrain is load for a study of one train: the one asked for by --train, else
// the first that one of the keys names, if any, else the first of all.
func (f *flags) loadTrain(c *cobra.Command, s streams, args []string, keys func(*scenario.Scenario) []string) (*scenario.Scenario, int, error) {
	f.ofOne = keys == nil
	sc, _, err := f.load(c, s, args)
	if err != nil {
		return nil, 0, err
	}
	named := []string{f.train}
	if f.train == "" && keys != nil {
		named = keys(sc)
	}
	for _, key := range named {
		owner, _, _ := strings.Cut(key, ".")
		if i := slices.IndexFunc(sc.Trains, func(t scenario.Train) bool { return t.Name == owner }); i >= 0 {
			return sc, i, nil
		}
	}
	return sc, 0, nil
}

// ofTrain computes a study of one train of the scenario that the arguments name.
func ofTrain[T any](c *cobra.Command, s streams, f *flags, args []string, run func(context.Context, *scenario.Scenario, int) (*T, error)) (*T, error) {
	sc, number, err := f.loadTrain(c, s, args, nil)
	if err != nil {
		return nil, err
	}
	return run(c.Context(), sc, number)
}

// shown are the ways in which the result of a command is shown.
type shown[T any] struct {
	plot, drawing   func(chart.Look, *T) (chart.Files, error)
	animation       func(chart.Look, *T) (chart.Files, error)
	text            func(io.Writer, *T, text.Options) error
	document        data.Document[T]
	blank           bool              // there is nothing to draw
	seed            *int64            // of the random draws in it; nil where none were made
	notes, cautions func(*T) []string // that are printed beside a CSV, which has no place for them; nil for none
}

// write draws the pictures that were asked for, and writes the result in the format
// asked for: in words, as the document, or as rows.
func (sh shown[T]) write(ctx context.Context, s streams, f *flags, result *T) error {
	for _, p := range []struct {
		kind, file string
		draw       func(chart.Look, *T) (chart.Files, error)
	}{{"drawing", f.drawing, sh.drawing}, {"plot", f.plot, sh.plot}, {"animation", f.animation, sh.animation}} {
		if err := f.draw(ctx, s, p.file, p.kind, func(look chart.Look) (chart.Files, error) { return p.draw(look, result) }); err != nil {
			return err
		}
	}
	var interrupted error // what is there is told all the same
	if f.keeps(s) {
		sup, err := sh.supplement(s, f, result)
		if err == nil {
			err = s.keep(f.at, f.data, sup)
		}
		if errors.Is(err, context.Canceled) {
			interrupted = err
		} else if err != nil || s.again != nil {
			return err
		}
	}
	return cmp.Or(sh.tell(s, f, result), interrupted)
}

// tell writes the result in the format asked for.
func (sh shown[T]) tell(s streams, f *flags, result *T) error {
	switch f.format {
	case "json":
		return sh.document.JSON(s.out, f.origin(s, sh.seed), result)
	case "csv":
		sayBeside(s, "!", sh.notes, result)
		sayBeside(s, "Caution:", sh.cautions, result)
		return sh.document.CSV(s.out, f.origin(s, sh.seed), result)
	}
	return sh.text(s.out, result, f.screen(s.out))
}

// supplement is the result in every form: what it says, as document and rows, and its picture.
func (sh shown[T]) supplement(s streams, f *flags, result *T) (*supplement, error) {
	var k keeper
	keep(&k, f.command+".json", f.command+".csv", sh.document, f.origin(s, sh.seed), result)
	k.add(f.command+".txt", nil, func(w io.Writer) error { return sh.text(w, result, f.screen(io.Discard)) })
	if sh.plot != nil && !sh.blank {
		look, err := f.look("it.svg")
		if err != nil {
			return nil, err
		}
		sheets, err := sh.plot(look, result)
		if err != nil {
			return nil, err
		}
		for i, write := range sheets {
			k.add(path.Join(picturesWithin, sheetFile(f.command+".svg", i+1)), nil, write)
		}
	}
	return &supplement{title: f.title, parts: k.parts}, k.err
}

func sayBeside[T any](s streams, mark string, what func(*T) []string, result *T) {
	if what == nil {
		return
	}
	for _, line := range what(result) {
		fmt.Fprintln(s.err, mark, line)
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
	if i := slices.Index(vary.Holds(), name); i >= 0 {
		return vary.Hold(i), nil
	}
	return 0, usagef("--hold %q: want %s", name, strings.Join(vary.Holds(), " or "))
}

// sharesFlags are those of the draws of a study.
type sharesFlags struct {
	seed   int64
	shares bool
}

func (f *sharesFlags) registerShares(c *cobra.Command) {
	c.Flags().Int64Var(&f.seed, "seed", firstSeed, "`number` that the random draws begin from")
	c.Flags().BoolVar(&f.shares, "shares", true, "also tell how much of what a result may be off is each input's doing")
}
