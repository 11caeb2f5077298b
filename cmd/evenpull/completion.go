package main

import (
	"evenpull/scenarios"
	"evenpull/sim/scenario"

	"github.com/spf13/cobra"
)

func completeSamples(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return scenarios.Names(), cobra.ShellCompDirectiveDefault
}

// complete completes a flag of the command.
func complete(c *cobra.Command, flag string, by cobra.CompletionFunc) {
	if err := c.RegisterFlagCompletionFunc(flag, by); err != nil {
		panic(err) // the caller has misspelt the flag's name
	}
}

func completeWords(c *cobra.Command, flag string, words ...string) {
	complete(c, flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
}

// completeKeys completes a flag with the KEYs of the quantities of the scenario
// that the command line names, each followed by the given text.
func completeKeys(c *cobra.Command, flag, after string) {
	complete(c, flag, func(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		sc := namedScenario(args)
		if sc == nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var keys []string
		for _, q := range sc.Quantities() {
			keys = append(keys, q.Key+after)
		}
		return keys, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	})
}

// completeTrains completes a flag with the names of the scenario's trains.
func completeTrains(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var names []string
	if sc := namedScenario(args); sc != nil {
		for i := range sc.Trains {
			names = append(names, sc.Trains[i].Name)
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// namedScenario is the scenario that arguments name, for completion: nil when it
// cannot be read, or only from standard input.
func namedScenario(args []string) *scenario.Scenario {
	name := argument(args, sampleMark+scenarios.Default)
	if name == "-" {
		return nil
	}
	sc, _ := open(streams{}, name)
	return sc
}
