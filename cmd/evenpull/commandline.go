package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// argsOf are the arguments with which a command comes to the same again: without what it
// writes, and how.
func argsOf(c *cobra.Command) []string {
	beside := append(outputFlags(), "force", "format", "resume", "dpi")
	args := []string{c.Name()}
	given(c, func(f *pflag.Flag, value string) {
		if !slices.Contains(beside, f.Name) {
			args = append(args, "--"+f.Name+"="+value)
		}
	})
	return append(append(args, "--"), c.Flags().Args()...)
}

// commandOf is the command line as somebody would type it.
func commandOf(c *cobra.Command) string {
	args := c.Flags().Args()
	dashed := slices.ContainsFunc(args, func(a string) bool { return len(a) > 1 && a[0] == '-' })
	words := []string{"evenpull", c.Name()}
	if !dashed {
		words = append(words, args...)
	}
	given(c, func(f *pflag.Flag, value string) {
		switch {
		case f.Name == "force":
		case f.Value.Type() == "bool" && value == "true":
			words = append(words, "--"+f.Name)
		case f.Value.Type() == "bool":
			words = append(words, "--"+f.Name+"="+value)
		default:
			words = append(words, "--"+f.Name, value)
		}
	})
	if dashed {
		words = append(append(words, "--"), args...)
	}
	for i, w := range words {
		words[i] = quoted(w)
	}
	return strings.Join(words, " ")
}

// given visits the flags that were given, in that order; one that is repeatable once for each
// value.
func given(c *cobra.Command, visit func(f *pflag.Flag, value string)) {
	all := c.Flags()
	sorted := all.SortFlags
	all.SortFlags = false
	defer func() { all.SortFlags = sorted }()
	all.Visit(func(f *pflag.Flag) {
		if list, ok := f.Value.(pflag.SliceValue); ok {
			for _, v := range list.GetSlice() {
				visit(f, v)
			}
			return
		}
		visit(f, f.Value.String())
	})
}
