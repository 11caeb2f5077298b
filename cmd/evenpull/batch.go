package main

import (
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/study/batch"
	"evenpull/sim/study/spread"

	"github.com/spf13/cobra"
)

// batchFlags are the flags of batch.
type batchFlags struct {
	flags
	of           []string
	sure, resume bool
	whole        bool // a part is a table of its own, with its head
	rows, out    string
	design       string
	runs         int
	seed         int64
}

func newBatch(s streams) *cobra.Command {
	var f batchFlags
	c := &cobra.Command{
		Use:   "batch TABLE.csv [SCENARIO]",
		Short: "Run a table of what-ifs, row by row",
		Long: `Batch takes a table of comma-separated values with a header. A column whose name is a
KEY, such as going.mainspring.thickness_mm, sets that for its row, in any unit of its kind;
an empty cell leaves the scenario's own value. A column called scenario names another
scenario for the row, a file or a sample. All other columns are carried through. One
table comes out, a row for each row in, in the same order: what came in, then the train,
its verdict, its faults, why it cannot be run where it cannot, and the results.

As in "evenpull sweep" another spring is one of the same steel, and a cone asked to be even
stays as it was cut. --sure tells beside each verdict how sure it is.

--design lays the table out by itself, over the [[tolerance]]s of the scenario: grid is
every level of one with every level of the others, latin a Latin hypercube, sobol Sobol'
points, 512 at a time scrambled anew. There is no TABLE then.

Rows stream: a table may be as long as you like. --out writes them into a file; where that
was interrupted, --resume goes on after the rows that are there. --rows FROM:TO computes
a part, without the header unless it begins with row 1, so that parts one after the
other are the whole. The same table gives the same bytes, on however many cores.
--format json gives an object a line (JSON Lines), the first with where it came from.`,
		Example: `  evenpull batch springs.csv
  evenpull batch springs.csv too-weak --of reserve.min --sure --draws 200 --out results.csv
  evenpull batch springs.csv too-weak --of reserve.min --sure --draws 200 --out results.csv --resume
  evenpull batch --design sobol --runs 512 --set tolerance.1.plus_minus=0.02
  evenpull batch springs.csv --rows 1:100 --format json`,
		Args: usageArgs(cobra.MaximumNArgs(2)),
		RunE: func(c *cobra.Command, args []string) error { return runBatch(c, s, &f, args) },
	}
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of the scenario, in any unit of its kind: `KEY=VALUE` (repeatable)")
	c.Flags().StringVar(&f.train, "train", "", "the train of this `name`; left out, the one whose inputs the table has, or the first")
	c.Flags().StringArrayVar(&f.of, "of", nil, "`RESULT` to tell of each row, named as in the JSON of run (repeatable; left out, the main ones)")
	c.Flags().BoolVar(&f.sure, "sure", false, "also tell how sure each verdict is")
	f.registerDraws(c)
	c.Flags().StringVar(&f.rows, "rows", "", "only the rows `FROM:TO`, counted from 1; either may be left out")
	c.Flags().StringVar(&f.out, "out", "", "write into this `file` in place of standard output")
	keepsData(c, &f.data, "the rows, in place of printing them,")
	c.Flags().BoolVar(&f.resume, "resume", false, "go on in --out after the rows that it has")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite a file that exists")
	c.Flags().StringVar(&f.design, "design", "", "lay the table out over the tolerances: `"+strings.Join(batch.Designs(), "|")+"`")
	c.Flags().IntVar(&f.runs, "runs", 1000, "the most `rows` of a design")
	c.Flags().Int64Var(&f.seed, "seed", firstSeed, "`number` that random draws begin from")
	c.Flags().StringVar(&f.format, "format", "csv", "`form` of the result: csv or json")
	completeKeys(c, "set", "=")
	complete(c, "train", completeTrains)
	completeWords(c, "of", outcome.Names()...)
	completeWords(c, "format", "csv", "json")
	completeWords(c, "design", batch.Designs()...)
	return c
}

func (f *batchFlags) check(args []string) error {
	switch {
	case f.format != "csv" && f.format != "json":
		return usagef("--format %q: want csv or json", f.format)
	case f.design == "" && len(args) == 0:
		return usagef("want a table, TABLE.csv, or --design")
	case f.design != "" && len(args) > 1:
		return usagef("--design lays out the table itself: want the scenario alone, found %s too", args[0])
	case f.design != "" && !slices.Contains(batch.Designs(), f.design):
		return usagef("--design %q: %w", f.design, batch.ErrDesign)
	case f.runs < 1 || f.runs > spread.MaxRuns:
		return usagef("--runs %d: want 1 to %d", f.runs, spread.MaxRuns)
	case f.resume && f.out == "":
		return usagef("--resume goes with --out")
	case f.data != "" && (f.out != "" || f.format != "csv"):
		return usagef("--data keeps the table as CSV in the folder: it goes neither with --out nor with --format json")
	case f.resume && f.force:
		return usagef("--resume keeps what --force would overwrite: want one of them")
	}
	return f.checkDraws()
}

func runBatch(c *cobra.Command, s streams, f *batchFlags, args []string) error {
	if err := f.check(args); err != nil {
		return err
	}
	from, to, err := f.part()
	if err != nil {
		return err
	}
	if len(f.of) == 0 {
		f.of = []string{outcome.MeanTorque, outcome.Unevenness, outcome.LeastReserve}
	}
	of, err := outcome.Several(f.of...)
	if err != nil {
		return usagef("--of: %w", err)
	}
	rest := args
	if f.design == "" {
		rest = args[1:]
	}
	sc, _, err := f.load(c, s, rest)
	if err != nil {
		return err
	}
	t, err := f.table(s, sc, args)
	if err != nil {
		return err
	}
	defer t.close()
	o := batch.Options{Train: f.train, Of: of, Seed: f.seed, Open: func(name string) (*scenario.Scenario, error) {
		return open(streams{in: s.in, err: s.err, again: s.again}, name)
	}} // taken down already, by one goroutine
	if f.sure {
		o.Draws = f.draws
	}
	b, err := batch.New(sc, t.header, o)
	if err != nil {
		return err
	}
	if f.sure && f.draws == 0 {
		return usagef("--sure with --draws 0: want at least 1")
	}
	var seed *int64
	if f.sure || f.design != "" {
		seed = &f.seed
	}
	if !f.keeps(s) {
		says, err := f.write(c.Context(), s, b, t, f.origin(s, seed), from, to)
		for _, line := range says {
			s.say("%s", line)
		}
		return err
	}
	return f.keepRows(c, s, b, t, f.origin(s, seed), from, to)
}

// part are the first and the last row that are asked for.
func (f *batchFlags) part() (from, to int, err error) {
	from, to = 1, int(^uint(0)>>1)
	if f.rows == "" {
		return from, to, nil
	}
	a, b, colon := strings.Cut(f.rows, ":")
	if a != "" {
		if from, err = strconv.Atoi(a); err != nil {
			from = 0
		}
	}
	if b != "" {
		if to, err = strconv.Atoi(b); err != nil {
			to = 0
		}
	}
	if !colon || from < 1 || to < from {
		return 0, 0, usagef("--rows %q: want FROM:TO, whole numbers from 1 on, the lower first", f.rows)
	}
	return from, to, nil
}
