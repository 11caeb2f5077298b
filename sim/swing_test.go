package sim_test

import (
	. "evenpull/sim"
	. "evenpull/sim/rules"
	"evenpull/sim/show/words"
	"math"
	"strings"
	"testing"

	"evenpull/escapement"
)

// unmeasured is the default sample without the need found at the bench, so that
// the predicted one is judged by.
func unmeasured(t testing.TB, replace ...string) Train {
	t.Helper()
	return sample(t, "eight-day", append(replace, "least_torque_nm = 0.33", "")...)[0]
}

// On the predicted need the pendulum swings just the escaping half-arc with its
// margin: down the train and through the escapement and back.
func TestPredictedNeed(t *testing.T) {
	tr := unmeasured(t)
	res := run(t, tr, Options{})
	clock, err := tr.Clock()
	if err != nil {
		t.Fatal(err)
	}
	a, _ := clock.Amplitude(tr.Wheels.Torque(tr.Wheels.Last(), res.Need.Predicted))
	closeTo(t, "semi-arc on the predicted need", a.Degrees(), 5.0/2+0.5, 1e-12)
	if res.Need.Used != res.Need.Predicted || res.Standard.Basis != ByReserve || res.Verdict.Code != Suits {
		t.Errorf("%+v %+v", res.Need, res.Verdict)
	}
	// Gravity is in the need alone: twice the gravity, twice the need.
	heavy := tr
	heavy.Pendulum.Gravity *= 2
	closeTo(t, "gravity", run(t, heavy, Options{}).Need.Predicted, 2*res.Need.Predicted, 1e-12)
}

// Every row's arc and rate are those of the escapement at its torque.
func TestRowsSwing(t *testing.T) {
	tr := sample(t, "too-weak")[0]
	tr.Demand.Least = math.NaN() // else it stops on the way
	res := run(t, tr, Options{})
	clock, _ := tr.Clock()
	for _, row := range res.Rows {
		g := clock.Going(row.LastTorque)
		if row.Amplitude != g.Amplitude.Radians() || row.Rate != g.Rate.Total() {
			t.Errorf("turn %g: %g, %g; want %g, %g", row.FuseeTurn, row.Amplitude, row.Rate, g.Amplitude.Radians(), g.Rate.Total())
		}
	}
}

// wanderOf is the greatest error of a clock regulated to its mean rate, summed
// over fine rows.
func wanderOf(rows []Row, seconds float64) float64 {
	total := 0.0
	for i := 1; i < len(rows); i++ {
		total += (rows[i].Rate + rows[i-1].Rate) / 2 * (rows[i].FuseeTurn - rows[i-1].FuseeTurn)
	}
	mean := total / (rows[len(rows)-1].FuseeTurn - rows[0].FuseeTurn)
	at, worst := 0.0, 0.0
	for i := 1; i < len(rows); i++ {
		at += ((rows[i].Rate+rows[i-1].Rate)/2 - mean) * (rows[i].FuseeTurn - rows[i-1].FuseeTurn) * seconds
		worst = math.Max(worst, math.Abs(at))
	}
	return worst
}

func TestWander(t *testing.T) {
	tr := sample(t, "too-weak")[0]
	tr.Demand.Least = math.NaN() // else it stops on the way
	fine := run(t, tr, Options{Step: 0.002})
	closeTo(t, "wander", run(t, tr, Options{}).Swing.Wander, wanderOf(fine.Rows, tr.HoursPerTurn()*3600), 0.02)
	// A drive that is even does not move the rate at all.
	even := unmeasured(t, `profile = "measured"`, `profile = "even"
large_diameter_mm = 31.5 #`, "diameters_mm = [", "# [",
		"13.0, 13.4, 13.7, 14.1, 14.5, 14.9, 15.3, 15.9, 16.3,", "", "17.0, 17.6, 18.5, 19.2, 20.4, 21.9, 24.4, 29.2,", "", "\n]\n", "\n")
	if s := run(t, even, Options{}).Swing; s.Rate.Max-s.Rate.Min > 1e-12 || s.Wander > 1e-6 {
		t.Errorf("%+v", s)
	}
}

