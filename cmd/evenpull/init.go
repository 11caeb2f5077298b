package main

import (
	"fmt"
	"io"
	"strings"

	"evenpull/scenarios"

	"github.com/spf13/cobra"
)

func newInit(s streams) *cobra.Command {
	from := scenarios.Default
	var force bool
	c := &cobra.Command{
		Use:   "init FILE",
		Short: "Write a commented scenario to start from",
		Long: `Init writes a sample scenario with its comments into FILE, for you to replace
its invented numbers by what you measured. A file that exists is left alone unless you
say --force.`,
		Example: `  evenpull init my-clock.toml
  evenpull init striking.toml --from three-trains`,
		Args: usageArgs(cobra.ExactArgs(1)),
		RunE: func(c *cobra.Command, args []string) error {
			text, ok := scenarios.Text(from)
			if !ok {
				return usagef("--from %q: there is no such sample; there are %s", from, strings.Join(scenarios.Names(), ", "))
			}
			err := writeFile(c.Context(), args[0], force, func(w io.Writer) error {
				_, err := io.WriteString(w, yours(from, text))
				return err
			})
			if err == nil {
				s.say("written: %s\nPut in what you measured, then: evenpull run %s", args[0], args[0])
			}
			return err
		},
	}
	c.Flags().StringVar(&from, "from", from, "the `sample` to start from")
	c.Flags().BoolVar(&force, "force", false, "overwrite FILE if it exists")
	completeWords(c, "from", scenarios.Names()...)
	return c
}

// yours is a sample as the start of somebody's own scenario: what it says of
// itself, above its first train, is replaced by words that stay true.
func yours(name, text string) string {
	_, trains, _ := strings.Cut(text, "\n[[train]]")
	return fmt.Sprintf(`# Your clock. Every number still is that of the sample %[1]s, invented for teaching:
# put in what you measured, and then change the title. Every key ends in its unit.
# Before a spring is measured out of its barrel: let it down fully with a proper
# let-down key, use a mainspring winder, wear eye protection, never stand in line
# with a spring or line under load; local safety rules and a qualified clockmaker
# come first.

title = "My clock, begun from the sample %[1]s (invented numbers)"

[[train]]%[2]s`, name, trains)
}
