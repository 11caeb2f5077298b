package main

import (
	"io"
	"slices"
	"strings"

	"evenpull/sim/show/data"

	"github.com/spf13/cobra"
)

// documents are the JSON documents, by the commands that write them.
var documents = []struct {
	command string
	schema  func(w io.Writer, title string) error
}{
	{"run", schemaOf(data.Run)}, {"sweep", schemaOf(data.Sweep)}, {"rank", schemaOf(data.Rank)}, {"spread", schemaOf(data.Spread)}, {"setup", schemaOf(data.SetUp)},
	{"record", schemaOf(data.Record)}, {"assign", schemaOf(data.Assign)}, {"choose", schemaOf(data.Choose)}, {"choose-all", schemaOf(data.Give)}, {"cut", schemaOf(data.Cut)}, {"beat", schemaOf(data.Beat)}, {"coils", schemaOf(data.Coils)}, {"plan", schemaOf(data.Plan)},
}

func schemaOf[T any](document func() data.Document[T]) func(io.Writer, string) error {
	return func(w io.Writer, title string) error { return document().Schema(w, title) }
}

func documented() []string {
	names := make([]string, len(documents))
	for i, d := range documents {
		names[i] = d.command
	}
	return names
}

func newSchema(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "schema COMMAND",
		Short: "Print the JSON Schema of a command's output",
		Long: `Schema prints what the JSON of a command holds, as JSON Schema (draft 2020-12):
every member with its meaning and its unit. It is made from the same tables as the
output itself.`,
		Example:   "  evenpull schema run\n  evenpull schema sweep",
		Args:      usageArgs(cobra.ExactArgs(1)),
		ValidArgs: documented(),
		RunE: func(_ *cobra.Command, args []string) error {
			i := slices.Index(documented(), args[0])
			if i < 0 {
				return usagef("there is no schema %q; there are those of %s", args[0], strings.Join(documented(), ", "))
			}
			return documents[i].schema(s.out, "evenpull "+args[0])
		},
	}
}
