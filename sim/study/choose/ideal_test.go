package choose

import (
	"fmt"
	"math"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// idealSets are the values of an ideal spring.
func idealSets(id *Ideal) map[string]float64 {
	return map[string]float64{"mainspring.width_mm": id.Width, "mainspring.thickness_mm": id.Thickness, "mainspring.length_mm": id.Length, "barrel.set_up_turns": id.Digest.Spring.SetUp}
}

// The ideal spring, run, gives the reserve aimed at: to 0.1 % by contract, here to
// a millionth.
func TestIdealGivesTheTarget(t *testing.T) {
	for _, reserve := range []float64{1.2, 1.3, 1.5} {
		s, _ := trial.Compile(t, "eight-day")
		st := study(t, s, 0, drawer(t), Options{Reserve: reserve, EndShake: nan})
		closeTo(t, "target", st.Target.Mean, reserve*0.33, 1e-12)
		for i := range st.Ideals {
			id := &st.Ideals[i]
			r := byHand(t, s, 0, idealSets(id))
			closeTo(t, "reserve", r.Reserve(r.Torque.Mean), reserve, 1e-6)
			closeTo(t, "fill", r.Spring.Fill, id.Fill, 1e-9)
			closeTo(t, "unevenness", r.Torque.Unevenness, id.Digest.Torque.Unevenness, 1e-9)
			if id.Fill != st.Present.Digest.Spring.Fill && id.Fill != 0.5 {
				t.Errorf("%v mm wide fills %v", id.Width, id.Fill)
			}
			if r.Verdict != id.Digest.Verdict || r.Spring.SetUp != math.Round(r.Spring.SetUp*12)/12 || id.Ordered.Known() && r.Spare() < 1-1e-6 {
				t.Errorf("%v mm wide: %+v, by a run %+v", id.Width, id.Digest.Standing(), r.Standing())
			}
			moreEven(t, s, st, id)
		}
		if len(st.Ideals) != 4 || st.Ideals[0].Width != 32.2 || st.Ideals[3].Width != 22.5 {
			t.Errorf("%+v", st.Ideals)
		}
	}
}

// moreEven wants no other set-up, the thickness found anew for it, that leaves the turns
// to spare, to be advised.
func moreEven(t *testing.T, s *scenario.Scenario, st *Study, id *Ideal) {
	t.Helper()
	m := made{fitter: newFitter(&st.shop), width: id.Width, fill: id.Fill}
	now := id.Digest.Standing()
	for _, by := range []int{-6, -3, -2, -1, 1, 2, 3, 6} {
		click := int(math.Round(now.Clicks)) + by
		h, ok := m.thickness(st.Target.Mean, id.Thickness, max(float64(click)/12, 0))
		if click < 0 || !ok {
			continue
		}
		r := byHand(t, s, 0, map[string]float64{"mainspring.width_mm": id.Width, "mainspring.thickness_mm": h, "mainspring.length_mm": m.length(h), "barrel.set_up_turns": float64(click) / 12})
		closeTo(t, "mean", r.Torque.Mean, st.Target.Mean, 1e-6)
		then := r.Standing()
		if f := r.Advice.AnotherSetUp(&now, &then); f.Advised {
			t.Errorf("%v mm wide: %+v as told, %+v by %d clicks more", id.Width, now, then, by)
		}
	}
}

// What is ordered lies near the ideal, in sizes that are sold, and the range of
// thickness told is where it can be ordered: just within its ends it can, just outside
// it cannot.
func TestTolerance(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := sampleStudy(t)
	ends := func(what string, tol Tolerance, h float64, sets func(h float64) map[string]float64) {
		t.Helper()
		if !(tol.From <= h && h <= tol.To && tol.From > 0.8*h && tol.To < 1.2*h) {
			t.Errorf("%s: %+v about %v", what, tol, h)
		}
		for at, want := range map[float64]bool{tol.From * (1 + 1e-5): true, tol.To * (1 - 1e-5): true, tol.From * (1 - 1e-5): false, tol.To * (1 + 1e-5): false} {
			is := byHand(t, s, 0, sets(at)).Standing()
			if got := is.Sound() && is.Spare >= 1-1e-6; got != want {
				t.Errorf("%s: %v mm thick: %+v", what, at, is)
			}
		}
	}
	known := 0
	for i := range st.Ideals {
		id := &st.Ideals[i]
		o := &id.Ordered
		if !o.Known() {
			continue
		}
		known++
		if math.Abs(o.Thickness-id.Thickness) > 0.005+1e-9 || o.Thickness != math.Round(o.Thickness*1000)/1000 || o.Length != math.Round(o.Length) {
			t.Errorf("%v mm thick, %v mm long is ordered as %+v", id.Thickness, id.Length, o)
		}
		ends(fmt.Sprint(id.Width), o.Tolerance, o.Thickness, func(h float64) map[string]float64 {
			length := id.Fill * (45*45 - 15*15) * math.Pi / 4 / (1.065 * h)
			return map[string]float64{"mainspring.width_mm": id.Width, "mainspring.thickness_mm": h, "mainspring.length_mm": length, "barrel.set_up_turns": o.Digest.Spring.SetUp}
		})
	}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if c.Tolerance.Known() != c.Orders() || (c.Tolerance.Told() != nil) != c.Orders() {
			t.Errorf("%s, ordered %v, has the tolerance %v", c.Label, c.Orders(), c.Tolerance)
		}
		if !c.Orders() {
			continue
		}
		ends(c.Label, c.Tolerance, c.ThicknessMM, func(h float64) map[string]float64 {
			sets := setsOf(c)
			sets["mainspring.thickness_mm"] = h
			return sets
		})
	}
	if known != 3 {
		t.Errorf("%d of the springs to have made can be ordered", known)
	}
}

