package letter

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/rules"
	"evenpull/sim/stock"
	"evenpull/sim/study/sure"
)

var few = sure.Options{Draws: 50, Seed: 1}

func shop(t *testing.T) *stock.Stock {
	t.Helper()
	text, ok := scenarios.StockText(scenarios.DefaultStock)
	if !ok {
		t.Fatal("there is no sample stock list")
	}
	list, err := stock.Read(strings.NewReader(text), "stock")
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Springs that were read are placed, each train's with its verdict; nothing is ordered where
// one suits.
func TestWithBench(t *testing.T) {
	b := books.Sample(t)
	b.Letter.Owner = "the owner"
	s, _ := trial.Compile(t, "three-trains")
	st, err := Of(t.Context(), s, bench.Clock(t, b, s), shop(t), few)
	if err != nil {
		t.Fatal(err)
	}
	for i, label := range []string{"C", "A", "B"} {
		tr := &st.Trains[i]
		if tr.In == nil || tr.In.Label != label || tr.Now.Verdict.Code != rules.Suits || tr.Now.Verdict.Sureness.Draws != few.Draws || tr.Wanted() || tr.Order != nil {
			t.Errorf("%s: %+v", tr.Name, tr.In)
		}
	}
	if st.Head.Owner != "the owner" || st.Assign == nil || !(st.Stored() > 50) {
		t.Errorf("%+v, %v J", st.Head, st.Stored())
	}
	// Springs that suit nothing are not placed, and others are looked for.
	b.Torques = b.Torques[:1]
	for _, list := range b.Torques[0].RunningDown {
		for k := range list {
			list[k] *= 3
		}
	}
	b.Torques[0].WindingUp = nil
	st, err = Of(t.Context(), s, bench.Clock(t, b, s), shop(t), few)
	if err != nil {
		t.Fatal(err)
	}
	if tr := &st.Trains[0]; tr.Order == nil || !tr.Wanted() && tr.In != nil {
		t.Errorf("%+v", tr)
	}
}

// Without a bench book a train is told of as it is; another spring is looked for where it
// is wanted.
func TestAsItIs(t *testing.T) {
	for name, wanted := range map[string]bool{"eight-day": false, "too-strong": true} {
		s, _ := trial.Compile(t, name)
		st, err := Of(t.Context(), s, nil, shop(t), few)
		if err != nil {
			t.Fatal(err)
		}
		if tr := &st.Trains[0]; tr.Wanted() != wanted || (tr.Order != nil) != wanted || tr.In != nil || tr.SetUp == nil {
			t.Errorf("%s: wanted %v, %+v", name, tr.Wanted(), tr.Order)
		}
		if st, err = Of(t.Context(), s, nil, nil, few); err != nil || st.Trains[0].Order != nil {
			t.Errorf("%s: an order without a list, %v", name, err)
		}
	}
	s, _ := trial.Compile(t, "eight-day")
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := Of(ctx, s, nil, nil, few); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	s.Trains[0].Barrel.ArborDiameterMM = s.Trains[0].Barrel.InsideDiameterMM - 1
	if _, err := Of(t.Context(), s, nil, nil, few); err == nil {
		t.Error("a train that cannot run makes a letter")
	}
}

// Weights alone tell what the trains need: no springs are placed, and the scenario's need
// gives way.
func TestWeightsAlone(t *testing.T) {
	b, s := bench.Book(t), bench.Scenario(t)
	b.Torques = nil
	s.Trains[0].Demand.LeastTorqueNM, s.Advice.Historic = 0.1, true
	st, err := Of(t.Context(), s, bench.Clock(t, b, s), nil, few)
	if err != nil || st.Assign != nil || len(st.Trains) != 3 || len(st.Refused) != 0 || !st.Historic || st.Title != s.Title {
		t.Fatalf("%+v, %v", st, err)
	}
	if n := st.Trains[0].Now.Need.Used; math.Abs(n-0.348) > 0.001 {
		t.Errorf("a need of %v N·m", n)
	}
}

// A train that cannot be run is told, and the others stand in the letter; one that binds with
// any set-up has none, and one whose need is not known has nothing to choose by.
func TestTrainsApart(t *testing.T) {
	s := bench.Scenario(t)
	s.Trains[0].Barrel.ArborDiameterMM = s.Trains[0].Barrel.InsideDiameterMM - 1
	s.Trains[1].Mainspring.LengthMM = 600
	st, err := Of(t.Context(), s, nil, shop(t), few)
	if err != nil || len(st.Refused) != 1 || len(st.Trains) != 2 || st.Trains[0].Name != s.Trains[1].Name {
		t.Fatalf("%d trains, refused %v, %v", len(st.Trains), st.Refused, err)
	}
	if tr := &st.Trains[0]; tr.SetUp != nil || !(tr.Now.TurnsLost > 0) {
		t.Errorf("%v turns lost, %+v", tr.Now.TurnsLost, tr.SetUp)
	}
	s, _ = trial.Compile(t, "eight-day")
	s.Trains[0].Demand.LeastTorqueNM, s.Trains[0].Pendulum, s.Trains[0].Escapement = math.NaN(), nil, nil
	if st, err = Of(t.Context(), s, nil, shop(t), few); err != nil || st.Trains[0].Order != nil || len(st.Refused) > 0 {
		t.Errorf("%v, %v", st, err)
	}
}

func TestStored(t *testing.T) {
	var st Study
	if !math.IsNaN(st.Stored()) {
		t.Errorf("%v J in no spring", st.Stored())
	}
	for _, e := range []float64{math.NaN(), 1, 3, 2, math.NaN()} {
		tr := Train{Now: sim.Unknown()}
		tr.Now.Spring.Stored = e
		st.Trains = append(st.Trains, tr)
	}
	if st.Stored() != 3 {
		t.Errorf("%v J", st.Stored())
	}
}

// Two trains alike, each too strong, get two strips of the list; none is ordered twice.
func TestNoneTwice(t *testing.T) {
	s, _ := trial.Compile(t, "too-strong")
	twin := s.Trains[0]
	twin.Name = "twin"
	s.Trains = append(s.Trains, twin)
	list := shop(t)
	for i := range list.Springs {
		list.Springs[i].Quantity = 1
	}
	st, err := Of(t.Context(), s, nil, list, few)
	if err != nil {
		t.Fatal(err)
	}
	a, b := st.Trains[0].Given, st.Trains[1].Given
	if a == nil || b == nil || a.Label == b.Label {
		t.Errorf("%+v and %+v", a, b)
	}
	if alone := st.Trains[0].Order.Best().Label; a.Label != alone && b.Label != alone {
		t.Errorf("%s and %s, alone %s", a.Label, b.Label, alone)
	}
}