// The greatest error may be to either side: a rate that first falls behind, and
// one that first runs ahead, wander alike.
func TestWanderToEitherSide(t *testing.T) {
	rows := func(sign float64) []Row {
		var list []Row
		for i := range 9 {
			list = append(list, Row{FuseeTurn: float64(i), Amplitude: 0.06, Rate: sign * float64(i) * 1e-6})
		}
		return list
	}
	up, down := SwingOf(rows(1), 1000), SwingOf(rows(-1), 1000)
	// ∫(rate − mean) dt of a straight rate is greatest half-way: slope·n²/8.
	closeTo(t, "ahead last", up.Wander, 1e-6*64/8*1000, 1e-9)
	closeTo(t, "behind last", down.Wander, up.Wander, 1e-12)
}

// Rows at which the clock trips are passed over; those after it stopped do not
// count.
func TestSwingPassesOver(t *testing.T) {
	nan := math.NaN()
	var rows []Row
	for _, r := range []struct {
		turn, amplitude, rate float64
		status                escapement.Status
	}{
		{0, nan, nan, escapement.Trips}, {1, 0.08, 3, escapement.Runs}, {2, 0.07, 1, escapement.Runs}, {3, nan, nan, escapement.Trips},
		{4, 0.05, 2, escapement.Short}, {5, nan, nan, escapement.Stops}, {6, 0.01, 9, escapement.Runs},
	} {
		rows = append(rows, Row{FuseeTurn: r.turn, Amplitude: r.amplitude, Rate: r.rate, Status: r.status})
	}
	if at := Halt(rows, nan); at != 5 || rows[6].Status != escapement.Stops || !math.IsNaN(rows[6].Amplitude) || !math.IsNaN(rows[6].Rate) || rows[4].Rate != 2 {
		t.Errorf("stops at %v: %+v", at, rows)
	}
	s := SwingOf(rows, 1)
	if s.Amplitude.Min != 0.05 || s.Amplitude.Max != 0.08 || s.Rate.Min != 1 || s.Rate.Max != 3 || s.Rate.Mean != 2 {
		t.Errorf("%+v", s)
	}
	if at := Halt(rows, 1.5); at != 2 || SwingOf(rows, 1).Amplitude.Min != 0.08 || Halt(rows[:2], nan) == Halt(rows[:2], nan) {
		t.Errorf("past the stop at %v: %+v", at, SwingOf(rows, 1))
	}
}

// By the need measured the clock stops before it does by its pendulum: from there on its
// rows have no arc, however fine they are, and one that does not even start has none.
func TestRowsOfAStoppedClock(t *testing.T) {
	weak := sample(t, "too-weak")[0]
	for _, step := range []float64{0, 0.1, 3} {
		res := run(t, weak, Options{Step: step})
		if !(res.StopsAt > 2 && res.StopsAt < 15) {
			t.Fatalf("stops at %v", res.StopsAt)
		}
		for _, r := range res.Rows {
			if going := r.FuseeTurn < res.StopsAt; going != (r.Amplitude > 0) || going != (r.Status == escapement.Runs || r.Status == escapement.Short) || going == math.IsNaN(r.Rate) {
				t.Errorf("step %v, turn %v of %v: %v, %v rad, %v", step, r.FuseeTurn, res.StopsAt, r.Status, r.Amplitude, r.Rate)
			}
		}
	}
	weak.Demand.Least *= 3
	if res := run(t, weak, Options{}); !math.IsNaN(res.Rows[0].Amplitude) || !math.IsNaN(res.Swing.Rate.Mean) || res.GoesFor() != 0 {
		t.Errorf("%+v", res.Rows[0])
	}
}

// A clock that stops on its way has no rate from there on, and what is said of
// arc and rate is of the time it went.
func TestSwingUntilItStops(t *testing.T) {
	tr := sample(t, "too-weak", "efficiency = 0.93", "efficiency = 0.87")[0]
	res := run(t, tr, Options{})
	last := res.Rows[len(res.Rows)-1]
	if !math.IsNaN(last.Amplitude) || last.Status != escapement.Stops || !math.IsNaN(last.Rate) {
		t.Errorf("the last row swings %g rad at %g", last.Amplitude, last.Rate)
	}
	if s := res.Swing; !(s.Amplitude.Min > 0) || math.IsNaN(s.Rate.Mean) {
		t.Errorf("%+v", s)
	}
	dead := unmeasured(t, "mass_g    = 240.0", "mass_g = 24000.0")
	if s := run(t, dead, Options{}).Swing; !math.IsNaN(s.Rate.Mean) || !math.IsNaN(s.Wander) {
		t.Errorf("a pendulum that never goes has %+v", s)
	}
}

