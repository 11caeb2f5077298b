package book_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// drawn is a book of the readings of a run, with errors of each reading and each run-down
// (standard deviations), to so many decimals, the last first when reversed.
func drawn(r *rand.Rand, train string, rows []sim.Row, need, noise float64, repeats, decimals int, reversed bool) string {
	var b strings.Builder
	mass := need / gravity / arm * 1e3
	fmt.Fprintf(&b, "[[weights]]\ntrain = %q\npulley_radius_mm = 75.5\ntrials = [ { mass_g = %.0f, runs = false }, { mass_g = %.0f, runs = true } ]\n", train, 0.97*mass, 1.03*mass)
	fmt.Fprintf(&b, "[[torque]]\ntrain = %q\nspring = 'A'\nrunning_down = [\n", train)
	for range repeats {
		off := 1 + 0.4*noise*r.NormFloat64()
		var cells []string
		for i := range rows {
			cells = append(cells, fmt.Sprintf("%.*f", decimals, rows[i].FuseeTorque*off*(1+noise*r.NormFloat64())))
		}
		if reversed {
			slices.Reverse(cells)
		}
		b.WriteString("[ " + strings.Join(cells, ", ") + " ],\n")
	}
	return b.String() + "]\n"
}

// asked is what is said to a book beside a scenario.
func asked(t *testing.T, text string, s *scenario.Scenario) error {
	b, err := book.Read(strings.NewReader(text), "b.toml", nil)
	if err == nil {
		err = readings.Beside(b, s)
	}
	return err
}

// TestNoFalseAlarm: sound readings are asked nothing: of the clock's own springs and of
// others, with 1 % of noise, to two decimals or three, in one repeat or more.
func TestNoFalseAlarm(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	r := rand.New(rand.NewPCG(16, 2))
	for of := range 3 {
		res := inGoing(t, of)
		for k := range 40 {
			text := drawn(r, "going", res.Rows, 0.34, 0.01, 1+k%3, 2+k%2, false)
			if err := asked(t, text, s); err != nil {
				t.Fatalf("spring of train %d: %v\n%s", of, err, text)
			}
		}
	}
}

// TestWrongOrder: on a cone that is not even, readings that begin run down are asked about,
// and sound ones are not, nor those that say where they begin.
func TestWrongOrder(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	s.Trains[0].Barrel.SetUpTurns -= 2
	trains, err := sim.Compile(s, "going")
	if err != nil {
		t.Fatal(err)
	}
	var res sim.Result
	if err := trains[0].RunInto(&res, sim.Options{Step: 1}); err != nil {
		t.Fatal(err)
	}
	rows := slices.DeleteFunc(slices.Clone(res.Rows), func(row sim.Row) bool { return row.FuseeTurn != math.Round(row.FuseeTurn) })
	r := rand.New(rand.NewPCG(16, 3))
	for k := range 20 {
		right, wrong := drawn(r, trains[0].Name, rows, res.Need.Used, 0.01, 1+k%3, 3, false), drawn(r, trains[0].Name, rows, res.Need.Used, 0.01, 1+k%3, 3, true)
		if err := asked(t, right, s); err != nil {
			t.Fatal(err)
		}
		if err := asked(t, wrong, s); err == nil || !strings.Contains(err.Error(), "b.toml:8: torque.1.running_down: found readings that differ in shape") || !strings.Contains(err.Error(), "first_turn = 0") {
			t.Fatalf("%v, unevenness %v", err, res.Torque.Unevenness)
		}
		if err := asked(t, wrong+"first_turn = 0\n", s); err != nil {
			t.Error(err)
		}
	}
}
