package assign

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// readingsOf are what a run gives at whole fusee turns, read twice without error.
func readingsOf(r *sim.Result, label string) book.Torque {
	var list []float64
	for turn := range int(r.Turns) + 1 {
		v := math.NaN()
		for i := range r.Rows {
			if r.Rows[i].FuseeTurn == float64(turn) {
				v = r.Rows[i].FuseeTorque
			}
		}
		list = append(list, v)
	}
	return book.Torque{Train: r.Name, Spring: label, RunningDown: [][]float64{list, list}}
}

// One voice: a spring whose readings are what a run predicts gets from assign, in its
// own train, the reserve, the faults and the verdict of that run.
func TestAgreesWithARun(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	random := rand.New(rand.NewPCG(20, 13))
	const cases = 40
	judged, refused := 0, 0
	for range cases {
		_, s := sample(t)
		b := new(book.Book)
		for i := range s.Trains {
			tr := &s.Trains[i]
			around := func(v *float64, share float64) { *v *= 1 + share*(2*random.Float64()-1) }
			around(&tr.Mainspring.ThicknessMM, 0.12)
			around(&tr.Mainspring.WidthMM, 0.2)
			around(&tr.Mainspring.LengthMM, 0.2)
			tr.Barrel.SetUpTurns = float64(random.IntN(30)) / 12
			if tr.Demand.TorqueBandNM.Given() && random.IntN(2) == 0 {
				tr.Demand.TorqueBandNM = scenario.Range{Lo: math.NaN(), Hi: math.NaN()}
			}
			// What stands for what is left out follows.
			if err := s.SetNumber(tr.Name+".barrel.set_up_turns", tr.Barrel.SetUpTurns); err != nil {
				t.Fatal(err)
			}
			if s.CheckTrain(i) != nil {
				refused++
				continue
			}
			if compiled, err := sim.CompileTrain(s, i); err == nil {
				if r, err := compiled.Run(sim.Options{}); err == nil {
					b.Torques = append(b.Torques, readingsOf(r, tr.Name))
				}
			}
		}
		if len(b.Torques) == 0 {
			continue
		}
		st := study(t, b, s)
		for i := range st.Pairs {
			p := &st.Pairs[i]
			if p.ReadIn != p.Train || !p.Whole {
				continue
			}
			judged++
			r := trial.RunOf(t, s, slices.IndexFunc(s.Trains, func(t scenario.Train) bool { return t.Name == p.Train }))
			// What was known before pulls a little; of a spring that binds the readings near
			// where it does tell less.
			close := 0.01
			if r.TurnsLost > 0 {
				close = 0.03
			}
			margins := r.Margins()
			border := slices.ContainsFunc(margins[:], func(m float64) bool { return math.Abs(m) < close })
			for _, c := range [][2]float64{{p.Torque.Mean, r.Torque.Mean}, {p.Torque.Min, r.Torque.Min}, {p.Torque.Max, r.Torque.Max}, {p.Need.Used, r.Need.Used}, {p.Reserve(p.Torque.Mean), r.Reserve(r.Torque.Mean)}} {
				if math.Abs(c[0]/c[1]-1) > close {
					t.Errorf("%s: %v, in a run %v", p.Train, c[0], c[1])
				}
			}
			if !border && p.Verdict.Code != r.Verdict.Code || p.Standard != r.Standard {
				t.Errorf("%s: %+v %v, in a run %+v %v", p.Train, p.Verdict, p.Faults.List(), r.Verdict, r.Faults.List())
			}
		}
	}
	t.Logf("%d springs judged, %d trains could not be built", judged, refused)
	if judged < cases {
		t.Errorf("only %d springs were judged", judged)
	}
}
