package main

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	strip "evenpull/fusee/mainspring/coils"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/drawing"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"

	"github.com/spf13/cobra"
)

// coilsFlags are the flags of coils.
type coilsFlags struct {
	flags
	friction float64
	end      string
	turns    windings
	nodes    int
}

func newCoils(s streams) *cobra.Command {
	var f coilsFlags
	c := &cobra.Command{
		Use:   "coils [SCENARIO]",
		Short: "Wind the mainspring up and let it run down coil by coil",
		Long: `Coils takes the mainspring of a train as one curve in its barrel, whose coils press
and rub on each other, on arbor and wall. It winds it up, lets it run down, and tells
the couple both ways at each winding, without friction, and by the closed form that
every other command goes by; where the strip rests and where it is solid; and in JSON
how the coils lie and where they press. "evenpull help strip" tells how to read it.

--friction and --end are, left out, what [train.mainspring] has as friction_coefficient
and outer_end; 0.1 and hooked where it has none. Turns are those of the mainspring, from
where the closed form rests, in --turns too.

It leaves out oil, camber and twist. All half turns together take some twenty seconds;
fewer --nodes take less, and more are finer.`,
		Example: `  evenpull coils --turns 1,2,3 --nodes 24
  evenpull coils --end braced --friction 0.15 --turns 2,2.5 --nodes 24
  evenpull coils three-trains --train striking --turns 3 --nodes 24 --format json`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runCoils(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the first", "also draw the loop of the couple")
	c.Flags().StringVar(&f.drawing, "drawing", "", "also draw how the coils lie and press into this `file`: .svg, .png or .pdf")
	c.Flags().StringVar(&f.animation, "animation", "", "also draw the coils as they are wound up and run down into this `file`: .svg moves, .png and .pdf are a sheet of frames")
	optional(c, &f.friction, "friction", "`coefficient` of friction between the coils, from 0 to 0.5")
	c.Flags().StringVar(&f.end, "end", "", "`how` the outer end is held: "+strings.Join(scenario.Ends(), " or "))
	c.Flags().Var(&f.turns, "turns", "`turns` of the mainspring to tell of, such as 0.5,1,2; left out, every half turn")
	c.Flags().IntVar(&f.nodes, "nodes", strip.Usual, "`points` of the strip to solve for, to a turn")
	completeWords(c, "end", scenario.Ends()...)
	return c
}

// windings are turns that rise.
type windings []float64

const wantTurns = "turns that rise, such as 0.5,1,2"

func (w *windings) String() string {
	texts := make([]string, len(*w))
	for i, v := range *w {
		texts[i] = strconv.FormatFloat(v, 'g', -1, 64)
	}
	return strings.Join(texts, ",")
}

func (*windings) Type() string { return "turns" }

// Set reads them.
func (w *windings) Set(text string) error {
	*w = nil
	for _, item := range strings.Split(text, ",") {
		v, err := strconv.ParseFloat(strings.TrimSpace(item), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || len(*w) > 0 && v <= (*w)[len(*w)-1] {
			return errors.New(wantTurns)
		}
		*w = append(*w, v)
	}
	return nil
}

func runCoils(c *cobra.Command, s streams, f *coilsFlags, args []string) error {
	if f.nodes < strip.Fewest || f.nodes > strip.MostNodes {
		return usagef("--nodes %d: want %d to %d to a turn", f.nodes, strip.Fewest, strip.MostNodes)
	}
	if c.Flags().Changed("friction") && !(f.friction >= 0 && f.friction <= strip.MostFriction) {
		return usagef("--friction %.6g: want a coefficient from 0 to %g", f.friction, strip.MostFriction)
	}
	if c.Flags().Changed("end") && !slices.Contains(scenario.Ends(), f.end) {
		return usagef("--end %q: want %s", f.end, strings.Join(scenario.Ends(), " or "))
	}
	sc, number, err := f.loadTrain(c, s, args, nil)
	if err != nil {
		return err
	}
	o, err := f.options(&sc.Trains[number])
	if err != nil {
		return err
	}
	trains, err := sim.Compile(sc, sc.Trains[number].Name)
	if err != nil {
		return err
	}
	ctx := c.Context()
	told, finished := seeking(s)
	o.Told = told
	r, err := coils.Follow(ctx, &trains[0], o)
	finished()
	if err != nil {
		return f.fault(err)
	}
	return shown[coils.Result]{
		plot: chart.Coils, drawing: drawing.Coils, animation: drawing.Animation, text: text.Coils, document: data.Coils(), notes: words.CoilsWarns, cautions: words.CoilsCautions,
	}.write(ctx, s, &f.flags, r)
}

// usualFriction stands where neither the flag nor the scenario has a coefficient (common
// practice, no source).
const usualFriction = 0.1

// options are what the flags ask for, and in their place what the scenario has.
func (f *coilsFlags) options(t *scenario.Train) (coils.Options, error) {
	o := coils.Options{Turns: f.turns, Nodes: f.nodes, Friction: f.friction}
	if m := &t.Mainspring; math.IsNaN(o.Friction) {
		o.Friction = usualFriction
		if scenario.Given(m.FrictionCoefficient) {
			o.Friction = m.FrictionCoefficient
		}
	}
	if o.Friction > strip.MostFriction {
		return o, fmt.Errorf("%s.mainspring.friction_coefficient: found %.6g; want 0 to %g here, or another by --friction", t.Name, o.Friction, strip.MostFriction)
	}
	end := f.end
	if end == "" {
		end = t.Mainspring.OuterEnd
	}
	o.End = scenario.EndOf(end) // hooked where neither tells
	return o, nil
}

// fault lays a fault at its flag.
func (f *coilsFlags) fault(err error) error {
	switch {
	case errors.Is(err, coils.ErrWindings) && f.turns != nil:
		return usagef("--turns: %w", err)
	case errors.Is(err, coils.ErrWindings):
		return fmt.Errorf("%w; the strip has no half turn to itself from where it rests to where it is solid, so ask for --turns", err)
	case errors.Is(err, strip.ErrDiverged), errors.Is(err, strip.ErrEnergy):
		return fmt.Errorf("%w; try other --nodes or --turns", err)
	}
	return err
}
