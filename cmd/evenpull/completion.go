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

func completeWords(c *cobra.Command, flag string, words ...string) {
	err := c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
	if err != nil {
		panic(err) // the flag's name is misspelt in the line above
	}
}

// completeKeys completes a flag with the KEYs of the quantities of the scenario
// that the command line names, each followed by the given text.
func completeKeys(c *cobra.Command, flag, after string) {
	err := c.RegisterFlagCompletionFunc(flag, func(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
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
	if err != nil {
		panic(err) // the flag's name is misspelt in the line above
	}
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
	name := scenarios.Default
	if len(args) > 0 {
		name = args[0]
	}
	if name == "-" {
		return nil
	}
	sc, err := open(streams{}, name)
	if err != nil {
		return nil
	}
	return sc
}
