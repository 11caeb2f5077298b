// Package letter gathers what the owner of a clock is told: what was found of each train,
// which spring goes where, what to order, and what to measure next. It computes nothing of its
// own: each study has its method and limits in its own package.
package letter

import (
	"context"
	"errors"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sure"
)

// Study is all that a letter tells.
type Study struct {
	Head     book.Letter   // empty without a bench book
	Title    string        // of the clock
	Historic bool          // cutting is never advised
	Trains   []Train       // in the order of the scenario
	Assign   *assign.Study // nil where no springs were read, or nothing can be judged
	Refused  []error       // why a train could not be run
}

// Train is what is told of a train.
type Train struct {
	Name  string            // as the scenario has it
	Now   sim.Digest        // with its spring as the scenario has it, or with the one that goes in
	In    *assign.Pair      // the spring of the bench book that goes in; nil where none does, or none was read
	SetUp *setup.Study      // of that spring; nil where with any set-up it binds, or none is in it
	Order *choose.Study     // from the stock list, where another spring is wanted; nil
	Given *choose.Candidate // what it gets of the list, none given twice; nil for none
}

// Wanted tells whether another spring is to be found for the train.
func (t *Train) Wanted() bool {
	if t.SetUp != nil && t.SetUp.First() != rules.AnotherSpring {
		return false
	}
	s := t.Now.Standing()
	return !s.Sound()
}

// Stored is the energy (J) in the strongest of the springs; NaN where none is known.
func (st *Study) Stored() float64 {
	most := math.NaN()
	for i := range st.Trains {
		if e := st.Trains[i].Now.Spring.Stored; e > most || math.IsNaN(most) {
			most = e
		}
	}
	return most
}

// Of gathers a letter from a scenario, the clock that a bench book made of it, and a stock
// list; both may be nil. Draws tell how sure verdicts are. It fails when the scenario cannot
// be run at all, and with the error of ctx.
func Of(ctx context.Context, s *scenario.Scenario, clock *found.Clock, list *stock.Stock, draws sure.Options) (*Study, error) {
	st := &Study{Title: s.Title, Historic: s.Advice.Historic}
	if clock != nil {
		st.Head, s = clock.Book.Letter, clock.Scenario
		r, err := assign.RecordOf(ctx, clock.Book, clock, true, draws.Draws, draws.Seed)
		if err != nil {
			return nil, err
		}
		st.Assign = r.Judged
	}
	for i := range s.Trains {
		t := Train{Name: s.Trains[i].Name}
		err := t.fill(ctx, st.Assign, clock, s, i, list, draws)
		if ended := ctx.Err(); ended != nil {
			return nil, ended
		}
		if err != nil {
			st.Refused = append(st.Refused, err)
			continue
		}
		st.Trains = append(st.Trains, t)
	}
	if len(st.Trains) == 0 {
		return nil, errors.Join(st.Refused...)
	}
	st.give()
	return st, nil
}

// give gives the springs of the list to the trains that want one.
func (st *Study) give() {
	var of []*Train
	var choices []*choose.Study
	for i := range st.Trains {
		if t := &st.Trains[i]; t.Order != nil {
			of, choices = append(of, t), append(choices, t.Order)
		}
	}
	for i, share := range choose.Give(choices, func(*choose.Study) bool { return true }) {
		of[i].Given = share.Given
	}
}

// fill works out a train.
func (t *Train) fill(ctx context.Context, a *assign.Study, clock *found.Clock, s *scenario.Scenario, number int, list *stock.Stock, draws sure.Options) error {
	if a != nil {
		for _, p := range a.PairsOf(a.Best) {
			if p.Train == t.Name {
				t.In = &p
			}
		}
	}
	if t.In != nil {
		p, err := clock.In(ctx, clock.Find(t.In.Label, t.Name), number)
		if err != nil {
			return err
		}
		s = p.Scenario
	}
	r, err := sim.RunTrain(s, number, sim.Options{})
	if err != nil {
		return err
	}
	t.Now = r.Digest
	if t.In != nil || a == nil { // the spring is known
		switch t.SetUp, err = setup.Run(ctx, s, number); {
		case errors.Is(err, setup.ErrNoRoom):
			t.Now.Verdict.Sureness, err = sure.Of(ctx, s, number, draws)
		case err == nil:
			err = t.SetUp.Sure(ctx, s, number, draws)
			t.Now.Verdict.Sureness = t.SetUp.Now.Verdict.Sureness
		}
		if err != nil {
			return err
		}
	}
	if list == nil || t.In != nil && !t.Wanted() || a == nil && !t.Wanted() {
		return nil
	}
	t.Order, err = choose.Run(ctx, s, number, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN(), Sure: &draws})
	if errors.Is(err, choose.ErrNoNeed) {
		return nil
	}
	return err
}