const loads = `[[train.load]]
arbor = "centre"
torque_nm = %
[train.escapement]`

func withLoad(torque, timing string) []string {
	return []string{"[train.escapement]", strings.Replace(loads, "%", torque+timing, 1)}
}

// Standing loads lower the torque of every row; those that come and go do not,
// but count in the need. Off, both give the need of the bare train.
func TestLoads(t *testing.T) {
	bare := run(t, unmeasured(t), Options{})
	stands := run(t, unmeasured(t, withLoad("0.003", "")...), Options{})
	comes := run(t, unmeasured(t, withLoad("0.003", "\nevery_h = 0.5\nlasts_min = 10")...), Options{})
	closeTo(t, "need, whichever", stands.Need.Predicted, comes.Need.Predicted, 1e-12)
	closeTo(t, "loads off", stands.Need.LoadsOff, bare.Need.Predicted, 1e-12)
	closeTo(t, "loads off", comes.Need.LoadsOff, bare.Need.Predicted, 1e-12)
	closeTo(t, "what the load takes at the fusee", stands.Need.Predicted-bare.Need.Predicted, 0.003*96/8/0.93, 1e-9)
	if comes.Rows[8].LastTorque != bare.Rows[8].LastTorque || stands.Rows[8].LastTorque >= bare.Rows[8].LastTorque {
		t.Errorf("last arbor: bare %g, standing load %g, load that comes %g", bare.Rows[8].LastTorque, stands.Rows[8].LastTorque, comes.Rows[8].LastTorque)
	}
	if !math.IsNaN(bare.Swing.LetOff) || !math.IsNaN(stands.Swing.LetOff) || !(comes.Swing.LetOff < comes.Swing.Amplitude.Min) {
		t.Errorf("let-off: %g, %g, %g of %g", bare.Swing.LetOff, stands.Swing.LetOff, comes.Swing.LetOff, comes.Swing.Amplitude.Min)
	}
	if bare.Verdict.LoadsOff != Unjudged || comes.Verdict.LoadsOff == Unjudged {
		t.Errorf("%+v %+v", bare.Verdict, comes.Verdict)
	}
	// Drags are no loads: they stay.
	drag := []string{`friction_coefficient = 0.15`, "friction_coefficient = 0.15\ndrag_nm = 2e-5"}
	dragged := run(t, unmeasured(t, drag...), Options{})
	both := run(t, unmeasured(t, append(drag, withLoad("0.003", "")...)...), Options{})
	closeTo(t, "loads off, drags on", both.Need.LoadsOff, dragged.Need.Predicted, 1e-12)
	// A heavy let-off: thin with it, and it says what it would be without.
	heavy := run(t, unmeasured(t, withLoad("0.005", "\nevery_h = 0.5\nlasts_min = 10")...), Options{})
	if notes := strings.Join(words.Notes(&heavy.Digest), "\n"); heavy.Verdict.Code != Thin || !strings.Contains(notes, "the verdict: suits") || !strings.Contains(notes, "would settle at a semi-arc of") {
		t.Errorf("%v: %s", heavy.Verdict, notes)
	}
	dead := run(t, unmeasured(t, withLoad("0.03", "\nevery_h = 0.5\nlasts_min = 10")...), Options{})
	least := &comes.Train.Wheels.Worst
	clock, _ := comes.Train.Clock()
	worst, _, _ := clock.Swing(least.Torque(least.Last(), comes.Torque.Min))
	closeTo(t, "let-off at the weakest turn", comes.Swing.LetOff, worst.Radians(), 1e-12)
	if notes := strings.Join(words.Notes(&dead.Digest), "\n"); dead.Swing.LetOff != 0 || !strings.Contains(notes, "it is carried by its own swing") {
		t.Errorf("%g: %s", dead.Swing.LetOff, notes)
	}
}

