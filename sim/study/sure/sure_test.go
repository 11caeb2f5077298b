package sure

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/stat/distuv"
)

func of(t testing.TB, s *scenario.Scenario, number int, o Options) sim.Sureness {
	t.Helper()
	r, err := Of(t.Context(), s, number, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// onlyUnsure is a scenario in which all inputs of the first train are exact but some, as
// their tolerances say.
func onlyUnsure(t testing.TB, s *scenario.Scenario, some ...scenario.Tolerance) *scenario.Scenario {
	t.Helper()
	inputs, err := vary.Inputs(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	s.Tolerances = some
	for _, in := range inputs {
		for _, p := range in.Parts {
			if key := p.Quantity.Key; !slices.ContainsFunc(some, func(t scenario.Tolerance) bool { return t.Key == key }) {
				s.Tolerances = append(s.Tolerances, scenario.Tolerance{Key: key, PlusMinus: 1e-12, Percent: math.NaN(), Shape: scenario.Normal})
			}
		}
	}
	return s
}

const need, width = "going.demand.least_torque_nm", "going.mainspring.width_mm"

func normal(key string, plusMinus float64) scenario.Tolerance {
	return scenario.Tolerance{Key: key, PlusMinus: plusMinus, Percent: math.NaN(), Shape: scenario.Normal}
}

// Where only the need is not known exactly, the shares are those of its distribution
// between the borders of the verdict, which it decides alone; how well it would have to
// be known is what puts the nearest border at the wanted probability (closed forms).
func TestOneInput(t *testing.T) {
	s, trains := trial.Compile(t, "eight-day")
	d := trial.Run(t, trains)[0].Digest
	thinAbove, strongBelow := d.Torque.Min/d.Standard.Bands.Thin, d.Torque.Mean/d.Standard.Bands.Suits
	const plusMinus = 0.06
	of := of(t, onlyUnsure(t, s, normal(need, plusMinus)), 0, Options{Draws: 20_000, Seed: 3})
	n := distuv.Normal{Mu: 0.33, Sigma: plusMinus / 2}
	same, thin := n.CDF(thinAbove)-n.CDF(strongBelow), n.CDF(d.Torque.Min)-n.CDF(thinAbove)
	for _, c := range [][2]float64{{of.Same, same}, {of.Suits, same}, {of.ElseIn, thin}} {
		if math.Abs(c[0]-c[1]) > 4*math.Sqrt(c[1]*(1-c[1])/20_000) {
			t.Errorf("%v, want %v", c[0], c[1])
		}
	}
	by := of.Decides.Inputs[0]
	if of.Else != rules.Thin || by.Key != need || of.Decides.Alone != 1 || math.Abs(by.Now-plusMinus) > 1e-12 || by.Times || by.Assumed || by.Unit != "N·m" {
		t.Errorf("%+v", of)
	}
	share := func(by float64) float64 { return distuv.Normal{Mu: 0.33, Sigma: by / 2}.CDF(thinAbove) }
	if unit := 0.01; !(share(by.Within) >= sim.SureEnough-0.01 && share(by.Within+unit) < sim.SureEnough) {
		t.Errorf("within %v: %v; within %v: %v", by.Within, share(by.Within), by.Within+unit, share(by.Within+unit))
	}
}

// What two inputs decide together neither does alone: the torque goes with the width,
// of a narrow strip, and the reserve with width over need.
func TestTwoInputs(t *testing.T) {
	s, trains := trial.Compile(t, "eight-day", "width_mm     = 32.0", "bending = \"strip\"\nwidth_mm = 36", "inside_height_mm    = 33.2", "inside_height_mm = 42")
	d := trial.Run(t, trains)[0].Digest
	border := math.Log(d.Torque.Min / 0.33 / d.Standard.Bands.Thin)
	// Each alone is as far from the border as makes 0.9.
	sd := border / distuv.UnitNormal.Quantile(0.9)
	st := of(t, onlyUnsure(t, s, normal(need, 2*sd*0.33), normal(width, 2*sd*36)), 0, Options{Draws: 20_000, Seed: 1})
	if want := distuv.UnitNormal.CDF(distuv.UnitNormal.Quantile(0.9) / math.Sqrt2); math.Abs(st.Same-want) > 0.02 {
		t.Errorf("sure to %v, want about %v", st.Same, want)
	}
	by := st.Decides
	if math.Abs(by.Alone-0.9) > 0.03 || by.All != 1 || len(by.With()) != 1 || !math.IsNaN(by.Inputs[0].Within) || by.Inputs[0].Key == by.Inputs[1].Key || by.Inputs[2].Key != "" {
		t.Errorf("%+v", by)
	}
}

// A clock in the middle of what suits is sure, and nothing decides; one that is not judged
// has nothing to be sure of; one that stops by far stops for sure.
func TestSureAndUnjudged(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "least_torque_nm = 0.33", "least_torque_nm = 0.305")
	s = onlyUnsure(t, s)
	if r := of(t, s, 0, Options{}); r.Same != 1 || r.Draws != Draws || r.Else != rules.Unjudged || r.Decides.Inputs[0].Key != "" {
		t.Errorf("%+v", r)
	}
	s, _ = trial.Compile(t, "eight-day", "least_torque_nm = 0.33", "least_torque_nm = 3.3")
	if r := of(t, s, 0, Options{Draws: 300}); r.Same != 1 || r.Suits != 0 {
		t.Errorf("%+v", r)
	}
	s.Trains[0].Escapement, s.Trains[0].Pendulum, s.Trains[0].Demand.LeastTorqueNM = nil, nil, math.NaN()
	if r := of(t, s, 0, Options{}); r != (sim.Sureness{}) {
		t.Errorf("%+v", r)
	}
}

// A draw that cannot be built counts against the verdict.
func TestNotBuilt(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	longest := 3400.0 // mm; half of the draws do not go into the barrel
	s = onlyUnsure(t, s, scenario.Tolerance{Key: "going.mainspring.length_mm", PlusMinus: 2 * (longest - 1650), Percent: math.NaN(), Shape: scenario.Uniform})
	r := of(t, s, 0, Options{Draws: 1000, Brief: true})
	if !(r.Same < 0.75) || r.Same+r.ElseIn > 0.85 || r.Decides.Inputs[0].Key != "" {
		t.Errorf("%+v", r)
	}
}

// The same seed gives the same whatever the number of cores; other draws give nearly it.
func TestSeedAndCores(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	for number := range s.Trains {
		o := Options{Draws: 1500, Seed: 5}
		want := of(t, s, number, o)
		before := runtime.GOMAXPROCS(1)
		if got := of(t, s, number, o); fmt.Sprint(got) != fmt.Sprint(want) { // NaN is NaN here
			t.Errorf("on one core %+v, on several %+v", got, want)
		}
		runtime.GOMAXPROCS(before)
		o.Seed = 6
		if got := of(t, s, number, o); got.Same == want.Same && got.ElseIn == want.ElseIn || math.Abs(got.Same-want.Same) > 0.06 {
			t.Errorf("another seed: %v, then %v", want.Same, got.Same)
		}
	}
	ended, stop := context.WithCancel(t.Context())
	stop()
	if _, err := Of(ended, s, 0, Options{}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	s.Trains[0].Mainspring.LengthMM = 1e6
	if _, err := Of(t.Context(), s, 0, Options{}); err == nil {
		t.Error("a strip that does not go in")
	}
}

// What is told of the input that decides is what the draws give with it known.
func TestDecidesIsConfirmed(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	for _, c := range []struct {
		name   string
		number int
	}{{"eight-day", 0}, {"strike-pleasant", 0}, {"strike-quick", 0}, {"three-trains", 0}, {"three-trains", 2}, {"too-weak", 0}} {
		s, _ := trial.Compile(t, c.name)
		r := of(t, s, c.number, Options{Seed: 1})
		by := r.Decides
		if by.Inputs[0].Key == "" {
			if r.Same < sim.SureEnough {
				t.Errorf("%s: sure to %v, and nothing decides", c.name, r.Same)
			}
			continue
		}
		known := s.Clone()
		list, err := vary.Inputs(s, c.number)
		if err != nil {
			t.Fatal(err)
		}
		for _, in := range list {
			if in.Key == by.Inputs[0].Key && len(in.Parts) == 1 && in.Parts[0].Error.Times == 0 {
				known.Tolerances = append(slices.DeleteFunc(known.Tolerances, func(t scenario.Tolerance) bool { return t.Key == in.Key }), normal(in.Key, 1e-9))
				if a := of(t, known, c.number, Options{Seed: 9, Brief: true}); math.Abs(a.Same-by.Alone) > 0.04 {
					t.Errorf("%s: %s known, sure to %v, told %v", c.name, in.Key, a.Same, by.Alone)
				}
			}
		}
		if by.Alone < r.Same-0.02 || by.All < by.Alone-0.02 {
			t.Errorf("%s: %+v", c.name, r)
		}
	}
}

// A variant is a scenario with its values written in; set up anew it is as sure as with a
// set-up read to a quarter of a click, and a steel that nobody states makes it less sure.
func TestVariant(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	change := func(tr *scenario.Train) { tr.Barrel.SetUpTurns = 1.5 }
	v := s.Clone()
	change(&v.Trains[0])
	got, err := Variant(t.Context(), s, 0, Options{Seed: 2}, change)
	if want := of(t, v, 0, Options{Seed: 2}); err != nil || fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%+v, want %+v, %v", got, want, err)
	}
	s.Tolerances = nil
	anew, found := of(t, s, 0, Options{Seed: 2, Anew: true, Brief: true}), of(t, s, 0, Options{Seed: 2, Brief: true})
	quarter := s.Clone()
	quarter.Tolerances = []scenario.Tolerance{normal("going.barrel.set_up_turns", 1.0/48)}
	if want := of(t, quarter, 0, Options{Seed: 2, Brief: true}); anew != want || !(anew.Same > found.Same) {
		t.Errorf("anew %v, want %v; as found %v", anew.Same, want.Same, found.Same)
	}
	stated, not := of(t, s, 0, Options{Seed: 2, Steel: Stated, Brief: true}), of(t, s, 0, Options{Seed: 2, Steel: Unstated, Brief: true})
	if !(stated.Same > not.Same) || stated != found {
		t.Errorf("steel as read %v, stated %v, not stated %v", found.Same, stated.Same, not.Same)
	}
	// An even cone stays as it is cut: with another set-up it is not even any more.
	three, _ := trial.Compile(t, "three-trains")
	own := of(t, three, 2, Options{Seed: 2, Brief: true})
	same, err := Variant(t.Context(), three, 2, Options{Seed: 2, Brief: true}, func(*scenario.Train) {})
	if err != nil || same != own {
		t.Errorf("%+v, own %+v, %v", same, own, err)
	}
	wound := func(tr *scenario.Train) { tr.Barrel.SetUpTurns = 0.25 }
	kept, err := Variant(t.Context(), three, 2, Options{Seed: 2, Brief: true}, wound)
	wound(&three.Trains[2])
	if anew := of(t, three, 2, Options{Seed: 2, Brief: true}); err != nil || kept == anew {
		t.Errorf("the cone is cut anew for another set-up: %+v, %v", kept, err)
	}
}

// BenchmarkSure is the draws of a run of the eight-day clock, and what decides.
func BenchmarkSure(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	b.ReportAllocs()
	for b.Loop() {
		of(b, s, 0, Options{})
	}
}

// What is asked for is rounded down to one digit, or two that begin with 1; of a factor
// what is above 1.
func TestRoundDown(t *testing.T) {
	for _, c := range []struct {
		v      float64
		factor bool
		want   float64
	}{{0.0123, false, 0.012}, {0.0199, false, 0.019}, {0.02, false, 0.02}, {0.029, false, 0.02}, {64.2, false, 60}, {0.4, false, 0.4}, {119, false, 110}, {1.299, true, 1.2}, {1.199, true, 1.19}} {
		if got := roundDown(c.v, c.factor); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v, a factor %v: %v, want %v", c.v, c.factor, got, c.want)
		}
	}
}

// A factor is known well enough as a factor: with the drag coefficient of the fly as well
// known as it is told to have to be, the verdict is as sure as is told.
func TestWithinOfAFactor(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	const key = "striking.fly.drag_coefficient"
	r := of(t, s, 1, Options{Seed: 1})
	by := r.Decides.Inputs[0]
	if by.Key != key || !by.Times || !(by.Within > 1 && by.Within < by.Now) || !by.Assumed {
		t.Fatalf("%+v", r)
	}
	share := func(factor float64) float64 {
		// Near 1 a factor is as a share to both sides.
		known := s.Clone()
		known.Tolerances = append(known.Tolerances, scenario.Tolerance{Key: key, PlusMinus: math.NaN(), Percent: 100 * math.Log(factor), Shape: scenario.Normal})
		return of(t, known, 1, Options{Seed: 1, Brief: true}).Same
	}
	if at, wider := share(by.Within), share(by.Within+0.1); !(at > sim.SureEnough-0.01 && wider < at) {
		t.Errorf("within a factor of %v sure to %v, of %v to %v", by.Within, at, by.Within+0.1, wider)
	}
}

// What is asked for changes the errors of set-up and steel, unless a tolerance has them,
// and no other; with another cone its diameters are exact. Steel that nobody states is
// assumed, that of a dealer is not.
func TestApply(t *testing.T) {
	const setUp, steel = "going.barrel.set_up_turns", "going.mainspring.yield_mpa"
	s, _ := trial.Compile(t, "eight-day")
	s.Tolerances = nil
	held := s.Clone()
	held.Tolerances = []scenario.Tolerance{normal(setUp, 0.5), normal(steel, 50)}
	for _, o := range []Options{{}, {Anew: true}, {Steel: Stated}, {Steel: Unstated}, {Anew: true, Steel: Unstated, Cone: &fusee.Cone{}}} {
		for _, s := range []*scenario.Scenario{s, held} {
			was, err := vary.Inputs(s, 0)
			if err != nil {
				t.Fatal(err)
			}
			inputs, err := vary.Inputs(s, 0)
			if err != nil {
				t.Fatal(err)
			}
			is := map[string]vary.Input{}
			for _, in := range o.apply(inputs, "going") {
				is[in.Key] = in
			}
			for _, want := range was {
				in, there := is[want.Key]
				e := &want.Parts[0].Error
				switch {
				case strings.HasPrefix(want.Key, "going.fusee."):
					if there != (o.Cone == nil) {
						t.Errorf("%+v: %s stays %v", o, want.Key, there)
					}
					continue
				case s == held:
				case want.Key == setUp && o.Anew:
					*e = scenario.ReadingError{PlusMinus: 1.0 / 48} // a quarter of one of 12 clicks
				case want.Key == steel && o.Steel != AsRead:
					*e, want.Assumed = scenario.FlowStressError(o.Steel == Stated), o.Steel == Unstated
				}
				got := &in.Parts[0].Error
				if closeBy := math.Abs(got.PlusMinus-e.PlusMinus) < 1e-12; closeBy {
					got.PlusMinus = e.PlusMinus
				}
				if *got != *e || in.Assumed != want.Assumed || len(in.Parts) != len(want.Parts) {
					t.Errorf("%+v: %+v, want %+v", o, in, want)
				}
			}
		}
	}
}

// What cannot be built is no verdict at all.
func TestJudgedWhereNotBuilt(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := begin(s, 0, Options{Draws: 1})
	if err != nil {
		t.Fatal(err)
	}
	far := make([]float64, st.parts)
	for k := range far {
		far[k] = -1000 // no strip has a length below 0
	}
	if code, _ := judged(st.tried[0], far, nil); code != notBuilt {
		t.Errorf("judged %v", code)
	}
}

// What is seen of the draws without a run is near what running them all gives, and with
// those near a limit run it is that, but for a draw in a thousand. Many are clear of every limit.
func TestSurrogate(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	for _, name := range []string{"eight-day", "strike-pleasant", "too-weak"} {
		s, _ := trial.Compile(t, name)
		st, err := begin(s, 0, Options{Draws: 1500, Seed: 4})
		if err != nil {
			t.Fatal(err)
		}
		if err := st.draw(t.Context()); err != nil {
			t.Fatal(err)
		}
		g := st.surrogate()
		for i := range st.inputs {
			scale := st.knowing([]int{i})
			same, clear := 0, 0
			for draw := range st.runs {
				code, _ := judged(st.tried[0], st.at(draw), scale)
				if code == st.own.Verdict.Code {
					same++
				}
				if g.clear(draw, g.with(draw, scale)) {
					clear++
				}
			}
			ran := float64(same) / float64(st.runs)
			told, err := g.share(t.Context(), scale)
			if err != nil || math.Abs(told-ran) > 0.001 {
				t.Errorf("%s: with %s known %v, by runs of all %v, %v", name, st.inputs[i].Key, told, ran, err)
			}
			if seen := g.guess(scale); math.Abs(seen-ran) > 0.02 {
				t.Errorf("%s: with %s known %v is guessed, by runs %v", name, st.inputs[i].Key, seen, ran)
			}
			if 3*clear < st.runs {
				t.Errorf("%s: only %d draws are clear", name, clear)
			}
		}
	}
}
