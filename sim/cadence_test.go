package sim_test

import (
	"errors"
	. "evenpull/sim"
	"evenpull/sim/bench/book"
	. "evenpull/sim/rules"
	"evenpull/sim/show/words"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/train"
)

// Every row strikes as its torque does, and the figures of the run are those of
// its rows.
func TestRowsStrike(t *testing.T) {
	tr := sample(t, "strike-quick")[0]
	res := run(t, tr, Options{})
	for _, row := range res.Rows {
		c, twelve := tr.Striker.Steady(row.FuseeTorque), tr.Striker.Twelve(row.FuseeTorque)
		if row.BlowInterval != c.Interval || row.FlySpeed != c.FlySpeed/(2*math.Pi) || row.Twelve != twelve.Blown {
			t.Errorf("turn %g: %+v", row.FuseeTurn, row)
		}
		if !math.IsNaN(row.Amplitude) || !math.IsNaN(row.Rate) {
			t.Errorf("a striking train swings: %+v", row)
		}
		if row.BlowInterval < res.Cadence.Interval.Min || row.BlowInterval > res.Cadence.Interval.Max {
			t.Errorf("turn %g: %g s is outside %+v", row.FuseeTurn, row.BlowInterval, res.Cadence.Interval)
		}
		// Twelve from rest take longer than eleven intervals of steady striking.
		if row.Twelve <= 11*row.BlowInterval {
			t.Errorf("turn %g: twelve from rest in %g s, steady in %g s", row.FuseeTurn, row.Twelve, 11*row.BlowInterval)
		}
	}
	// Britannica 1911, "Clock": great wheel 78, pinion 8, 8 pins.
	closeTo(t, "blows a turn", tr.Striker.BlowsPerTurn(), 78, 1e-12)
	if n := tr.Striker.BlowsInRun(16); n != 1248 {
		t.Errorf("%d blows in eight days, want 1248", n)
	}
}

// A strong spring strikes quick and is overdriven, a weaker one on the same
// train is pleasant. The rule of the bench (common practice, no source): about
// half the torque of an overdriven train is often enough.
func TestQuickAndPleasant(t *testing.T) {
	quick, pleasant := run(t, sample(t, "strike-quick")[0], Options{}), run(t, sample(t, "strike-pleasant")[0], Options{})
	if quick.Verdict.Code != Overdriven || pleasant.Verdict.Code != Suits || quick.Standard.Basis != ByCadence {
		t.Errorf("quick %v, pleasant %v", quick.Verdict, pleasant.Verdict)
	}
	if share := pleasant.Torque.Mean / quick.Torque.Mean; share < 0.45 || share > 0.7 {
		t.Errorf("pleasant on %.2f of the torque", share)
	}
}

// Verdicts by cadence change where the interval passes the one wanted: at the
// torques that strike just so.
func TestVerdictByCadence(t *testing.T) {
	tr := sample(t, "strike-pleasant")[0]
	k := tr.Striker
	closeTo(t, "interval at the slow torque", k.Steady(k.Slow()).Interval, 1.75, 1e-9)
	closeTo(t, "interval at the fast torque", k.Steady(k.Fast()).Interval, 1.15, 1e-9)
	res := run(t, tr, Options{})
	res.StopsAt, res.Cadence = math.NaN(), NoCadence
	for _, c := range []struct {
		least, mean float64
		want        Code
		says        string
	}{
		{k.Least() * 0.99, k.Fast() * 0.9, Stops, "with less the hammer stalls it"},
		{k.Slow() * 0.999, k.Fast() * 0.9, Thin, "strikes more slowly than every 1.75 s"},
		{k.Slow() * 1.001, k.Fast() * 0.999, Suits, "on which it would strike every 1.15 s"},
		{k.Slow() * 1.001, k.Fast() * 1.249, Strong, "up to 1.25 times is strong"},
		{k.Slow() * 1.001, k.Fast() * 1.251, Overdriven, "on which it would strike every 1.15 s, the fastest wanted"},
	} {
		res.Torque = Summary{Mean: c.mean, Min: c.least}
		res.Judge()
		if why := words.Reasons(&res.Digest); res.Verdict.Code != c.want || !strings.Contains(why[0], c.says) {
			t.Errorf("least %.4g, mean %.4g: %v, %q", c.least, c.mean, res.Verdict.Code, why)
		}
	}
	// A band found at the bench takes the place of the cadence.
	bench := sample(t, "strike-pleasant", "blow_interval_s = [ 1.15, 1.75 ]", "torque_band_nm = [ 0.3, 0.35 ]")[0]
	if res := run(t, bench, Options{}); res.Standard.Basis != ByBand || res.Verdict.Code != Strong {
		t.Errorf("%+v", res.Verdict)
	}
}