// Loads that alone take more than the need measured are the need.
func TestNeedBelowLoads(t *testing.T) {
	res := run(t, sample(t, "eight-day", withLoad("0.05", "")...)[0], Options{})
	if res.Verdict.Code != Stops || res.Need.Used != res.Need.Loads || !strings.Contains(strings.Join(words.Notes(&res.Digest), "\n"), "take alone") {
		t.Errorf("%v %+v %q", res.Verdict, res.Need, words.Notes(&res.Digest))
	}
}

// A predicted need holds the margin: below it the pendulum may still swing, and
// the words say so.
func TestShortOfTheMargin(t *testing.T) {
	res := run(t, unmeasured(t, "mass_g    = 240.0", "mass_g = 330.0"), Options{})
	why := strings.Join(words.Reasons(&res.Digest), "\n")
	if res.Verdict.Code != Stops || !strings.Contains(why, "with its margin of 0.50°, and any disturbance stops the clock") || strings.Contains(why, "the train stops") {
		t.Errorf("%v %s", res.Verdict, why)
	}
	if rough := run(t, unmeasured(t, "decay     = { from_deg = 4.0, to_deg = 2.0, periods = 40 }", "quality = 5"), Options{}); !strings.Contains(strings.Join(words.Notes(&rough.Digest), "\n"), "are rough") {
		t.Errorf("%q", words.Notes(&rough.Digest))
	}
}

// Needs far apart are told, with what usually explains it.
func TestNeedsApart(t *testing.T) {
	for need, want := range map[string]string{"0.33": "", "0.45": "worn or dry pivots", "0.20": "with the escapement engaged"} {
		notes := strings.Join(words.Notes(&run(t, sample(t, "eight-day", "least_torque_nm = 0.33", "least_torque_nm = "+need)[0], Options{}).Digest), "\n")
		if got := strings.Contains(notes, "predicted"); got != (want != "") || !strings.Contains(notes, want) {
			t.Errorf("%s N·m measured: %q", need, notes)
		}
	}
}

func TestSwappedWheels(t *testing.T) {
	res := run(t, sample(t, "eight-day", "wheel      = 84\npinion     = 7", "wheel = 7\npinion = 84")[0], Options{})
	if notes := strings.Join(words.Notes(&res.Digest), "\n"); !strings.Contains(notes, `"third" turns more slowly than "centre"`) {
		t.Error(notes)
	}
}

func TestTrips(t *testing.T) {
	tr := sample(t, "eight-day")[0]
	tr.Escapement.Limit = escapement.SemiDegrees(3.255)
	res := run(t, tr, Options{})
	if !res.Swing.Trips || len(words.Faults(&res.Digest)) != 1 {
		t.Errorf("%+v %q", res.Swing, words.Faults(&res.Digest))
	}
	tr.Escapement.Limit = escapement.SemiDegrees(3.6)
	if res := run(t, tr, Options{}); res.Swing.Trips {
		t.Error("trips below its limit")
	}
	tr.Escapement.Limit, tr.Escapement.Ratio, tr.Pendulum.Quality = 0, 1, 1e6
	if res := run(t, tr, Options{}); !res.Swing.Trips || !strings.Contains(words.Faults(&res.Digest)[0], "past 10.0°, more than the pallets allow (four times half the escaping arc") {
		t.Errorf("%+v %q", res.Swing, words.Faults(&res.Digest))
	}
}

// At gives single rows, those of a run.
func TestAt(t *testing.T) {
	tr := sample(t, "too-strong")[0]
	res := run(t, tr, Options{Step: 1})
	for _, row := range res.Rows {
		got, err := tr.At(row.FuseeTurn)
		if err != nil {
			t.Fatalf("turn %g: %v", row.FuseeTurn, err)
		}
		closeTo(t, "torque", got.FuseeTorque, row.FuseeTorque, 1e-12)
		closeTo(t, "rate", got.Rate, row.Rate, 1e-12)
	}
	for _, bad := range []float64{-1, 0, 16.01, math.NaN()} {
		if _, err := tr.At(bad); err == nil {
			t.Errorf("turn %g is in a run that starts at %g", bad, res.TurnsLost)
		}
	}
}
