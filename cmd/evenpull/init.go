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
	var force, asks bool
	var book, answers string
	c := &cobra.Command{
		Use:   "init FILE",
		Short: "Write a file to start from, or be asked for all that it holds",
		Long: `Init writes a sample scenario with its comments into FILE, for you to replace
its invented numbers by what you measured. A file that exists is left alone unless you
say --force.

With --ask it asks for everything at the terminal, in the order of the bench: fusee,
barrel, line, mainspring, wheels, escapement and pendulum or hammers and fly, then the
weights that were hung and the torques that were read. Each question names its unit and
takes any other of its kind: 38, 3.8 cm, 1.5 in, 133.7 beats. An empty line or ? says that
something is not known; "back" goes one question back. What was answered goes into FILE
and a bench book beside it, with comments: both, or neither when the answers end early.
Neither ever takes the place of a file. "evenpull samples protocol" prints what to measure,
with tables whose columns are asked for in the same order.

--answers takes the answers from a file, a line each in the order of the questions; lines
that begin with # are passed over.`,
		Example: `  evenpull init my-clock.toml
  evenpull init striking.toml --from three-trains
  evenpull init asked.toml --ask
  evenpull init noted.toml --ask --answers notes.txt --book readings.toml`,
		Args: usageArgs(cobra.ExactArgs(1)),
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case asks && (force || c.Flags().Changed("from")):
				return usagef("--ask goes neither with --from nor with --force: it asks for everything, and writes new files only")
			case !asks && (book != "" || answers != ""):
				return usagef("--book and --answers go with --ask")
			case asks:
				return askFor(c.Context(), s, args[0], bookOf(args[0], book), answers)
			}
			text, ok := scenarios.Text(from)
			if !ok {
				what := "there is no such sample"
				if other := kindOf(from); other != "" {
					what = "this is a " + other + " (see evenpull samples " + from + ") and no scenario to start from"
				}
				return usagef("--from %q: %s; there are %s", from, what, strings.Join(scenarios.Names(), ", "))
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
	c.Flags().BoolVar(&asks, "ask", false, "ask at the terminal for what FILE and a bench book are to hold")
	c.Flags().StringVar(&book, "book", "", "with --ask: the `file` of the bench book; left out, that of FILE with -bench before its ending")
	c.Flags().StringVar(&answers, "answers", "", "with --ask: the `file` that the answers are read from, or -")
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
