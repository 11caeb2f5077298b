package words

import (
	"math"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/study/batch"
)

// The verdicts stand first, in their order; what does not apply is in no range.
func TestBatch(t *testing.T) {
	s, err := scenarios.Load(scenarios.Default)
	if err != nil {
		t.Fatal(err)
	}
	of, _ := outcome.Several(outcome.Unevenness, outcome.LeastReserve)
	b, err := batch.New(s, []string{"id"}, batch.Options{Of: of})
	if err != nil {
		t.Fatal(err)
	}
	tally := b.Tally()
	same(t, Batch(b, &tally), "there were no rows to run")
	for i, c := range []rules.Code{rules.Suits, rules.Thin, rules.Suits, rules.Unjudged} {
		d := sim.Unknown()
		d.Verdict.Code, d.Torque.Unevenness = c, []float64{0.02, 0.01, math.NaN(), 0.04}[i]
		d.Faults = []sim.Faults{0, 1 << sim.Binds, 0, 0}[i]
		b.Count(&tally, &batch.Row{Digest: d})
	}
	b.Count(&tally, &batch.Row{Fault: "too wide"})
	same(t, Batch(b, &tally),
		"no column of the table is a KEY: every row is of the scenario as it is",
		"of 4 rows run it is not judged in 1, is thin in 1, suits in 2", "1 of 5 rows could not be run, as the column fault says", "something does not fit or is unsafe in 1, as the column faults says",
		"unevenness of the torque: 1.00 to 4.00 %")
}
