package main

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"evenpull/scenarios"
	"evenpull/sim/scenario"

	"github.com/spf13/cobra"
)

func newSamples(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "samples [NAME]",
		Short: "List the sample scenarios, or print one",
		Long: `Samples lists the scenarios that come with the program, with a line each. Given
a name it prints that scenario. All of them are invented for teaching: the numbers
are realistic but belong to no clock.`,
		Example: `  evenpull samples
  evenpull samples too-strong`,
		Args:              usageArgs(cobra.MaximumNArgs(1)),
		ValidArgsFunction: completeSamples,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listSamples(s)
			}
			text, ok := scenarios.Text(args[0])
			if !ok {
				return usagef("there is no sample %q; there are %s", args[0], strings.Join(scenarios.Names(), ", "))
			}
			_, err := fmt.Fprint(s.out, text)
			return err
		},
	}
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
	return w.Flush()
}
