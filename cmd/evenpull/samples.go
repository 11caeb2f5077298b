package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"
)

func newSamples(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "samples [NAME]",
		Short: "List the sample scenarios, bench files and stock lists, or print one",
		Long: `Samples lists the scenarios, bench files and stock lists that come with the
program, with a line each. Given a name it prints that one. All of them are
invented for teaching: the numbers are realistic but belong to no clock.

"samples protocol" prints a page for the bench: safe handling first, then what to
measure, how often, in which order, how long it takes and what it does to how sure
the verdict is, with blank tables to fill in.`,
		Example: `  evenpull samples
  evenpull samples too-strong
  evenpull samples mixed-barrels
  evenpull samples shop-drawer
  evenpull samples protocol`,
		Args:              usageArgs(cobra.MaximumNArgs(1)),
		ValidArgsFunction: completeSamples,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listSamples(s)
			}
			var names []string
			for _, k := range kinds() {
				if text, ok := k.sample(args[0]); ok {
					_, err := io.WriteString(s.out, text)
					return err
				}
				names = append(names, k.names()...)
			}
			return usagef("there is no sample %q; there are %s", args[0], strings.Join(names, ", "))
		},
	}
}

func listSamples(s streams) error {
	w := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	for _, k := range kinds() {
		for _, name := range k.names() {
			text, _ := k.sample(name)
			title, err := k.title(name, text)
			if err != nil {
				return err
			}
			fmt.Fprintf(w, "%s\t%s\n", name, title)
		}
	}
	return w.Flush()
}
