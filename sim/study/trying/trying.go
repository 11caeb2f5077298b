// Package trying answers at once what a train does with some of its inputs changed by hand:
// the run-down, how sure its verdict is, where the verdicts of other values lie, and what
// follows from what. A trial is a what-if of package vary; values are by KEY and in the unit
// of the KEY (terms: package sim). An input is moved along a rule, a scale about the value
// that was found; the verdicts along it are those of the trial with that value alone moved.
// They are found at 60 places of the rule, the border of two to a two-thousandth of it: a
// verdict that holds between two places only is not seen. The set-up that makes the torque
// most even is that of package setup.
package trying

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"

	"golang.org/x/sync/errgroup"
)

// Bench is a train of a scenario on the bench, as it was found. It is never changed, and may
// be asked by several goroutines at once.
type Bench struct {
	Found  *scenario.Scenario // the scenario as it was found
	Number int                // of the train
	most   float64            // turns of set-up that its spring has room for
	fill   float64            // share of the barrel that it fills
}

// New puts the train with the given number on the bench. It fails when the scenario as it is
// cannot be run.
func New(s *scenario.Scenario, number int) (*Bench, error) {
	b := &Bench{Found: s, Number: number}
	m, err := vary.New(s, number, vary.Length, b.Key(SetUp))
	if err != nil {
		return nil, err
	}
	_, d := m.Own()
	b.fill, b.most = d.Spring.Fill, max(d.Spring.Available-d.Spring.Used, 2*d.Spring.SetUp, 1)
	return b, nil
}

// The inputs that are always on the bench, below the train.
const (
	Thickness = "mainspring.thickness_mm"
	Width     = "mainspring.width_mm"
	Length    = "mainspring.length_mm"
	SetUp     = "barrel.set_up_turns"
)

// Key is the KEY of an input of the train.
func (b *Bench) Key(below string) string { return b.Found.Trains[b.Number].Name + "." + below }

// Ask is a trial.
type Ask struct {
	Set    map[string]float64 // by KEY, in its unit: these stay, whatever follows
	Hold   vary.Hold          // what of the strip stays
	Fill   float64            // with vary.Fill, the share of the barrel that it fills; NaN: that of the scenario as found
	Even   bool               // the set-up is the one that makes the torque most even
	Rules  []string           // KEYs whose rule is asked for
	Tracks []string           // KEYs whose verdicts over the whole rule are asked for
	Draws  int                // to tell how sure the verdict is; 0: none
}

// Seed is that of the draws.
const Seed = 1

// Errors of what is asked: of a KEY of another train, of more than 40 inputs or 12 rules, of
// draws, and of Fill.
var (
	ErrApart = errors.New("this is no input of the train")
	ErrMany  = fmt.Errorf("want at most %d inputs changed and %d rules", mostSet, mostRules)
	ErrDraws = fmt.Errorf("want 0 to %d draws", sure.Draws)
	ErrFill  = errors.New("want a share of the barrel above 0 and up to 1")
)

const (
	mostSet   = 40
	mostRules = 12
)

// Answer is what a trial comes to.
type Answer struct {
	Trial   *scenario.Scenario   // with every change made; nil where one cannot be
	Clock   *sim.Clock           // with the one train; nil where it cannot be built
	Fault   error                // why
	Values  map[string]float64   // by KEY, of all that was changed, has a rule, or followed
	Even    *sim.Digest          // with the set-up that makes it most even of those that keep turns to spare, or, where none does, of all; nil where the fusee cannot be wound
	Rules   map[string]Rule      // by KEY, those asked for
	Tracks  map[string][]Stretch // by KEY, likewise
	Low, Up []float64            // N·m, ends of the 95 % range of the torque at each row, as if it were normal, by the first 256 draws at most; nil without 20 that ran over the same rows
	Whole   bool                 // the sureness is that of all draws
}

// Result is the run of the train; nil where it cannot be built.
func (a *Answer) Result() *sim.Result {
	if a.Clock == nil {
		return nil
	}
	return &a.Clock.Trains[0]
}

// Try answers. It fails where it is asked for what is no question about the train, and with
// the error of ctx; that a trial cannot be built is an answer.
func (b *Bench) Try(ctx context.Context, q *Ask) (*Answer, error) {
	if err := b.check(q); err != nil {
		return nil, err
	}
	a := &Answer{Values: maps.Clone(q.Set), Rules: map[string]Rule{}, Tracks: map[string][]Stretch{}, Whole: q.Draws == sure.Draws}
	if a.Values == nil {
		a.Values = map[string]float64{}
	}
	b.follow(ctx, q, a)
	for _, key := range slices.Concat(q.Rules, q.Tracks) {
		b.rule(a, key)
	}
	if a.Trial == nil {
		return a, ctx.Err()
	}
	if err := b.run(a); err != nil {
		a.Fault = err
		return a, ctx.Err()
	}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error { return b.judge(ctx, q, a) })
	if !q.follows(b) {
		group.Go(func() error { a.Even = b.even(ctx, a.Trial); return nil })
	}
	tracks := make([][]Stretch, len(q.Tracks))
	for i, key := range q.Tracks {
		group.Go(func() (err error) {
			tracks[i], err = b.track(ctx, q, a, key)
			return err
		})
	}
	err := group.Wait()
	for i, key := range q.Tracks {
		a.Tracks[key] = tracks[i]
	}
	return a, err
}

