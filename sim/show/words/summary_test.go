package words

import (
	"math"
	"strings"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/train"

	"github.com/golang/geo/s1"
)

func TestCounted(t *testing.T) {
	for blows, want := range map[float64]string{90: "90 blows in 12 h (the hours by count and one at each half)", 120: "120 blows in 12 h (the quarters by count)", 77: "77 blows in 12 h"} {
		if got := counted(blows); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// result is the run of a train of a sample.
func result(t *testing.T, name string, number int) *sim.Result {
	t.Helper()
	_, trains := trial.Compile(t, name)
	return &trial.Run(t, trains)[number]
}

// lines are those of a summary by their names; lines without one follow their line.
func lines(r *sim.Result) map[string]string {
	by, name := map[string]string{}, ""
	for _, l := range Summary(r) {
		if l[0] != "" {
			name = l[0]
		}
		by[name] += l[1] + "\n"
	}
	return by
}

// Every figure of a run stands by its word and in its unit.
func TestSummary(t *testing.T) {
	r := result(t, "eight-day", 0)
	r.Torque.Mean, r.Torque.Min, r.Torque.Max, r.Torque.Unevenness, r.Torque.CV = 0.4, 0.36, 0.44, 0.2, 0.05
	r.Need = sim.Need{Measured: 0.3, Used: 0.3, Predicted: 0.25}
	r.Swing = sim.Swing{Amplitude: sim.Spread{Mean: math.Pi / 60, Min: math.Pi / 90, Max: math.Pi / 45}, Rate: sim.Spread{Mean: 0, Min: -1.0 / 86400, Max: 2.0 / 86400}}
	r.Quality, r.Turns, r.TurnsLost, r.HoursPerTurn, r.Runtime, r.StopsAt = 150, 16, 0.5, 12, 186, nan
	r.Spring = sim.Spring{Available: 7.5, Ideal: 8.5, Strip: r.Spring.Strip, Housing: r.Spring.Housing, Used: 5.5, SetUp: 1.25, Fill: 0.5, Slack: 0.25, FreeCoils: 6.9, PeakStress: 2e9, Overstrain: 1.5, Stored: 12.5, EndFloat: 1.2e-3, Flat: 0.75}
	r.Line = sim.Line{OnFusee: 0.9, BarrelTurns: 6, Spread: 20e-3, Room: 10e-3, MaxTension: 30, MaxWindingTension: 35, FleetKnown: true, MaxFleet: 2.5 * s1.Degree}
	by := lines(r)
	bears(t, by["torque at the fusee"], "mean 0.400, least 0.360, greatest 0.440", "unevenness 20.0 %; typically 5.00 % off the mean")
	bears(t, by["least needed"], "0.300 N·m, measured (predicted 0.250); reserve mean 1.33, least 1.20, greatest 1.47")
	bears(t, by["running time"], "15.5 fusee turns of 12.0 h: 186 h, 7.75 days\n")
	bears(t, by["pendulum"], "2.00° to 4.00°, mean 3.00°; Q 150", "it gains −1.00 to 2.00 s a day, which regulating takes away\n")
	bears(t, by["mainspring"], "7.50 turns available, 8.50 with ideal packing, 7.18 by handbooks; 5.50 used after 1.25 of set-up; fills 50 %", "stand 0.250 turns off the wall",
		"6.90 coils; peak stress 2000 MPa (it flows: bent to 1.50 times", "stores 12.5 J; end float 1.2 mm", "to 75 %")
	bears(t, by["line"], "900 mm on the fusee; 6.00 barrel turns lie over 20.0 mm and need 10.0; tension up to 30.0 N, 35.0 while winding; fleet angle, between line and groove, up to 2.5°")

	r.StopsAt, r.Swing.Trips = 10.5, true
	by = lines(r)
	bears(t, by["running time"], "7.75 days, of which it goes 120 h, 5.00 days, before it stops")
	bears(t, by["pendulum"], "as long as it goes; where it does not trip")
	r.StopsAt, r.Swing.Rate.Mean = 0.5, nan
	by = lines(r)
	bears(t, by["running time"], "none of which it goes")
	bears(t, by["pendulum"], "trips by prediction")
	r.Swing.Trips, r.Runtime, r.Need.Used, r.Escapes = false, nan, nan, true
	by = lines(r)
	bears(t, by["running time"], "15.5 fusee turns; hours not known")
	bears(t, by["pendulum"], "stopped: by the need measured it does not start")
	if _, told := by["least needed"]; told {
		t.Errorf("%q", by)
	}

	r.Spring.Slack, r.Spring.Overstrain, r.Spring.Strip, r.Line.FleetKnown, r.Escapes, r.Form = 0.005, 1, mainspring.Strip{}, false, false, mainspring.Even
	by = lines(r)
	for _, not := range []string{"off the wall", "it flows", "handbooks", "they tell"} {
		if strings.Contains(by["mainspring"], not) {
			t.Errorf("%q in %s", not, by["mainspring"])
		}
	}
	bears(t, by["mainspring"], "2000 MPa (elastic, made in even coils)")
	if _, told := by["pendulum"]; told || strings.Contains(by["line"], "fleet") {
		t.Errorf("%q", by)
	}
	r.Form, r.ByCoils, r.Yield, r.Spring.Overstrain = mainspring.Set, true, 1.6e9, 2
	by = lines(r)
	bears(t, by["mainspring"], "(they tell of a steel that flows at 1600 MPa)")
	if strings.Contains(by["mainspring"], "it flows: ") {
		t.Error(by["mainspring"])
	}
}

// Of two needs the one judged by comes first.
func TestNeedsOfASummary(t *testing.T) {
	r := result(t, "eight-day", 0)
	for want, n := range map[string]sim.Need{
		"0.300 N·m, measured;":                                                    {Measured: 0.3, Predicted: nan, Used: 0.3},
		"0.250 N·m, predicted with every load on;":                                {Measured: nan, Predicted: 0.25, Used: 0.25},
		"0.300 N·m, measured (predicted 0.250);":                                  {Measured: 0.3, Predicted: 0.25, Used: 0.3},
		"0.350 N·m, what drags and loads take (measured 0.300, predicted 0.250);": {Measured: 0.3, Predicted: 0.25, Used: 0.35},
	} {
		r.Need = n
		bears(t, lines(r)["least needed"], want)
	}
	r.Need, r.Strikes = sim.Need{Measured: nan, Predicted: 0.25, Used: 0.25}, true
	r.Cadence.Interval.Mean = nan
	bears(t, lines(r)["least needed"], "0.250 N·m, predicted, to strike from rest;")
}

// A striking train is told by its intervals, the work of a blow, and the fly that would
// strike in the middle of what is wanted.
func TestStrikeLines(t *testing.T) {
	r := result(t, "strike-pleasant", 0)
	k := &r.Train.Striker
	work, steady, radius := k.Power(r.Torque.Mean), k.Steady(r.Torque.Mean), r.MiddleFly()
	r.Cadence = sim.Cadence{Interval: sim.Spread{Mean: 1.3, Min: 1.2, Max: 1.4}, Fly: sim.Spread{Min: 5, Max: 6}, Twelve: sim.Spread{Mean: 16, Min: 15, Max: 17}}
	says := lines(r)["striking"]
	bears(t, says, "a blow every 1.20 to 1.40 s, mean 1.30; fly 5.00 to 6.00 turns a second; twelve from rest, first blow to last, in 15.0 to 17.0 s, each ± 25 %, since no strike was timed (strike.timed)\n",
		"a blow takes "+Figure(1e3*work.Spring)+" mJ", "the fly holds "+Figure(1e3*steady.KineticLeast)+" to "+Figure(1e3*steady.KineticMost)+" mJ; 78 blows in 12 h",
		// 16 turns of 78 blows each, as the wheels have it
		"1248 blows in the run\n",
		"a fly of "+say("%.1f", radius*mm)+" mm outer radius in place of 15.0 would strike every 1.45 s, the middle of the 1.15 to 1.75 s wanted", Figure(k.Slow())+" N·m, from rest "+Figure(k.Least()))
	// The shares make up the whole, and each stands by its name.
	sum := 0.0
	for name, w := range map[string]float64{"hammers": work.Hammers, "fly": work.Fly, "wheels": work.Wheels, "tails": work.Tails, "loads": work.Loads} {
		share := 100 * w / work.Spring
		if told := strings.Contains(says, say("%s %.1f %%", name, share)); told != (share > 0.05) {
			t.Errorf("%s take %v %%: %s", name, share, says)
		}
		sum += share
	}
	if math.Abs(sum-100) > 0.01 {
		t.Errorf("the shares make %v %%", sum)
	}
	r.Cadence.Twelve.Mean, r.Verdict.Code = nan, rules.Stops
	if says = lines(r)["striking"]; strings.Contains(says, "twelve") || strings.Contains(says, "outer radius") {
		t.Error(says)
	}
	r.Torque.Mean = 0.5 * k.Least()
	if k.Steady(r.Torque.Mean).Status == train.Strikes {
		t.Fatal("half of what it needs strikes")
	}
	bears(t, lines(r)["striking"], "on the mean torque it stalls")
	r.Cadence.Interval.Mean = nan
	if got, want := lines(r)["striking"], "stalls at every turn; from rest it takes "+Figure(k.Least())+" N·m\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// The spring and barrel of the sample, as its file has them.
func TestHas(t *testing.T) {
	want := "width × thickness × length 32 × 0.38 × 1650 mm, in a barrel 45 mm across and 33.2 mm high inside, on an arbor of 15 mm"
	if got := Has(result(t, "eight-day", 0)); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
