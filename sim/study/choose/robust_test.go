package choose

import (
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
)

// A spring with no more turns than it needs is fitted, and is
// not to be ordered.
func TestNothingToSpare(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	list := drawer(t)
	list.Springs = []stock.Spring{{Label: "x", WidthMM: 32, ThicknessMM: 0.38, LengthMM: 755, YieldMPa: nan, ModulusGPa: nan}}
	c := study(t, s, 0, list, asIs).Candidates[0]
	if left := c.Digest.Spare(); !c.Fits() || left < 0 || left >= 1 || c.Length() != 755 || c.Orders() {
		t.Errorf("%+v", c.Digest.Standing())
	}
}

// A spring's modulus is its own: the next in the list has the scenario's again.
func TestOwnModulus(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	list := listOf([3]float64{32, 0.38, 1650}, [3]float64{32, 0.38, 1650}, [3]float64{32, 0.38, 1650})
	list.Springs[1].ModulusGPa, list.Springs[1].YieldMPa = 190, 1500
	st := study(t, s, 0, list, asIs)
	mean := map[string]float64{}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		mean[c.Label] = c.Digest.Torque.Mean
		if r := byHand(t, s, 0, setsOf(c)); r.Torque.Mean != c.Digest.Torque.Mean {
			t.Errorf("%s: %v, by a run %v", c.Label, c.Digest.Torque.Mean, r.Torque.Mean)
		}
	}
	if mean["a"] != mean["c"] || !(mean["b"] < mean["a"]) {
		t.Errorf("%v", mean)
	}
}

// Every train of every sample: going, striking by its cadence, with a cone asked to
// be even, with present springs too strong and too weak.
func TestEveryTrain(t *testing.T) {
	for _, name := range []string{"eight-day", "too-strong", "too-weak", "strike-quick", "strike-pleasant", "three-trains"} {
		s, trains := trial.Compile(t, name)
		for number := range trains {
			st := study(t, s, number, drawer(t), asIs)
			inOrder(t, st)
			if liked, basis := st.Present.Digest.Standard.Liked, st.Present.Digest.Standard.Basis; basis != rules.ByReserve {
				closeTo(t, "target", st.Target.Mean, (liked.Lo+liked.Hi)/2, 1e-12)
				asked := study(t, s, number, drawer(t), Options{Reserve: 1.5, EndShake: nan})
				closeTo(t, "target", asked.Target.Mean, 1.5*asked.Present.Digest.Need.Used, 1e-12)
				continue
			}
			closeTo(t, "target", st.Target.Mean, rules.TargetReserve*st.Present.Digest.Need.Used, 1e-12)
			even := s.Trains[number].Fusee.Profile == scenario.Even
			if id := &st.Ideals[0]; id.Found() && !even { // an even cone would be cut anew
				r := byHand(t, s, number, idealSets(id))
				closeTo(t, name+" reserve of the ideal", r.Reserve(r.Torque.Mean), rules.TargetReserve, 1e-6)
			}
		}
	}
}

// A present spring that binds does not hide what the fusee takes.
func TestPresentSpringBinds(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "length_mm    = 700.0")
	sound := sampleStudy(t)
	st := study(t, s, 0, drawer(t), asIs)
	closeTo(t, "turns taken", st.shop.takes, sound.shop.takes, 1e-15)
	if st.First != rules.AnotherSpring || st.SetUp != nil || st.Candidates[0].Label != "A1" || st.Candidates[0].Digest.Torque.Mean != sound.Candidates[0].Digest.Torque.Mean {
		t.Errorf("first %v, %+v", st.First, st.Candidates[0])
	}
}

// The present spring is told in the sizes of the scenario.
func TestPresent(t *testing.T) {
	p := &sampleStudy(t).Present
	for i, want := range []float64{32, 0.38, 1650} {
		closeTo(t, "size", [...]float64{p.Width, p.Thickness, p.Length}[i], want, 1e-12)
	}
}
