package main

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"

	"github.com/spf13/cobra"
)

func newSamples(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "samples [NAME]",
		Short: "List the sample scenarios, bench files and stock lists, or print one",
		Long: `Samples lists the scenarios, bench files and stock lists that come with the
program, with a line each. Given a name it prints that one. All of them are
invented for teaching: the numbers are realistic but belong to no clock.`,
		Example: `  evenpull samples
  evenpull samples too-strong
  evenpull samples mixed-barrels
  evenpull samples shop-drawer`,
		Args:              usageArgs(cobra.MaximumNArgs(1)),
		ValidArgsFunction: completeSamples,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listSamples(s)
			}
			text, ok := sampleText(args[0])
			if !ok {
				return usagef("there is no sample %q; there are %s", args[0], strings.Join(slices.Concat(scenarios.Names(), scenarios.BenchNames(), scenarios.StockNames()), ", "))
			}
			_, err := fmt.Fprint(s.out, text)
			return err
		},
	}
}

// sampleText is the sample of the given name, of whatever kind.
func sampleText(name string) (string, bool) {
	for _, find := range []func(string) (string, bool){scenarios.Text, scenarios.BenchText, scenarios.StockText} {
		if text, ok := find(name); ok {
			return text, true
		}
	}
	return "", false
}

func listSamples(s streams) error {
	w := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	for _, name := range scenarios.Names() {
		text, _ := scenarios.Text(name)
		sc, err := scenario.Read(strings.NewReader(text), name)
		if err != nil {
			return err
		}
		if name == scenarios.Default {
			sc.Title += " (the default)"
		}
		fmt.Fprintf(w, "%s\t%s\n", name, sc.Title)
	}
	for _, name := range scenarios.BenchNames() {
		text, _ := scenarios.BenchText(name)
		b, err := book.Read(strings.NewReader(text), name, nil)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "%s\tbench file: %s\n", name, b.Title)
	}
	for _, name := range scenarios.StockNames() {
		text, _ := scenarios.StockText(name)
		list, err := stock.Read(strings.NewReader(text), name)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "%s\tstock list: %s\n", name, list.Title)
	}
	return w.Flush()
}
