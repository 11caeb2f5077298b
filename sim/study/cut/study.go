// Package cut works out the cone for a spring: what must come off an existing one, or a new
// one from blank, and whether the cone suits the spring as it is.
//
// The cone that is cut makes the torque at the fusee constant: with ρ the radius of the line's
// middle on it, Rb that on the barrel and M the couple of the spring, ρ = C Rb/M where the
// fusee's pivots lose nothing, with C = ∫M dφ/n, φ the turns of the spring and n those of the
// fusee (package fusee has the rest, package sim the terms). Within an existing cone it is the
// largest such profile, since metal only comes off, and the set-up is the one, in whole
// clicks, that takes the least. From blank the radius of one end is given or taken from the
// scenario. A train that has no cone gets one searched within the limits that the scenario
// states. Groove, lands (what stands between two turns of the groove) and margins (bare cone
// beyond its ends) follow common practice without a source. All is SI but where it says mm.
//
// The pull is even for the spring that was computed: Sensitivity tells what one off its
// thickness makes of it. To cut cannot be undone, and the study says where rules advise
// against it.
package cut

import (
	"context"
	"errors"
	"math"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"
)

// Options of a study.
type Options struct {
	FromBlank bool    // a new cone; else within the present one
	Large     float64 // m, from blank: radius of the large end's groove bottom; NaN: the scenario's
	Small     float64 // m, from blank: likewise of the small end, in place of Large; NaN: not given
	Anyway    bool    // the cone is shown although cutting is not advised
	KeepSetUp bool    // within a cone: leave the set-up as it is
	Step      float64 // fusee turns between rows, 0 for 1
	// Draws are those by which a wanted cone is searched; nil: it is searched without.
	Draws *sure.Options
}

const (
	MinStep     = 0.05   // fusee turns, the finest step between rows
	MinDiameter = 0.5    // mm, of an end asked for
	MaxDiameter = 2000.0 // mm, likewise
)

// Way is the train with a cone that is cut.
type Way struct {
	sim.Digest
	Removal
	Fault error // why it cannot be had; then there are no figures
}

// Run is the run-down; nil where the way cannot be had.
func (w *Way) Run() *sim.Digest { return w.Digest.Where(w.Fault == nil) }

// Study is the answer.
type Study struct {
	Title string     // of the scenario
	Train *sim.Train // as the scenario has it, an even cone cut
	Cut   sim.Train  // with the cone to cut and its set-up
	Options

	Now     sim.Digest   // the train as it is
	Search  *setup.Study // for a set-up with nothing cut; nil when the fusee cannot be wound fully with any
	Present Way          // cut, with the present set-up; within a cone only
	Least   Way          // cut, with the set-up in whole clicks that takes the least metal off; likewise
	After   Way          // the one that the rows are for
	Kept    bool         // After keeps the present set-up
	Uncut   bool         // the cone is left as it is, and shown so, although another could be cut
	Nothing bool         // there is nothing to cut, or nothing can be cut: the rows are for the cone as it is
	Wanted  *Wanted      // the search, of a train that has no cone; the rest is of the best that was found, as from blank
	Refused error        // why no even cone can be cut within this one, an error of package fusee; nil when one can
	Binding bool         // it is the spring, nearly home, that leaves no room for a larger cone

	Span        float64 // m, of line between fusee and barrel when wound; NaN when not known
	Groove      Groove
	Blank       Blank
	Rows        []Row // from the small end
	Sensitivity Sensitivity
	Whole       float64 // unevenness of a cone turned to the diameters at whole turns and joined smoothly; NaN when the turns are not whole
	Between     bool    // most comes off between the turns at which the present cone was measured
}

// leastSpare are the turns to spare without which no cone is cut: nearer home the
// couple is so steep that no lathe makes it even (common practice, no source).
const leastSpare = 0.05

