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
	{"run", data.Run().Schema}, {"sweep", data.Sweep().Schema}, {"rank", data.Rank().Schema}, {"spread", data.Spread().Schema},
	{"setup", data.SetUp().Schema}, {"record", data.Record().Schema}, {"assign", data.Assign().Schema}, {"choose", data.Choose().Schema},
	{"cut", data.Cut().Schema}, {"beat", data.Beat().Schema},
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