// The rule of thumb keeps w h³ in proportion to the torque; the exponent from the
// slope is that of two runs close together.
func TestThumb(t *testing.T) {
	st := sampleStudy(t)
	p := &st.Present
	for i := range st.Ideals {
		id := &st.Ideals[i]
		closeTo(t, "w h³ over the torque", id.Width*math.Pow(id.Thumb, 3)/st.Target.Mean, p.Width*math.Pow(p.Thickness, 3)/p.Digest.Torque.Mean, 1e-12)
	}
	m := made{fitter: newFitter(&st.shop), width: 32, fill: p.Digest.Spring.Fill}
	const step = 1e-4
	got := math.Log(m.mean(0.38*(1+step), 1.25)/m.mean(0.38*(1-step), 1.25)) / math.Log((1+step)/(1-step))
	closeTo(t, "exponent", p.Exponent, got, 1e-5)
	// A strip that never sets: EI κ goes with the cube, and fewer turns only add to it.
	if !(p.Exponent > 2 && p.Exponent < 3 && p.Unset > 3) {
		t.Errorf("exponents %v, %v", p.Exponent, p.Unset)
	}
}

// Springs known by their coils, or not at all, are tried in the steel that this
// tells of.
func TestSteel(t *testing.T) {
	set, _ := trial.Compile(t, "eight-day")
	coils := byHand(t, set, 0, nil).Spring.FreeCoils
	known := study(t, set, 0, drawer(t), asIs)
	c := set.Clone()
	c.Trains[0].Mainspring.YieldMPa, c.Trains[0].Mainspring.FreeCoils = math.NaN(), coils
	byCoils := study(t, c, 0, drawer(t), asIs)
	for i := range known.Candidates {
		a, b := &known.Candidates[i], &byCoils.Candidates[i]
		if a.Label != b.Label || a.Fits() && math.Abs(a.Digest.Torque.Mean/b.Digest.Torque.Mean-1) > 1e-8 {
			t.Errorf("%s %v, by coils %s %v", a.Label, a.Digest.Torque.Mean, b.Label, b.Digest.Torque.Mean)
		}
	}
	closeTo(t, "ideal", byCoils.Ideals[0].Thickness, known.Ideals[0].Thickness, 1e-8)

	// One that never set: only A3 has a yield stress of its own.
	if err := c.Apply([]string{"going.mainspring.natural_form=straight"}); err != nil {
		t.Fatal(err)
	}
	straight := study(t, c, 0, drawer(t), asIs)
	for i := range straight.Candidates {
		if a := &straight.Candidates[i]; a.Fits() {
			r := byHand(t, c, 0, setsOf(a))
			if set := r.Spring.FreeCoils > 0; set != scenario.Given(a.YieldMPa) || r.Torque.Mean != a.Digest.Torque.Mean {
				t.Errorf("%s: %v coils, mean %v, by a run %v", a.Label, r.Spring.FreeCoils, a.Digest.Torque.Mean, r.Torque.Mean)
			}
		}
	}
	if known.Steel != 1620e6 || known.ByCoils || math.Abs(byCoils.Steel/1620e6-1) > 1e-8 || !byCoils.ByCoils || !math.IsNaN(straight.Steel) {
		t.Errorf("steel of %v, %v, %v", known.Steel, byCoils.Steel, straight.Steel)
	}
}
