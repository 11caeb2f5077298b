package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"evenpull/sim"
	"evenpull/sim/scenario"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Exit statuses, part of the contract with scripts.
const (
	exitDone  = 0
	exitInput = 1 // a scenario or a file is at fault
	exitUsage = 2 // the command line is at fault
)

// usageError is a fault of the command line.
type usageError struct{ err error }

func (e usageError) Error() string { return e.err.Error() }
func (e usageError) Unwrap() error { return e.err }

func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// streams are where a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// Main runs the command line and gives its exit status.
func Main(args []string, in io.Reader, out, errw io.Writer) int {
	root := newRoot(streams{in, out, errw})
	root.SetArgs(args)
	err := root.Execute()
	switch {
	case err == nil:
		return exitDone
	case inScenario(err):
		// Without our name, as compilers do: editors jump to file:line.
		fmt.Fprintln(errw, legible(err.Error()))
	default:
		fmt.Fprintln(errw, "evenpull:", legible(err.Error()))
	}
	if byCommandLine(err) {
		fmt.Fprintln(errw, "Run it with --help to see what it takes.")
		return exitUsage
	}
	return exitInput
}

// byCommandLine tells whether the command line is at fault: it says so itself,
// or all that is wrong came from --set.
func byCommandLine(err error) bool {
	var usage usageError
	var apart *sim.Error
	return errors.As(err, &usage) || errors.As(err, &apart) && apart.Fault.BySet()
}

// inScenario tells whether the error says itself where in a scenario it is.
func inScenario(err error) bool {
	var faults scenario.Faults
	var apart *sim.Error
	return errors.As(err, &faults) || errors.As(err, &apart)
}

func newRoot(s streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "evenpull",
		Short: "Compute the run-down of a spring-driven clock with a fusee",
		Long: `Evenpull computes the run-down of a spring-driven clock with a fusee from a
scenario: spring, barrel, line, fusee, wheels, and escapement or hammers and fly.
It tells the torque at every turn, whether the drive suits what the train needs,
and why; the pendulum's arc and rate, or how the train strikes.

Start with "evenpull run", which runs down a sample; "evenpull init my.toml"
writes a commented scenario to put your own measurements into.`,
		Example: `  evenpull run
  evenpull samples
  evenpull init my-clock.toml
  evenpull run my-clock.toml --plot my-clock.svg`,
		Args:          usageArgs(cobra.NoArgs),
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.SetFlagErrorFunc(flagFault)
	root.Version = thisBuild().String()
	root.SetVersionTemplate("{{.Version}}")
	root.AddCommand(newRun(s), newSweep(s), newRank(s), newSpread(s), newSetup(s), newRecord(s), newAssign(s), newReport(s), newChoose(s), newCut(s), newBeat(s), newSchema(s), newSamples(s), newInit(s), newMan(s), newVersion(s))
	return root
}

// flagFault says in plain words which value a flag does not take.
func flagFault(_ *cobra.Command, err error) error {
	var value *pflag.InvalidValueError
	if !errors.As(err, &value) {
		return usageError{err}
	}
	want := map[string]string{"float64": "a number", "int": "a whole number", "int64": "a whole number"}[value.GetFlag().Value.Type()]
	switch text := value.GetValue(); {
	case want == "":
		return usageError{err}
	case scenario.DecimalComma(text):
		want += " with a decimal point, such as " + strings.Replace(text, ",", ".", 1)
	}
	return usagef("--%s: found %q; want %s", value.GetFlag().Name, value.GetValue(), want)
}

// usageArgs makes the faults of an argument check faults of the command line.
func usageArgs(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if err := check(c, args); err != nil {
			if c.HasSubCommands() && len(args) > 0 {
				return usagef("there is no command %q; there are %s", args[0], commands(c))
			}
			return usageError{err}
		}
		return nil
	}
}

// commands lists those of a command, in the order of its help.
func commands(c *cobra.Command) string {
	var names []string
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			names = append(names, sub.Name())
		}
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}
