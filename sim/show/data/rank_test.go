package data

import (
	"context"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/shares"
)

func ranks(t testing.TB) *rank.Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day", "efficiency   = 0.90", "efficiency   = 1.0") // which cannot be raised
	st, err := rank.Run(context.Background(), s, 0, rank.Options{Shares: true})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// numbersOf are the numbers of an input by the names of the contract.
func numbersOf(in *rank.Input) map[string]float64 {
	return map[string]float64{
		"value": in.Value, "elasticity": in.Elasticity.Value, "elasticity_error": in.Elasticity.Error, "by": (in.To - in.From) / 2, "from": in.From, "to": in.To, "minus": in.Minus, "plus": in.Plus,
		"first_order_share": in.Share.First.Value, "first_order_error": in.Share.First.Error, "total_order_share": in.Share.Total.Value, "total_order_error": in.Share.Total.Error,
	}
}

func TestRankCSV(t *testing.T) {
	st := ranks(t)
	header, lines := sheet(t, func(w io.Writer) error { return Rank().CSV(w, Origin{}, st) })
	if want := []string{"of", "result", "key", "unit", "value", "elasticity", "elasticity_error", "by", "from", "to", "tolerance", "usual_error", "minus", "plus", "first_order_share", "first_order_error", "total_order_share", "total_order_error"}; !slices.Equal(header, want) || len(lines) != 3*len(st.Rankings[0].Inputs) {
		t.Fatalf("%d lines of %v", len(lines), header)
	}
	i := 0
	for _, r := range st.Rankings {
		for k := range r.Inputs {
			line, in := lines[i], &r.Inputs[k]
			i++
			if line["of"] != r.Of.Name || line["result"] != cellOf(r.Of.Of(&st.Own)) || line["key"] != in.Quantity.Key || line["unit"] != in.Quantity.Unit || line["tolerance"] != strconv.FormatBool(in.Moved == rank.ByTolerance) || line["usual_error"] != strconv.FormatBool(in.Moved == rank.ByReading) {
				t.Errorf("%v, want %+v", line, in)
			}
			for name, v := range numbersOf(in) {
				if line[name] != cellOf(v) {
					t.Errorf("%s, %s: %s, want %v", in.Quantity.Key, name, line[name], v)
				}
			}
		}
	}
}

func TestRankJSON(t *testing.T) {
	st := ranks(t)
	doc := document(t, func(w io.Writer) error { return Rank().JSON(w, Origin{}, st) })
	others := doc["others"].([]any)
	if doc["train"] != "going" || doc["change"] != 0.01 || doc["alike"] != false || len(others) != 2 || !strings.Contains(doc["cautions"].([]any)[0].(string), "eye protection") {
		t.Fatalf("%v %v, %d others", doc["train"], doc["change"], len(others))
	}
	byEffect := doc["order"]
	st.Total = true
	if total := document(t, func(w io.Writer) error { return Rank().JSON(w, Origin{}, st) }); byEffect != "effect" || total["order"] != "total_order_share" {
		t.Errorf("in the order of %v, then %v", byEffect, total["order"])
	}
	unbuilt := 0
	for i, got := range append([]any{doc}, others...) {
		r, of := &st.Rankings[i], got.(map[string]any)
		inputs := of["inputs"].([]any)
		if of["of"] != r.Of.Name || of["result"] != r.Of.Of(&st.Own) || len(inputs) != len(r.Inputs) {
			t.Fatalf("%v is %v", of["of"], of["result"])
		}
		wantInteraction(t, of["interaction"], r.Shares)
		for k := range inputs {
			got, in := inputs[k].(map[string]any), &r.Inputs[k]
			if got["key"] != in.Quantity.Key || got["unit"] != textOrNull(in.Quantity.Unit) || got["tolerance"] != (in.Moved == rank.ByTolerance) || got["usual_error"] != (in.Moved == rank.ByReading) {
				t.Errorf("%v, want %+v", got, in)
			}
			for name, v := range numbersOf(in) {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					unbuilt++
					if got[name] != nil {
						t.Errorf("%s, %s: %v where nothing applies", in.Quantity.Key, name, got[name])
					}
				} else if got[name] != v {
					t.Errorf("%s, %s: %v, want %v", in.Quantity.Key, name, got[name], v)
				}
			}
		}
	}
	if unbuilt == 0 {
		t.Error("every input could be moved")
	}
}

func wantInteraction(t *testing.T, got any, want *shares.Result) {
	t.Helper()
	of, is := got.(map[string]any)
	if !is || of["share"] != want.Joint.Value || of["error"] != want.Joint.Error || of["pairs"] != float64(want.Pairs) || of["pairs_failed"] != float64(want.Failed) || len(of) != 4 {
		t.Errorf("%v, want %+v", got, want)
	}
}
