package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"

	"github.com/spf13/cobra"
)

// benchFlags are those of the commands that read a bench file.
type benchFlags struct {
	flags
	scenario string
}

// register adds the flags; plot says what is drawn.
func (f *benchFlags) register(c *cobra.Command, scenarioUse, plot string) {
	c.Flags().StringVar(&f.scenario, "scenario", "", scenarioUse)
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of the scenario, in any unit of its kind: `KEY=VALUE` (repeatable)")
	f.registerOutput(c, plot)
	completeWords(c, "scenario", scenarios.Names()...)
	c.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return scenarios.BenchNames(), cobra.ShellCompDirectiveDefault
	}
}

// load judges the flags, reads bench file and scenario, and puts the one into the other: the
// clock is nil when no scenario is asked for.
func (f *benchFlags) load(c *cobra.Command, s streams, args []string) (b *book.Book, clock *found.Clock, err error) {
	if err := f.checkOutput(c, s); err != nil {
		return nil, nil, err
	}
	name := argument(args, sampleMark+scenarios.DefaultBench)
	if f.scenario == "" && len(f.set) > 0 {
		return nil, nil, usagef("--set goes with --scenario")
	}
	if name == "-" && f.scenario == "-" {
		return nil, nil, usagef("standard input can be the bench file or the scenario, not both")
	}
	if b, err = openBook(c, s, args, name); err != nil {
		return nil, nil, err
	}
	f.command, f.title = c.Name(), b.Title
	if f.scenario == "" {
		return b, nil, nil
	}
	sc, err := f.read(s, f.scenario)
	if err != nil {
		return nil, nil, err
	}
	clock, err = clockOf(c.Context(), b, sc)
	return b, clock, err
}

// recordFlags are the flags of record.
type recordFlags struct {
	benchFlags
	fit    []string
	spring string
	save   string
}

func newRecord(s streams) *cobra.Command {
	var f recordFlags
	c := &cobra.Command{
		Use:   "record [FILE]",
		Short: "Work out what was measured at the bench",
		Long: `Record reads a bench file: weights hung from a pulley on the winding square until
a train just runs or strikes as liked, and torques read at the square at each turn
of the fusee, several times over. It tells what each train needs and what each
spring gives, each with the range in which the true figure lies nineteen times in
twenty, by how the repeats scatter and by the meter's bound and step (JCGM 100).
Readings that lie far off are marked, never dropped; a drift from repeat to repeat
is told. "evenpull help bench" tells what stands in the file and how to measure it,
"evenpull help readings" what the answer means.

Weights that went up and down, with three and more that stopped and as many that ran,
tell the need with its error (Dixon and Mood, 1948).

Run-downs differ as wholes, by how the coils lie that time. Each counts as one, and
how far they differ, as a share of the torque, is gathered over all springs that the
same meter read: with two run-downs of one spring alone the range is wide.

With --scenario each train and each spring read in it has a line that answers: what the
train needs, what the spring gives, whether it suits and how sure that is, and how thick,
long and hard a strip its readings make it, together with what was measured of it. The
book is then checked against the scenario: a train that it does not have, readings that
begin run down, or too few of them are asked about. --full adds trials, readings turn by
turn beside the prediction, and notes.

--fit finds the inputs, one to four, that explain the readings, each with its range, and
which of them cannot be told apart: "--fit going.mainspring.thickness_mm" tells how
thick the spring acts. Width, coil efficiency and line efficiency only scale the torque,
so fit one of them at a time. --save writes the scenario with the fitted values, and
where they came from, into a new file.

FILE is a file, a sample, or a hyphen for what another program hands over; left out, the
sample.`,
		Example: `  evenpull record
  evenpull record mixed-barrels --scenario three-trains --plot readings.svg --force
  evenpull record --scenario three-trains --spring C --fit going.mainspring.thickness_mm,going.mainspring.efficiency
  evenpull record --scenario three-trains --spring C --fit going.barrel.set_up_turns --save fitted.toml --force
  evenpull record --format json`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runRecord(c, s, &f, args) },
	}
	f.register(c, "`scenario` to compare the readings with: a file, - or a sample", "also draw readings, prediction and residuals")
	c.Flags().StringSliceVar(&f.fit, "fit", nil, "`KEYs` of the inputs to fit to the readings, with commas between them")
	c.Flags().StringVar(&f.spring, "spring", "", "the `label` of the spring to fit, when several were read in the train")
	f.registerDraws(c)
	c.Flags().StringVar(&f.save, "save", "", "write the scenario with the fitted values into this `file`")
	return c
}