// Run works the cone out for the train with the given number. It fails when the
// scenario as it is cannot be run, when no even cone can be had from blank or with
// the set-up to be kept, and with the error of ctx. Where any even cone within the
// present one would be too thin, the study tells so as Refused.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	if o.Step == 0 {
		o.Step = 1
	}
	o.Step = math.Max(o.Step, MinStep)
	k := &worker{s: s, number: number, st: &Study{Options: o, Title: s.Title}}
	name := s.Trains[number].Name
	k.keys = []string{name + ".barrel.set_up_turns", name + ".mainspring.thickness_mm"}
	if s.Trains[number].Fusee.Profile == scenario.Wanted {
		return k.searched(ctx)
	}
	if err := k.asItIs(ctx); err != nil {
		return nil, err
	}
	steps := []func() error{k.within, k.sense, k.figures}
	if o.FromBlank {
		steps[0] = k.blank
	}
	for _, step := range steps {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := step(); err != nil {
			return nil, err
		}
	}
	return k.st, nil
}

// worker is a study on its way.
type worker struct {
	s      *scenario.Scenario
	number int
	keys   []string // of set-up and thickness
	st     *Study
	wound  fusee.Wound // the scenario's drive, its cone cut
	cone   fusee.Cone  // to be cut
}

// asItIs runs the train with nothing changed, and looks for another set-up with
// nothing cut.
func (k *worker) asItIs(ctx context.Context) error {
	m, err := vary.New(k.s, k.number, vary.Length, k.keys[0])
	if err != nil {
		return err
	}
	own, now := m.Own()
	k.st.Train, k.st.Now = own, *now
	if k.wound, err = own.Drive.Wind(); err != nil {
		return sim.Blame(k.s, k.number, err)
	}
	if k.st.Search, err = setup.Of(ctx, m); errors.Is(err, setup.ErrNoRoom) {
		return nil
	}
	return err
}

// drive is the train with a cone, already cut, and a set-up.
func (k *worker) drive(cone fusee.Cone, setUp float64) (Way, error) {
	m, err := vary.WithCone(k.s, k.number, cone, k.keys...)
	if err != nil {
		return Way{}, err
	}
	r, err := m.Run([]float64{setUp, m.Nominal()[1]})
	if err != nil {
		return Way{}, err
	}
	way := Way{Digest: r.Digest, Removal: removal(&k.st.Train.Drive.Cone, &cone)}
	way.Line.OnFusee = cone.GrooveLength(r.Train.Drive.Line.Thickness) // a steep end is more than a run's steps see
	return way, nil
}

// fault lays an error at a key of the scenario.
func (k *worker) fault(key, found, want string, err error) error {
	return &sim.Error{Fault: k.s.FaultAt(k.number, key, found, want), Err: err}
}

// Sure tells of the train as it is, and once the cone is cut, how sure the verdicts are. It
// fails with the errors of sure.Of.
func (st *Study) Sure(ctx context.Context, s *scenario.Scenario, number int, o sure.Options) error {
	if st.Wanted != nil {
		return st.sureOfBest(ctx, number, o)
	}
	if st.Search != nil {
		if err := st.Search.Sure(ctx, s, number, o); err != nil {
			return err
		}
		st.Now.Verdict.Sureness = st.Search.Now.Verdict.Sureness
	}
	var err error
	if st.Search == nil {
		st.Now.Verdict.Sureness, err = sure.Of(ctx, s, number, o)
	}
	if st.After.Verdict.Sureness = st.Now.Verdict.Sureness; err != nil || st.Nothing {
		return err
	}
	o.Anew, o.Cone = true, &st.Cut.Drive.Cone
	st.After.Verdict.Sureness, err = sure.Variant(ctx, s, number, o, func(t *scenario.Train) { t.Barrel.SetUpTurns = st.After.Spring.SetUp })
	of := &st.Least
	if st.Kept {
		of = &st.Present
	}
	of.Verdict.Sureness = st.After.Verdict.Sureness
	return err
}
