package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/drawing"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"

	"github.com/spf13/cobra"
)

// cutFlags are the flags of cut.
type cutFlags struct {
	flags
	cut.Options
	large, small float64 // mm, diameters
	sheet        string  // paper of the drawing
}

func newCut(s streams) *cobra.Command {
	var f cutFlags
	c := &cobra.Command{
		Use:   "cut [SCENARIO]",
		Short: "Work out the cone for a spring",
		Long: `Cut tells whether the cone of a fusee suits its spring, by the verdict that run
gives: as it is, with another set-up as setup advises it, or not, and then another
spring comes first. It tells how even the torque is as it is, with another set-up
and nothing cut, and once the cone is cut; whether cutting is advised, with the
rules that decide; and how sure the verdicts are (see "evenpull help sure").

Where cutting is advised, or with --anyway, it tells the cone turn by turn: the diameter
to cut over groove and lands, what comes off, the torque before and after, the free line
and its fleet angle; and the groove, the line, and what the train does when the spring
turns out 0.01 mm off its thickness. CSV and JSON have these always, and JSON says
whether cutting is advised.

Metal only comes off an existing cone. Of the even profiles that fit inside it the
largest is taken, and of the set-ups in whole clicks, from 0.25 turns up, the one
that takes the least metal off while it leaves the spring the turns to spare, where
there is one; the scenario's set-up is kept where the verdict is better with it, and
with --keep-set-up. A cone asked to be even is cut for its spring already.

--from-blank makes a new cone, for the set-up of the scenario: from the end that the
scenario gives when it asks for an even cone, else from the large end it has, or
from the end given by --large-mm or --small-mm. Diameters are over the groove
bottoms.

Where there is no cone yet (profile = "wanted" in [train.fusee]) cut searches one within
the limits that stand beside it: "evenpull help cone" has them all.

--drawing makes a working drawing at true size: the blank with lands, groove and end
margins, the great-wheel end, the hand of the groove and the way of winding, the section
of the groove larger, and every diameter over groove and lands with its distance from the
face at the great-wheel end. A cone that is not advised to be cut is drawn as it is, but
with --anyway. Print it without scaling and check the bar on it. It is laid
on sheets of --sheet; what is too long goes over several, with crosses to join them by. A
PDF has all sheets; as SVG and PNG each sheet is a file, FILE.svg, FILE-2.svg and so on.
A PNG has 300 dots to the inch.

Cutting a fusee cannot be undone. On a historic clock fit a spring that suits the
cone in its place.`,
		Example: `  evenpull cut
  evenpull cut too-strong --keep-set-up --anyway
  evenpull cut --from-blank --large-mm 34 --step 0.5
  evenpull cut three-trains --train striking --drawing cone.svg --force
  evenpull cut --from-blank --large-mm 34 --drawing cone.pdf --sheet A3 --force
  evenpull cut --format csv --step 0.25
  evenpull cut too-weak --plot cone.png --force`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runCut(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the first", "also draw diameters and torque before and after")
	f.registerDraws(c)
	f.atBench.register(c)
	c.Flags().BoolVar(&f.FromBlank, "from-blank", false, "make a new cone, rather than cut within the present one")
	c.Flags().BoolVar(&f.Anyway, "anyway", false, "show the even cone also where cutting is not advised")
	c.Flags().BoolVar(&f.KeepSetUp, "keep-set-up", false, "cut for the scenario's set-up, whatever metal that takes off")
	optional(c, &f.large, "large-mm", "`diameter` of the large end, mm, from blank")
	optional(c, &f.small, "small-mm", "`diameter` of the small end, mm, from blank")
	c.Flags().Float64Var(&f.Step, "step", 1, "fusee `turns` between rows")
	c.Flags().StringVar(&f.drawing, "drawing", "", "also draw the cone at its true size into this `file`: .svg, .pdf or .png")
	c.Flags().StringVar(&f.sheet, "sheet", papers()[0], "`paper` of the drawing, lying: "+strings.Join(papers(), ", "))
	completeWords(c, "sheet", papers()...)
	return c
}

func runCut(c *cobra.Command, s streams, f *cutFlags, args []string) error {
	if err := f.check(c); err != nil {
		return err
	}
	f.Large, f.Small = f.large/2e3, f.small/2e3
	f.Draws, f.searches = f.sureness(), true
	st, err := ofTrain(c, s, &f.flags, args, func(ctx context.Context, sc *scenario.Scenario, number int) (*cut.Study, error) {
		if err := f.checkWanted(c, &sc.Trains[number]); err != nil {
			return nil, err
		}
		st, err := cut.Run(ctx, sc, number, f.Options)
		if err == nil && f.draws > 0 {
			err = st.Sure(ctx, sc, number, *f.sureness())
		}
		return st, err
	})
	if err != nil {
		return f.endFault(c, err)
	}
	if st.None() && (f.plot != "" || f.drawing != "") {
		return fmt.Errorf("%s: nothing is drawn", words.CutHead(st, rules.Code.String))
	}
	cone := func(look chart.Look, st *cut.Study) (chart.Files, error) {
		paper, _ := drawing.PaperOf(f.sheet)
		list, err := drawing.Cone(st, paper, look.Form)
		if err != nil {
			return nil, usagef("--drawing %s: %v", f.drawing, err)
		}
		return list, nil
	}
	return shown[cut.Study]{plot: chart.Cut, drawing: cone, blank: st.None(), text: text.Cut, document: data.Cut(), seed: f.seedIf(true), cautions: words.CutCautions}.
		write(c.Context(), s, &f.flags, st)
}

// papers are the names that --sheet takes.
func papers() (names []string) {
	for _, p := range drawing.Papers() {
		names = append(names, p.Name)
	}
	return names
}

// check judges the flags that are cut's own.
func (f *cutFlags) check(c *cobra.Command) error {
	if !(f.Step >= cut.MinStep && f.Step <= scenario.MaxTurns) {
		return usagef("--step %.6g: want fusee turns from %v to %v", f.Step, cut.MinStep, scenario.MaxTurns)
	}
	for name, v := range map[string]float64{"large-mm": f.large, "small-mm": f.small} {
		switch given := c.Flags().Changed(name); {
		case given && !f.FromBlank:
			return usagef("--%s goes with --from-blank: from an existing cone metal only comes off", name)
		case given && !(v >= cut.MinDiameter && v <= cut.MaxDiameter):
			return usagef("--%s %.6g: want a diameter from %v to %v mm", name, v, cut.MinDiameter, cut.MaxDiameter)
		}
	}
	if c.Flags().Changed("large-mm") && c.Flags().Changed("small-mm") {
		return usagef("--large-mm and --small-mm: want one of them; an even cone for a spring has no room for both")
	}
	if _, known := drawing.PaperOf(f.sheet); !known {
		return usagef("--sheet %q: want %s", f.sheet, strings.Join(papers(), ", "))
	}
	if c.Flags().Changed("sheet") && f.drawing == "" {
		return usagef("--sheet goes with --drawing")
	}
	if f.KeepSetUp && f.FromBlank {
		return usagef("--keep-set-up goes without --from-blank, which keeps it anyway")
	}
	return nil
}

// checkWanted refuses the flags that are about a cone that is there where one is wanted.
func (f *cutFlags) checkWanted(c *cobra.Command, t *scenario.Train) error {
	if t.Fusee.Profile != scenario.Wanted {
		return nil
	}
	for _, name := range []string{"from-blank", "keep-set-up"} {
		if c.Flags().Changed(name) {
			return usagef("--%s: the %s train has no cone yet; what it has to keep within stands in the scenario (fusee.profile = %q)", name, t.Name, scenario.Wanted)
		}
	}
	return nil
}

// endFault lays a fault of an end asked for at its flag.
func (f *cutFlags) endFault(c *cobra.Command, err error) error {
	var apart *sim.Error
	if !errors.As(err, &apart) || !strings.Contains(apart.Fault.Key, ".fusee.") {
		return err
	}
	for name, v := range map[string]float64{"large-mm": f.large, "small-mm": f.small} {
		if c.Flags().Changed(name) {
			return usagef("--%s %.6g: %s; %s", name, v, apart.Fault.Found, apart.Fault.Want)
		}
	}
	return err
}
