package letter

import (
	"context"
	"errors"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
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
	text, _ := scenarios.BenchText(scenarios.DefaultBench)
	b, err := book.Read(strings.NewReader(text), "bench", nil)
	if err != nil {
		t.Fatal(err)
	}
	b.Letter.Owner = "the owner"
	s, _ := trial.Compile(t, "three-trains")
	st, err := Of(t.Context(), s, b, shop(t), few)
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
	st, err = Of(t.Context(), s, b, shop(t), few)
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