func runRecord(c *cobra.Command, s streams, f *recordFlags, args []string) error {
	switch {
	case f.scenario == "" && len(f.fit) > 0:
		return usagef("--fit goes with --scenario")
	case len(f.fit) == 0 && (f.save != "" || f.spring != ""):
		return usagef("--save and --spring go with --fit")
	case f.save != "" && (f.scenario == "-" || len(f.set) > 0):
		return usagef("--save writes the scenario as its file has it, with the fitted values: it goes neither with --set nor with standard input")
	}
	b, clock, err := f.load(c, s, args)
	if err != nil {
		return err
	}
	st, err := assign.RecordOf(c.Context(), b, clock, false, f.draws, firstSeed)
	if err != nil {
		return err
	}
	if len(f.fit) > 0 {
		if st.Explained, err = f.explain(c.Context(), st.Study, clock.Given); err != nil {
			return err
		}
	}
	if f.save != "" {
		if err := f.saveFitted(c.Context(), s, st.Study); err != nil {
			return err
		}
	}
	return shown[assign.Record]{
		plot: chart.Record, text: text.Bench, document: data.Bench(), seed: f.seedIf(st.Judged != nil),
		cautions: func(r *assign.Record) []string { return words.RecordCautions(r.Study) },
	}.write(c.Context(), s, &f.flags, st)
}

// explain fits the inputs to the readings of one spring.
func (f *recordFlags) explain(ctx context.Context, st *readings.Study, sc *scenario.Scenario) (*readings.Explanation, error) {
	train := ""
	for _, key := range f.fit {
		owner, _, _ := strings.Cut(key, ".")
		if slices.ContainsFunc(sc.Trains, func(t scenario.Train) bool { return t.Name == owner }) {
			train = owner
			break
		}
	}
	sp := st.Find(f.spring, train)
	if sp == nil {
		labels := make([]string, len(st.Springs))
		for i := range labels {
			labels[i] = fmt.Sprintf("%s in the %s train", st.Springs[i].Spring, st.Springs[i].Train)
		}
		return nil, usagef("--fit: want one spring to fit, by --spring and the train of the KEYs; there are: %s", strings.Join(labels, ", "))
	}
	e, err := readings.Explain(ctx, *sp, sc, f.fit)
	if errors.Is(err, readings.ErrInputs) {
		return nil, usagef("--fit: %w", err)
	}
	for _, key := range f.fit {
		err = keyFault("fit", key, err)
	}
	return e, err
}

// saveFitted writes the scenario with the fitted values.
func (f *recordFlags) saveFitted(ctx context.Context, s streams, st *readings.Study) error {
	original, err := textOf(s, ofScenario, f.scenario)
	if err != nil {
		return err
	}
	var changes []scenario.Change
	for _, in := range st.Explained.Inputs {
		value, err := strconv.ParseFloat(fmt.Sprintf("%.7g", in.Value), 64) // more is noise
		if err != nil {
			return err
		}
		changes = append(changes, scenario.Change{Key: in.Key, Value: value,
			Remark: fmt.Sprintf("fitted to the readings of spring %s in %s; before %.6g", st.Explained.Spring, filepath.Base(st.Book.Source), in.Before)})
	}
	edited, err := scenario.Edit(original, changes)
	if err != nil {
		return err
	}
	if err := writeFile(ctx, f.save, f.force, func(w io.Writer) error { _, err := io.WriteString(w, edited); return err }); err != nil {
		return err
	}
	s.say("scenario with the fitted values written to %s", f.save)
	return nil
}
