package main

import (
	"fmt"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/scenario"

	"github.com/spf13/cobra"
)

// inputFlags are the flags of every command that reads a scenario.
type inputFlags struct{ set []string }

func (f *inputFlags) register(c *cobra.Command) {
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of the scenario: `KEY=VALUE` (repeatable)")
}

// read reads the scenario that the arguments name and applies --set.
func (f *inputFlags) read(s streams, args []string) (*scenario.Scenario, error) {
	name := scenarios.Default
	if len(args) > 0 {
		name = args[0]
	}
	sc, err := open(s, name)
	if err != nil {
		return nil, err
	}
	for _, set := range f.set {
		if !strings.Contains(set, "=") {
			return nil, usagef("--set %s: want KEY=VALUE", set)
		}
	}
	if err := sc.Apply(f.set); err != nil {
		return nil, usageError{err} // the scenario was sound before
	}
	return sc, nil
}

// open reads standard input for "-", a sample by its name, or else a file.
func open(s streams, name string) (*scenario.Scenario, error) {
	if name == "-" {
		return scenario.Read(s.in, "standard input")
	}
	if text, ok := scenarios.Text(name); ok {
		return scenario.Read(strings.NewReader(text), name)
	}
	sc, err := scenario.ReadFile(name)
	if err != nil && !strings.ContainsAny(name, `./\`) {
		return nil, fmt.Errorf("%w\n(there is no sample of that name either; there are: %s)", err, strings.Join(scenarios.Names(), ", "))
	}
	return sc, err
}

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
