package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"evenpull/cmd/evenpull/topics"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Exit statuses, part of the contract with scripts.
const (
	exitDone  = 0
	exitInput = 1 // a scenario or a file is at fault
	exitUsage = 2 // the command line is at fault

	exitInterrupted = 130 // as shells have it
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
	read     *reads
	again    *again // what is run once more from what was kept of it; nil otherwise
}

// Main runs the command line and gives its exit status.
func Main(args []string, in io.Reader, out, errw io.Writer) int {
	ctx, stop := interruptible()
	defer stop()
	root := newRoot(streams{in: reading{ctx, in}, out: out, err: errw})
	root.SetArgs(args)
	printed := &minding{to: out}
	root.SetOut(printed)
	err := printable(args)
	if err == nil {
		err = root.ExecuteContext(ctx)
	}
	if err == nil {
		err = printed.err
	}
	switch says := interrupted(ctx, err); {
	case err == nil:
		return exitDone
	case says != "":
		fmt.Fprintf(errw, "evenpull: %s\n", says)
		return exitInterrupted
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

// printable refuses arguments with characters that upset a terminal: a KEY, a value or the
// name of a file is told in messages and on pages.
func printable(args []string) error {
	for i, arg := range args {
		if what := scenario.Unprintable(arg); what != "" {
			return usagef("argument %d, %.60q: found %s; want plain text", i+1, arg, what)
		}
	}
	return nil
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
	s.read = new(reads)
	qs := questions(s)
	root := &cobra.Command{
		Use:   "evenpull",
		Short: "Compute the run-down of a spring-driven clock with a fusee",
		Long: `Evenpull computes the run-down of a spring-driven clock with a fusee from what you
measured of it: spring, barrel, line, fusee, wheels, and escapement or hammers and fly. It
tells the torque at every turn, whether the drive suits what the train needs, and why;
the pendulum's arc and rate, or how the train strikes.`,
		Example: `  evenpull run
  evenpull samples
  evenpull init my-clock.toml
  evenpull run my-clock.toml --plot my-clock.svg`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(c *cobra.Command, _ []string) error {
			_, err := io.WriteString(s.out, wayIn(qs))
			return err
		},
		PersistentPreRunE: func(c *cobra.Command, args []string) error { return checkOutputs(c, s, args) },

		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.SetFlagErrorFunc(flagFault)
	root.Version = thisBuild().String()
	root.SetVersionTemplate("{{.Version}}")
	group(root, qs)
	helpOn(root, qs)
	return root
}

// flagFault says in plain words which value a flag does not take.
func flagFault(_ *cobra.Command, err error) error {
	var value *pflag.InvalidValueError
	if !errors.As(err, &value) {
		return usageError{err}
	}
	kind := value.GetFlag().Value.Type()
	want := map[string]string{"float64": "a number", "int": "a whole number", "int64": "a whole number", "share": wantShare, "turns": wantTurns}[kind]
	if want == "" {
		return usageError{err}
	}
	if cure := scenario.Cure(value.GetValue()); cure != "" && kind != "turns" { // of one number
		want += " " + cure
	}
	return usagef("--%s: found %q; want %s", value.GetFlag().Name, value.GetValue(), want)
}

// usageArgs makes the faults of an argument check faults of the command line.
func usageArgs(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if err := check(c, args); err != nil {
			if c.HasSubCommands() && len(args) > 0 {
				if _, ok := topics.Text(args[0]); ok {
					return usagef("there is no command %[1]q, but a topic: evenpull help %[1]s", args[0])
				}
				return usagef("there is no command %q; there are %s", args[0], commands(c))
			}
			want := strings.TrimSuffix(c.UseLine(), " [flags]")
			if len(args) == 0 {
				return usagef("found no argument; want %s", want)
			}
			return usagef("found %s: %s; want %s", words.Count(len(args), "argument"), strings.Join(args, ", "), want)
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
	return series(names)
}

// series is a list of names in a sentence.
func series(names []string) string {
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}