// check judges what is asked.
func (b *Bench) check(q *Ask) error {
	if len(q.Set) > mostSet || len(q.Rules) > mostRules || len(q.Tracks) > mostRules {
		return ErrMany
	}
	if q.Draws < 0 || q.Draws > sure.Draws {
		return ErrDraws
	}
	if q.Fill <= 0 || q.Fill > 1 {
		return ErrFill
	}
	for _, key := range slices.Concat(slices.Collect(maps.Keys(q.Set)), q.Rules, q.Tracks) {
		if _, err := b.Found.Quantity(key); err != nil {
			return err
		}
		if !vary.Concerns(b.Found, b.Number, key) {
			return fmt.Errorf("%s: %w", key, ErrApart)
		}
	}
	return nil
}

// follow makes the changes, and what follows from them.
func (b *Bench) follow(ctx context.Context, q *Ask, a *Answer) {
	if _, byHand := q.Set[b.Key(Length)]; q.Hold == vary.Fill && !byHand {
		a.Values[b.Key(Length)] = b.filling(q, a.Values)
	}
	if a.Trial, a.Fault = b.with(a.Values); a.Fault != nil {
		return
	}
	if !q.follows(b) {
		return
	}
	if a.Even = b.even(ctx, a.Trial); a.Even != nil {
		a.Values[b.Key(SetUp)] = a.Even.Spring.SetUp
		a.Trial, a.Fault = b.with(a.Values)
	}
}

// follows tells whether the set-up follows what makes the torque most even.
func (q *Ask) follows(b *Bench) bool {
	_, byHand := q.Set[b.Key(SetUp)]
	return q.Even && !byHand
}

// even is the trial with the set-up that makes its torque most even; nil where none lets the
// fusee be wound.
func (b *Bench) even(ctx context.Context, s *scenario.Scenario) *sim.Digest {
	m, err := vary.Drive(s, b.Number, b.Key(SetUp))
	if err != nil {
		return nil
	}
	st, err := setup.Of(ctx, m)
	if err != nil {
		return nil
	}
	return &st.Best
}

// with is the scenario as found, with values changed.
func (b *Bench) with(values map[string]float64) (*scenario.Scenario, error) {
	s := b.Found.Clone()
	var sets []string
	for _, key := range slices.Sorted(maps.Keys(values)) {
		if at, err := s.Value(key); err == nil && *at != values[key] {
			sets = append(sets, key+"="+strconv.FormatFloat(values[key], 'g', -1, 64))
		}
	}
	if err := vary.Apply(s, sets); err != nil {
		return nil, err
	}
	return s, nil
}

// value is a value of the trial, or as found.
func (b *Bench) value(values map[string]float64, below string) float64 {
	key := b.Key(below)
	if v, ok := values[key]; ok {
		return v
	}
	if v, err := b.Found.Value(key); err == nil {
		return *v
	}
	return math.NaN()
}

// filling is the length (mm, to 0.1) at which the strip fills the share of the barrel that
// is to be kept.
func (b *Bench) filling(q *Ask, values map[string]float64) float64 {
	fill := q.Fill
	if math.IsNaN(fill) {
		fill = b.fill
	}
	return math.Round(10*b.lengthAt(fill, values)) / 10
}

// lengthAt is the length (mm) at which the strip of a trial fills a share of its barrel.
func (b *Bench) lengthAt(fill float64, values map[string]float64) float64 {
	t := &b.Found.Trains[b.Number]
	found, barrel := vary.StripOf(t), t.Barrel
	barrel.InsideDiameterMM, barrel.ArborDiameterMM = b.value(values, "barrel.inside_diameter_mm"), b.value(values, "barrel.arbor_diameter_mm")
	return found.Filling(b.value(values, Thickness), &barrel) * fill / b.fill
}

// run runs the trial down.
func (b *Bench) run(a *Answer) (err error) {
	a.Clock, err = sim.RunClock(a.Trial, sim.Options{Step: sim.QuarterTurn}, a.Trial.Trains[b.Number].Name)
	return err
}

// judge tells how sure the verdict is, and between which torques the draws lie.
func (b *Bench) judge(ctx context.Context, q *Ask, a *Answer) (err error) {
	verdict := &a.Result().Verdict
	if q.Draws == 0 || verdict.Code == rules.Unjudged {
		return nil
	}
	v := veilOver(a.Result().Rows)
	o := sure.Options{Draws: q.Draws, Seed: Seed, Brief: q.Draws < sure.Draws, Seen: v.add}
	verdict.Sureness, err = sure.Of(ctx, a.Trial, b.Number, o)
	a.Low, a.Up = v.ends()
	return err
}
