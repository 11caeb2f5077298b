// Command mutant tells package by package how many small faults the tests
// notice. See .ci/mutate.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"strings"
)

// wanted is the share of faults that tests must notice. The first line that fits
// a package holds. Where a package is mostly seen through the commands, their
// tests count too.
var wanted = []struct {
	pattern string // a folder below the module; /... for all below it
	share   float64
	also    string // a package whose tests are run on what the own tests let live
}{
	{"fusee", 0.90, ""},
	{"fusee/mainspring", 0.90, ""},
	{"fusee/mainspring/rub", 0.90, ""},
	{"train", 0.90, ""},
	{"escapement", 0.90, ""},
	{"sim/rules", 0.85, ""},
	{"sim/outcome", 0.85, ""},
	{"sim/show/...", 0.85, ""},
	{"sim/study/...", 0.85, ""},
	{"sim/bench/...", 0.85, ""},
}

type options struct {
	sample int
	seed   uint64
	lived  bool
}

func main() {
	var o options
	flag.IntVar(&o.sample, "sample", 120, "faults tried in a package, 0 for all")
	flag.Uint64Var(&o.seed, "seed", 1, "of the draw")
	flag.BoolVar(&o.lived, "lived", false, "list the faults that no test noticed")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	enough, err := measure(ctx, o, flag.Args())
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
	}
	if err != nil || !enough {
		os.Exit(1)
	}
}

// measure prints a line a package and tells whether each has its wanted share.
func measure(ctx context.Context, o options, patterns []string) (enough bool, err error) {
	if len(patterns) == 0 {
		for _, w := range wanted {
			patterns = append(patterns, "./"+w.pattern)
		}
	}
	sources, err := load(ctx, patterns)
	if err != nil {
		return false, err
	}
	folder, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(folder)
	fmt.Printf("%-24s %6s %6s %6s %6s %11s %9s %7s %6s\n", "package", "found", "tried", "killed", "lived", "not covered", "timed out", "share", "wanted")
	enough = true
	for _, src := range sources {
		share, also := wantedOf(src.name)
		t, err := try(ctx, folder, src, also, o)
		if err != nil {
			return false, fmt.Errorf("%s: %w", src.name, err)
		}
		fmt.Printf("%-24s %6d %6d %6d %6d %11d %9d %5.1f %% %4.0f %%\n", src.name, t.found, len(t.tried),
			t.count(killed), t.count(lived), t.count(uncovered), t.count(timedOut), 100*t.share(), 100*share)
		if o.lived {
			t.list(os.Stdout)
		}
		enough = enough && t.share() >= share
	}
	return enough, nil
}

func wantedOf(name string) (share float64, also string) {
	for _, w := range wanted {
		above, below := strings.CutSuffix(w.pattern, "/...")
		if name == above || below && strings.HasPrefix(name, above+"/") {
			return w.share, w.also
		}
	}
	return 0, ""
}
