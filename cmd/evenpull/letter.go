package main

import (
	"cmp"
	"io"
	"path/filepath"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/bench/found"
	"evenpull/sim/show/page"
	"evenpull/sim/stock"
	"evenpull/sim/study/letter"

	"github.com/spf13/cobra"
)

// letterFlags are the flags of letter.
type letterFlags struct {
	flags
	book, stock, out string
}

func newLetter(s streams) *cobra.Command {
	var f letterFlags
	c := &cobra.Command{
		Use:   "letter [SCENARIO]",
		Short: "Write one page for the owner of a clock",
		Long: `Letter writes one side of A4 for the owner, in plain words: what was found of each
train, which spring goes where and how sure that is, what to order, what was left as it
is and why, what to measure next, and the cautions.

--bench takes a bench file: its needs and springs, and the head of the letter from its
table [letter] (workshop, owner, clock, date). --stock takes a dealer's list for the
trains that want another spring; none of it is ordered more often than there is of it.`,
		Example: `  evenpull letter --out letter.html --force
  evenpull letter three-trains --bench mixed-barrels --out letter.md --force
  evenpull letter too-weak --stock shop-drawer --out letter.html --force`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runLetter(c, s, &f, args) },
	}
	c.Flags().StringVar(&f.out, "out", "", "`file` to write: .html or .md")
	c.Flags().StringVar(&f.book, "bench", "", "the bench `file` of the clock, or a sample")
	c.Flags().StringVar(&f.stock, "stock", "", "a stock list: a `file` (.toml or .csv), or a sample; a hyphen for one in TOML that another program hands over")
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of the scenario, in any unit of its kind: `KEY=VALUE` (repeatable)")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite a file that exists")
	f.registerDraws(c)
	completeKeys(c, "set", "=")
	completeWords(c, "bench", scenarios.BenchNames()...)
	completeWords(c, "stock", scenarios.StockNames()...)
	c.ValidArgsFunction = completeSamples
	return c
}

func runLetter(c *cobra.Command, s streams, f *letterFlags, args []string) error {
	write := map[string]func(io.Writer, *page.Document) error{".html": page.LetterHTML, ".md": page.LetterMarkdown}[strings.ToLower(filepath.Ext(f.out))]
	switch {
	case write == nil:
		return usagef("--out %s: want a name ending in .html or .md", cmp.Or(f.out, "is left out"))
	case f.draws == 0:
		return usagef("--draws 0: a letter tells how sure it is; want at least 1")
	}
	if err := f.checkDraws(); err != nil {
		return err
	}
	sc, err := f.read(s, argument(args, sampleMark+scenarios.Default))
	if err != nil {
		return err
	}
	var clock *found.Clock
	if f.book != "" {
		b, err := openBook(c, s, args, f.book)
		if err != nil {
			return err
		}
		if clock, err = clockOf(c.Context(), b, sc); err != nil {
			return err
		}
	}
	var list *stock.Stock
	if f.stock != "" {
		if list, err = openStock(s, f.stock); err != nil {
			return err
		}
	}
	st, err := letter.Of(c.Context(), sc, clock, list, *f.sureness())
	if err != nil {
		return err
	}
	d := page.Letter(st, s.build().version)
	if err := writeFile(c.Context(), f.out, f.force, func(w io.Writer) error { return write(w, d) }); err != nil {
		return err
	}
	s.say("letter written to %s", f.out)
	return nil
}
