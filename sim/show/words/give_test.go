package words

import (
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
)

// What trains get of a list of one spring: the train that wants none, the one that gets it, the
// one that would.
func TestGiveSentences(t *testing.T) {
	text, _ := scenarios.StockText(scenarios.DefaultStock)
	list, err := stock.Read(strings.NewReader(text), "list.toml")
	if err != nil {
		t.Fatal(err)
	}
	s, _ := trial.Compile(t, "eight-day")
	lost := s.Clone()
	lost.Trains[0].Mainspring.Present = false
	study := func(lose bool) *choose.Study {
		in := s
		if lose {
			in = lost
		}
		st, err := choose.Run(t.Context(), in, 0, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
		if err != nil {
			t.Fatal(err)
		}
		return st
	}
	has := study(false)
	only := *study(true)
	only.Candidates = only.Candidates[:1]
	only.Candidates[0].Quantity = 1
	none := only
	none.Candidates = []choose.Candidate{has.Candidates[len(has.Candidates)-1]}
	all := choose.Give([]*choose.Study{has, &only, &only, &none}, (*choose.Study).Wants)
	if head := GiveHead(all); head != "4 trains from one list: 3 want another spring, and the list has one that suits for 1" {
		t.Error(head)
	}
	label := only.Candidates[0].Label
	for i, want := range []string{"nothing needs to be ordered", "train: " + label + " SUITS", "what would suit it of this list is given to other trains", "nothing of this list is to be ordered for it: the one spring"} {
		if got := Give(&all[i], Verdict); !strings.Contains(got, want) {
			t.Errorf("%s: %s", want, got)
		}
		if order := GiveOrder(&all[i]); (order != "") != (i == 1) || i == 1 && !strings.HasPrefix(order, label+", ") {
			t.Errorf("%d: %s", i, order)
		}
	}
	if head := GiveHead(all[:1]); head != "1 train from one list: none wants another spring" {
		t.Error(head)
	}
	if head := GiveHead(all[:2]); head != "2 trains from one list: 1 wants another spring, and the list has one for each, none given twice" {
		t.Error(head)
	}
	if c := GiveCautions(all); len(c) != 3 || GiveCautions(nil) != nil {
		t.Error(c)
	}
}
