package choose

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/stock"
	"evenpull/sim/study/sure"
)

// synthetic is a stock of springs drawn at random.
func synthetic(n int) *stock.Stock {
	r := rand.New(rand.NewPCG(17, 4))
	list := &stock.Stock{EndShakeMM: 1, Source: "synthetic"}
	for i := range n {
		s := stock.Spring{
			Label: fmt.Sprintf("s%03d", i), WidthMM: 20 + math.Round(r.Float64()*28)/2, ThicknessMM: math.Round(30+r.Float64()*16) / 100,
			LengthMM: 900 + 10*math.Round(r.Float64()*140), YieldMPa: nan, ModulusGPa: nan, MayBeCut: r.Float64() < 0.8,
		}
		if r.Float64() < 0.3 {
			s.YieldMPa = 1500 + math.Round(r.Float64()*300)
		}
		list.Springs = append(list.Springs, s)
	}
	return list
}

// worth is the rank of a standing by the rules, the least first, spelt out anew.
func worth(s *rules.Standing, spareFirst bool) float64 {
	code := map[rules.Code]float64{rules.Suits: 0, rules.Strong: 1, rules.Thin: 2, rules.Overdriven: 3, rules.Stops: 4}[s.Code]
	short := 0.0
	if s.Spare < 1-1e-6 {
		short = 1
	}
	if spareFirst {
		return 1000*short + 20*code + float64(s.Faults)
	}
	return 20*code + float64(s.Faults) + short/2
}

// plainly is what a strip comes to at a length in mm: every click is tried, and the
// present 15 stay unless a fifth and two points of 100 are won. ok tells whether the
// fusee can be wound at all.
func plainly(tr sim.Train, length float64) (best rules.Standing, ok bool) {
	tr.Drive.Spring.Length = length * 1e-3
	var r sim.Result
	var present *rules.Standing
	for k := range 240 {
		tr.Drive.Barrel.SetUp = float64(k) / 12
		if err := tr.RunInto(&r, sim.Options{}); err != nil || r.TurnsLost > 1e-9 {
			break
		}
		s := rules.Standing{Code: r.Verdict.Code, Faults: r.Faults.Count(), Unevenness: r.Torque.Unevenness, Spare: r.Spring.Ideal - r.Spring.Used - float64(k)/12, Clicks: float64(k)}
		if a, b := worth(&s, true), worth(&best, true); !ok || a < b || a == b && s.Unevenness < best.Unevenness {
			best, ok = s, true
		}
		if k == 15 && s.Spare >= 1-1e-6 {
			present = &s
		}
	}
	if gain := 0.0; present != nil && worth(present, true) <= worth(&best, true) {
		if gain = present.Unevenness - best.Unevenness; gain < 0.02 || gain < 0.2*present.Unevenness {
			return *present, true
		}
	}
	return best, ok
}

// Against a plain search over every click and every twentieth millimetre: the set-up
// is that of the rules, no length has a better verdict, none longer has one as good, and
// the order is that of the rules.
func TestBruteForce(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	s, trains := trial.Compile(t, "eight-day")
	list := synthetic(40)
	for i := range list.Springs {
		if i%2 == 0 { // longer than is good for most
			list.Springs[i].LengthMM = 2000 + math.Round(list.Springs[i].LengthMM)
		}
	}
	st := study(t, s, 0, list, asIs)
	fitted, cut := 0, 0
	for i := range st.Candidates {
		c := &st.Candidates[i]
		tr := trains[0]
		d := &tr.Drive.Spring
		d.Width, d.Thickness = c.WidthMM*1e-3, c.ThicknessMM*1e-3
		if c.YieldMPa == c.YieldMPa {
			d.Yield = c.YieldMPa * 1e6
		}
		// The strip fills 95 of 100 parts of the barrel at most.
		longest := min(c.LengthMM, math.Floor(0.95*(45*45-15*15)*math.Pi/4/(1.065*c.ThicknessMM)))
		if c.WidthMM > 32.2 || longest < c.LengthMM && !c.MayBeCut {
			if c.Fits() {
				t.Errorf("%s is fitted", c.Label)
			}
			continue
		}
		whole, fits := plainly(tr, longest)
		if fits != c.Fits() && !c.MayBeCut {
			t.Errorf("%s: %+v; plainly %v", c.Label, c.Refused, fits)
		}
		if !c.Fits() {
			for length := 500.0; length < longest && c.MayBeCut; length += 20 {
				if _, ok := plainly(tr, length); ok {
					t.Errorf("%s: %+v, but it goes in at %v mm", c.Label, c.Refused, length)
				}
			}
			continue
		}
		fitted++
		got := c.Digest.Standing()
		want, _ := plainly(tr, c.Length())
		if got.Code != want.Code || got.Faults != want.Faults || math.Abs(got.Clicks-want.Clicks) > 1e-9 || math.Abs(got.Unevenness-want.Unevenness) > 1e-12 || math.Abs(got.Spare-want.Spare) > 1e-9 {
			t.Errorf("%s: %+v; plainly %+v", c.Label, got, want)
		}
		at := worth(&got, false)
		if c.Length() < longest {
			cut++
			if fits && worth(&whole, false) <= at {
				t.Errorf("%s is cut to %v mm, where it comes to %+v, and whole to %+v", c.Label, c.Length(), got, whole)
			}
			if longer, ok := plainly(tr, c.Length()+1); ok && worth(&longer, false) <= at && longer.Spare >= 1 {
				t.Errorf("%s is cut to %v mm, where it comes to %+v, a millimetre longer to %+v", c.Label, c.Length(), got, longer)
			}
		}
		if !c.MayBeCut || at == 0 {
			continue
		}
		for length := 500.0; length < longest; length += 20 {
			if other, ok := plainly(tr, length); ok && other.Spare >= 1 && (worth(&other, false) < at || worth(&other, false) == at && length > c.Length()+20 && c.Length() < longest) {
				t.Errorf("%s comes to %+v at %v mm, and at %v to %+v", c.Label, got, c.Length(), length, other)
				break
			}
		}
	}
	t.Logf("%d springs fitted, %d of them cut", fitted, cut)
	if fitted < 25 || cut < 5 {
		t.Errorf("%d springs fitted, %d of them cut", fitted, cut)
	}
	inOrder(t, st)
}

// inOrder wants the rule of the ranking, spelt out anew.
func inOrder(t *testing.T, st *Study) {
	t.Helper()
	key := func(c *Candidate) [5]float64 {
		s := c.Digest.Standing()
		s.Faults = min(s.Faults, 1)
		if !c.Fits() {
			return [5]float64{1, c.Refused.Miss}
		}
		return [5]float64{0, worth(&s, false), math.Abs(s.Clicks - st.shop.present), s.Unevenness}
	}
	for i := 1; i < len(st.Candidates); i++ {
		a, b := key(&st.Candidates[i-1]), key(&st.Candidates[i])
		for k := range a {
			if math.Abs(a[k]-b[k]) > 1e-9 {
				if a[k] > b[k] {
					t.Errorf("%s %v stands before %s %v", st.Candidates[i-1].Label, a, st.Candidates[i].Label, b)
				}
				break
			}
		}
	}
}

// BenchmarkThousand is a stock of a thousand springs, each with its best length and
// set-up, and draws of those that can come first: 4 s are to be enough on two cores.
func BenchmarkThousand(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	list := synthetic(1000)
	for b.Loop() {
		study(b, s, 0, list, Options{Reserve: nan, EndShake: nan, Sure: &sure.Options{Seed: 1}})
	}
}