// The fly named brings the mean torque to the middle of what is wanted.
func TestFlyRadius(t *testing.T) {
	tr := sample(t, "strike-quick")[0]
	res := run(t, tr, Options{})
	radius := res.MiddleFly()
	s := readSample(t, "strike-quick")
	s.Trains[0].Fly.OuterRadiusMM = radius * 1e3
	trains, err := Compile(s)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "interval with that fly", trains[0].Striker.Steady(res.Torque.Mean).Interval, (1.15+1.75)/2, 1e-9)
}

// A hammer too heavy stalls the train: no numbers, a sentence.
func TestTooHeavyAHammer(t *testing.T) {
	res := run(t, sample(t, "strike-pleasant", "mass_g = 30.0", "mass_g = 400.0")[0], Options{})
	if res.Verdict.Code != Stops || !math.IsNaN(res.Cadence.Interval.Mean) || !math.IsNaN(res.Rows[0].Twelve) {
		t.Errorf("%v %+v", res.Verdict, res.Cadence)
	}
	if why := strings.Join(words.Reasons(&res.Digest), "\n"); !strings.Contains(why, "it would not even start") || !strings.Contains(why, "by prediction it stalls at every turn") {
		t.Error(why)
	}
}

const sets = `[[train.strike.pin_set]]
pins = 1
lifts = [ 2 ]
[[train.strike.pin_set]]
pins = 7
lifts = [ 1 ]
[train.fly]`

// twoKinds has one heavy pin among eight; written from another pin on it is the
// same wheel.
func twoKinds(t *testing.T, heavy, text string, more ...string) Train {
	t.Helper()
	hammers := "hammers = [ { mass_g = 30.0, lift_mm = 16.0, spring_n = 0.4 }, { mass_g = " + heavy + ", lift_mm = 16.0, spring_n = 0.4 } ]"
	return sample(t, "strike-quick", append(more, "hammers       = [ { mass_g = 30.0, lift_mm = 16.0, spring_n = 0.4 } ]", hammers, "[train.fly]", text)...)[0]
}

// Which pin is written first changes neither need nor verdict: a strike leaves
// the wheel now here, now there.
func TestPinSetsMayBeTurned(t *testing.T) {
	turned := strings.Replace(strings.Replace(strings.Replace(sets, "pins = 1\nlifts = [ 2 ]", "X", 1), "pins = 7\nlifts = [ 1 ]", "pins = 1\nlifts = [ 2 ]", 1), "X", "pins = 7\nlifts = [ 1 ]", 1)
	a, b := run(t, twoKinds(t, "60.0", sets), Options{}), run(t, twoKinds(t, "60.0", turned), Options{})
	closeTo(t, "need", a.Need.Predicted, b.Need.Predicted, 1e-9)
	closeTo(t, "interval", a.Cadence.Interval.Mean, b.Cadence.Interval.Mean, 1e-9)
	if a.Verdict != b.Verdict {
		t.Errorf("%v, turned %v", a.Verdict, b.Verdict)
	}
	// The heavy pin decides: all pins as heavy as it need as much from rest.
	all := run(t, sample(t, "strike-quick", "mass_g = 30.0", "mass_g = 60.0")[0], Options{})
	closeTo(t, "need of the heavy pin", a.Need.Predicted, all.Need.Predicted, 1e-9)
}

// However unlike its pins and whatever its fly, a train with a cadence wanted is
// judged by it.
func TestAlwaysByCadence(t *testing.T) {
	for name, tr := range map[string]Train{
		"one very heavy pin": twoKinds(t, "50.0", sets),
		"hardly a fly":       sample(t, "strike-quick", "outer_radius_mm = 15.0", "outer_radius_mm = 0.7")[0],
		"a huge fly":         sample(t, "strike-quick", "outer_radius_mm = 15.0", "outer_radius_mm = 2000.0", "[ 1.15, 1.75 ]", "[ 0.01, 0.02 ]")[0],
	} {
		res := run(t, tr, Options{})
		k := tr.Striker
		if res.Standard.Basis != ByCadence || !(k.Least() <= k.Slow() && k.Slow() <= k.Fast()) {
			t.Errorf("%s: %+v, least %g, slow %g, fast %g", name, res.Verdict, k.Least(), k.Slow(), k.Fast())
		}
	}
	small := run(t, sample(t, "strike-quick", "outer_radius_mm = 15.0", "outer_radius_mm = 0.7")[0], Options{})
	if why := words.Reasons(&small.Digest)[0]; small.Verdict.Code != Overdriven || !strings.Contains(why, "the fly is too small") {
		t.Errorf("%v: %s", small.Verdict, why)
	}
}

// A need found at the bench is judged by, in its own words, and told from the
// prediction.
func TestMeasuredNeedOfStriking(t *testing.T) {
	res := run(t, sample(t, "strike-quick", "[train.demand]", "[train.demand]\nleast_torque_nm = 0.7")[0], Options{})
	why, notes := strings.Join(words.Reasons(&res.Digest), "\n"), strings.Join(words.Notes(&res.Digest), "\n")
	if res.Verdict.Code != Stops || !strings.Contains(why, "found to be needed") || strings.Contains(why, "from rest") || !strings.Contains(notes, "stiff hammer tails") {
		t.Errorf("%v: %s\n%s", res.Verdict, why, notes)
	}
	res = run(t, sample(t, "strike-quick", "[train.demand]", "[train.demand]\nleast_torque_nm = 0.1")[0], Options{})
	if notes := strings.Join(words.Notes(&res.Digest), "\n"); !strings.Contains(notes, "with the train already going") {
		t.Error(notes)
	}
	if res.GoesFor() != 16 {
		t.Errorf("strikes for %g turns", res.GoesFor())
	}
}

// Friction at the tails takes its share of the work at the pins.
func TestTailEfficiency(t *testing.T) {
	tr := sample(t, "strike-quick", "lift_share    = 0.35", "tail_efficiency = 0.8\nlift_share = 0.35")[0]
	w := tr.Striker.Power(0.5)
	closeTo(t, "tails", w.Tails, w.Hammers/0.8-w.Hammers, 1e-9)
}

// What a striking train cannot be is told at its key.
func TestStrikeBlamed(t *testing.T) {
	for want, edit := range map[string][]string{
		"striking.strike.hammers":   {"pins          = 8", "pins = 1", "hammers       = [ {", "hammers = [ { mass_g = 1.0, lift_mm = 1.0, spring_n = 0.0 }, {"},
		"striking.strike.pin_arbor": {`pin_arbor     = "pin"`, `pin_arbor = "fly"`},
	} {
		_, err := Compile(readSample(t, "strike-quick", edit...))
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "found") {
			t.Errorf("%v, want %s", err, want)
		}
	}
	if got := train.QuartersIn12Hours(); got != 120 {
		t.Errorf("%d quarters", got)
	}
}

// Units of pin work and fly, against SI written by hand.
func TestUnitsOfStriking(t *testing.T) {
	tr := sample(t, "strike-quick", "thickness_mm    = 0.6", "thickness_mm = 0.6\ninertia_g_mm2 = 250", "[[train]]", "[place]\nair_density_kg_m3 = 1.1\n[[train]]")[0]
	closeTo(t, "inertia", tr.Striker.Inertia(), 250e-9, 1e-12)
	// ½ ρ Cd Σ w (ro⁴ − ri⁴)/4 of two vanes.
	closeTo(t, "drag", tr.Striker.Drag(), 0.5*1.1*1.2*2*0.024*math.Pow(0.015, 4)/4, 1e-12)
	w := tr.Striker.Power(0.5)
	closeTo(t, "hammer work", w.Hammers, (0.030*9.80665+0.4)*0.016, 1e-9)
	closeTo(t, "fly radius", tr.FlyRadius(), 0.015, 1e-12)
}

// BenchmarkStrikingRunDown has rows at each quarter turn, each with its strike
// of twelve.
func BenchmarkStrikingRunDown(b *testing.B) {
	tr := sample(b, "strike-pleasant")[0]
	var res Result
	b.ReportAllocs()
	for b.Loop() {
		if err := tr.RunInto(&res, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// TestTwelve: what a run calls a strike of twelve is what a timed one says, from the first
// blow to the last, eleven intervals of which the first are slower; and a trial at the bench
// counts its intervals likewise.
func TestTwelve(t *testing.T) {
	row := run(t, sample(t, "strike-pleasant")[0], Options{}).Rows[3]
	timed := fmt.Sprintf("timed = { torque_nm = %v, twelve_s = %v }\n[train.fly]", row.FuseeTorque, row.Twelve)
	again := run(t, sample(t, "strike-pleasant", "[train.fly]", timed)[0], Options{})
	closeTo(t, "drag", again.Drag, 1.2, 1e-9)
	closeTo(t, "interval there", again.Rows[3].BlowInterval, row.BlowInterval, 1e-9)
	if mean := row.Twelve / 11; mean < row.BlowInterval || mean > 1.1*row.BlowInterval {
		t.Errorf("%v s in the mean of eleven intervals, %v s steady", mean, row.BlowInterval)
	}
	twelve := book.Trial{TwelveS: row.Twelve, BlowIntervalS: math.NaN()}
	closeTo(t, "at the bench", twelve.Interval(), row.Twelve/11, 1e-15)
}

// A strike timed at the fly's own pace tells the fly's coefficient, and the run is that
// of the fly it came from; another one that could not be is blamed on its key.
func TestTimedStrike(t *testing.T) {
	untimed := run(t, sample(t, "strike-pleasant")[0], Options{})
	striker := &untimed.Train.Striker
	interval := striker.Steady(0.36).Interval
	timed := func(text string) []string { return []string{"[train.fly]", text + "\n[train.fly]"} }
	res := run(t, sample(t, "strike-pleasant", timed(fmt.Sprintf("timed = { torque_nm = 0.36, blow_interval_s = %v }", interval))...)[0], Options{})
	closeTo(t, "drag", res.Drag, 1.2, 1e-9)
	closeTo(t, "interval", res.Cadence.Interval.Mean, untimed.Cadence.Interval.Mean, 1e-9)
	all := striker.Twelve(0.36)
	twelve := all.Blown
	closeTo(t, "the first blow", all.First(), striker.Blows(0.36, 1, nil).Seconds(), 1e-12)
	closeTo(t, "by twelve", run(t, sample(t, "strike-pleasant", timed(fmt.Sprintf("timed = { torque_nm = 0.36, twelve_s = %v }", twelve))...)[0], Options{}).Drag, 1.2, 1e-9)
	if !res.Timed || res.Untimed || untimed.Timed || !untimed.Untimed {
		t.Errorf("timed %v, %v; untimed %v, %v", res.Timed, res.Untimed, untimed.Timed, untimed.Untimed)
	}
	// Told, with its spread only where nothing tells it.
	is, was := fmt.Sprint(words.Summary(res), words.Reasons(&res.Digest)), fmt.Sprint(words.Summary(untimed), words.Reasons(&untimed.Digest))
	if strings.Contains(is, "±") || !strings.Contains(is, "drag coefficient of the fly 1.20, from the timed strike") || strings.Count(was, "± 25 %") != 2 || strings.Contains(was, "timed strike") {
		t.Errorf("%s\n%s", is, was)
	}
	if notes := fmt.Sprint(words.Notes(&res.Digest)); strings.Contains(notes, "drag coefficient") {
		t.Error(notes)
	}
	quick := run(t, sample(t, "strike-pleasant", timed("timed = { torque_nm = 0.36, blow_interval_s = 0.7 }")...)[0], Options{})
	if notes := fmt.Sprint(words.Notes(&quick.Digest)); !(quick.Drag < 0.5) || !strings.Contains(notes, "flies have 0.500 to 3.00") {
		t.Errorf("%v: %s", quick.Drag, notes)
	}
	for text, key := range map[string]string{
		"timed = { torque_nm = 0.1, blow_interval_s = 1.4 }":    "striking.strike.timed.torque_nm",
		"timed = { torque_nm = 0.36, blow_interval_s = 90 }":    "striking.strike.timed.blow_interval_s",
		"timed = { torque_nm = 0.36, blow_interval_s = 0.012 }": "striking.strike.timed.blow_interval_s",
		"timed = { torque_nm = 0.36, twelve_s = 0.2 }":          "striking.strike.timed.twelve_s",
	} {
		var fault *Error
		if _, err := Compile(readSample(t, "strike-pleasant", timed(text)...)); !errors.As(err, &fault) || fault.Fault.Key != key {
			t.Errorf("%s: %v, want the key %s", text, err, key)
		}
	}
}
