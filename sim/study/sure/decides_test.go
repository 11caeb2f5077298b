package sure

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// begun is a study whose draws are made, and the share that ends in its verdict.
func begun(t testing.TB, s *scenario.Scenario, number int, o Options) (st *study, same float64) {
	t.Helper()
	st, err := begin(s, number, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := st.draw(t.Context()); err != nil {
		t.Fatal(err)
	}
	for _, c := range st.codes {
		if c == st.own.Verdict.Code {
			same++
		}
	}
	return st, same / float64(st.runs)
}

// plainly is what a surrogate is, spelt out anew: every part adds what a parabola adds
// through the runs with that part alone off by −1, 0 and 1, or nothing where these cannot
// be built.
type plainly struct {
	st      *study
	middle  [4]float64
	at      [][3][4]float64 // of every part
	inputOf []int
}

func spelt(st *study) *plainly {
	p := &plainly{st: st}
	run := func(k int, place float64) [4]float64 {
		places := make([]float64, st.parts)
		places[k] = place
		r, err := st.tried[0].Run(places, nil)
		if err != nil {
			return p.middle
		}
		var l [4]float64
		for j, m := range r.Margins() {
			l[j] = math.Log(1 + m)
		}
		return l
	}
	p.middle = run(0, 0)
	for i, in := range st.inputs {
		for range in.Parts {
			k := len(p.at)
			p.at, p.inputOf = append(p.at, [3][4]float64{run(k, -1), p.middle, run(k, 1)}), append(p.inputOf, i)
		}
	}
	return p
}

// of is a draw with the error of each input a share of itself, and its verdict.
func (p *plainly) of(draw int, scale []float64) (l [4]float64, code rules.Code) {
	l = p.middle
	for k, y := range p.at {
		x := p.st.at(draw)[k] * scale[p.inputOf[k]]
		for j := range l {
			if by := y[0][j]*x*(x-1)/2 - y[1][j]*x*x + y[2][j]*x*(x+1)/2; by-by == 0 { // NaN and infinite ones add nothing
				l[j] += by
			}
		}
	}
	code = rules.ByMargins(l)
	if p.st.own.Need.Beyond {
		code = rules.AtBestThin(code)
	}
	return l, code
}

func (p *plainly) share(scale []float64) float64 {
	same := 0
	for draw := range p.st.runs {
		if _, code := p.of(draw, scale); code == p.st.own.Verdict.Code {
			same++
		}
	}
	return float64(same) / float64(p.st.runs)
}

// byRuns is the share of the same verdict when every draw is run again.
func byRuns(st *study, scale []float64) float64 {
	same := 0
	for draw := range st.runs {
		if r, err := st.tried[0].Run(st.at(draw), scale); err == nil && r.Verdict.Code == st.own.Verdict.Code {
			same++
		}
	}
	return float64(same) / float64(st.runs)
}

// What is seen of the draws without runs is a sum of parabolas, whatever inputs are known;
// the surest set is the surest of all sets with the first input in it; and what is not
// clear of every limit by as much as all but two of 100 draws are off is run again.
func TestSurrogateSpeltOut(t *testing.T) {
	long := scenario.Tolerance{Key: "going.mainspring.length_mm", PlusMinus: 3500, Percent: math.NaN(), Shape: scenario.Uniform} // more than goes in
	noSetUp := normal("going.barrel.set_up_turns", 0.4)                                                                          // less than none is none: without a torque at the end
	for _, c := range []struct {
		name       string
		number     int
		tolerances []scenario.Tolerance
		replace    []string
	}{
		{name: "eight-day"}, {name: "three-trains", number: 1}, {name: "strike-pleasant"},
		{name: "eight-day", replace: []string{"least_torque_nm = 0.33", ""}}, // the recoil lies about something else than what is assumed of it
		{name: "eight-day", tolerances: []scenario.Tolerance{long}},
		{name: "eight-day", tolerances: []scenario.Tolerance{noSetUp}, replace: []string{"set_up_turns        = 1.25", "set_up_turns = 0.1"}},
		{name: "eight-day", replace: []string{"least_torque_nm = 0.33", "", "escaping_arc_deg = 5.0 ", "margin_deg = 3.4\nrecoil_ratio = 2.5\nescaping_arc_deg = 5.0 "}}, // no torque gives the margin
	} {
		s, _ := trial.Compile(t, c.name, c.replace...)
		s.Tolerances = slices.DeleteFunc(s.Tolerances, func(o scenario.Tolerance) bool {
			return slices.ContainsFunc(c.tolerances, func(own scenario.Tolerance) bool { return own.Key == o.Key })
		})
		s.Tolerances = append(s.Tolerances, c.tolerances...)
		st, _ := begun(t, s, c.number, Options{Draws: 150, Seed: 2})
		g, p := st.surrogate(), spelt(st)
		scales := [][]float64{st.knowing(nil), st.knowing([]int{1, 4}), st.knowing([]int{0, 2, 5})}
		for i := range st.inputs {
			for _, share := range []float64{0, 0.3, 0.7} {
				scale := st.knowing(nil)
				scale[i] = share
				scales = append(scales, scale)
			}
		}
		off := p.off()
		for n, scale := range scales {
			if got, want := g.guess(scale), p.share(scale); got != want {
				t.Errorf("%s: with errors of %v guessed %v, want %v", c.name, scale, got, want)
			}
			if n >= 12 { // the rest is slow
				continue
			}
			got, err := g.share(t.Context(), scale)
			if want := byRuns(st, scale); err != nil || math.Abs(got-want) > 1.5/150 {
				t.Errorf("%s: with errors of %v %v, want %v, %v", c.name, scale, got, want, err)
			}
			for draw := 0; n < 5 && draw < st.runs; draw++ {
				l, _ := p.of(draw, scale)
				if got, want := g.clear(draw, g.with(draw, scale)), p.clear(draw, l, off); got != want {
					t.Errorf("%s: draw %d is clear %v, want %v", c.name, draw, got, want)
				}
			}
		}
		order := []int{3, 0, 1, 2, 4, 6, 5, 7}
		for size := 2; size <= 3; size++ {
			most := 0.0
			for _, i := range order[1:] {
				for _, k := range order[1:] {
					if set := []int{3, i, k}[:size]; i < k || size == 2 {
						most = max(most, p.share(st.knowing(set)))
					}
				}
			}
			got := g.surest(order, size)
			distinct := slices.Compact(slices.Sorted(slices.Values(got)))
			if len(distinct) != size || got[0] != 3 || p.share(st.knowing(got)) != most {
				t.Errorf("%s: %v makes sure to %v, the surest of %d to %v", c.name, got, p.share(st.knowing(got)), size, most)
			}
		}
	}
}

// off is how far from the sums 98 of 100 draws were, limit by limit.
func (p *plainly) off() (off [4]float64) {
	for j := range off {
		var all []float64
		for draw := range p.st.runs {
			all = append(all, p.far(draw)[j])
		}
		slices.Sort(all)
		off[j] = all[len(all)*98/100-1]
	}
	return off
}

// far is how far a draw was from the sums; 0 where either is not a number.
func (p *plainly) far(draw int) (far [4]float64) {
	l, _ := p.of(draw, p.st.knowing(nil))
	for j := range l {
		if by := math.Abs(p.st.logs[draw][j] - l[j]); by-by == 0 {
			far[j] = by
		}
	}
	return far
}

func (p *plainly) clear(draw int, l, off [4]float64) bool {
	_, code := (&plainly{st: p.st, middle: p.st.logs[draw]}).of(draw, nil)
	for j, far := range p.far(draw) {
		if far > off[j]*(1+1e-9)+1e-15 || math.Abs(l[j]) <= off[j] {
			return false
		}
	}
	return code == p.st.codes[draw]
}

// What is told of what decides holds among the draws, over invented clocks of every kind:
// one input alone, two or three together, or none that is enough.
func TestDecidesHolds(t *testing.T) {
	factor, _ := trial.Compile(t, "three-trains") // the drag of its fly is known to a factor
	factor.Trains = factor.Trains[1:2]
	clocks := []*scenario.Scenario{factor}
	for number := range uint64(60) {
		clocks = append(clocks, trial.Invent(t, number))
	}
	var kinds [5]int
	for number, s := range clocks {
		st, same := begun(t, s, 0, Options{Draws: 120, Seed: 1}) // of which 114 are just enough
		if same >= sim.SureEnough || st.own.Verdict.Code == rules.Unjudged {
			continue
		}
		d, err := st.decides(t.Context(), same)
		if err != nil {
			t.Fatal(err)
		}
		share := func(scale []float64) float64 { return byRuns(st, scale) }
		nearly := func(a, b float64) bool { return math.Abs(a-b) < 1.5/120 } // but for one draw
		var told []int
		for _, by := range d.Inputs {
			for i := range st.inputs {
				if by.Key == st.inputs[i].Key {
					told = append(told, i)
				}
			}
		}
		g := st.surrogate()
		first, alone := 0, 0.0
		for i := range st.inputs {
			if a := g.guess(st.knowing([]int{i})); a > alone {
				first, alone = i, a
			}
		}
		if len(told) == 0 {
			if a := share(st.knowing([]int{first})); d != (sim.Decides{}) || a >= same+0.02 {
				t.Errorf("clock %d: sure to %v, and with %s known to %v: %+v", number, same, st.inputs[first].Key, a, d)
			}
			continue
		}
		if told[0] != first || !nearly(d.Alone, share(st.knowing(told[:1]))) {
			t.Errorf("clock %d: %s decides, and most sure makes %s", number, d.Inputs[0].Key, st.inputs[first].Key)
		}
		switch enough := d.All >= sim.SureEnough; {
		case !enough:
			kinds[4]++
			if len(told) != 1 || !(d.Alone >= same+0.01) || !math.IsNaN(d.Inputs[0].Within) {
				t.Errorf("clock %d: sure to %v, %+v", number, same, d)
			}
		default:
			kinds[len(told)]++
			if !nearly(d.All, share(st.knowing(told))) || len(told) > 1 && d.Alone >= sim.SureEnough {
				t.Errorf("clock %d: %+v", number, d)
			}
		}
		for n, i := range told {
			by, in := d.Inputs[n], &st.inputs[i]
			lo, hi := in.Parts[0].Error.Around(in.Parts[0].Value)
			now := (hi - lo) / 2
			if by.Times {
				now = in.Parts[0].Error.Times
			}
			if by.Words != in.Words || by.Unit != in.Unit || by.Assumed != in.Assumed || by.Now != now || by.Times != (in.Parts[0].Error.Times > 0) {
				t.Errorf("clock %d: %+v of %+v", number, by, in)
			}
			if len(told) > 1 && !math.IsNaN(by.Within) {
				t.Errorf("clock %d: %s within %v, and not alone enough", number, by.Key, by.Within)
			}
		}
		// Known as well as is told it is sure enough, and with the error a good half more,
		// which no rounding makes, it is not.
		if by := d.Inputs[0]; by.Within == by.Within {
			scale := st.knowing(told)
			of := func(within float64) float64 {
				if scale[first] = within / by.Now; by.Times {
					scale[first] = math.Log(within) / math.Log(by.Now)
				}
				return share(scale)
			}
			wider := 1.7 * by.Within
			if by.Times {
				wider = 1 + 1.7*(by.Within-1)
			}
			if !(by.Within < by.Now) || of(by.Within) < sim.SureEnough-0.01 || of(wider) >= sim.SureEnough {
				t.Errorf("clock %d: %+v: sure to %v, %v known to %v", number, by, of(by.Within), of(wider), wider)
			}
		}
	}
	if kinds[1] < 3 || kinds[2] < 5 || kinds[3] < 2 || kinds[4] < 10 {
		t.Errorf("one, two, three decide, and three are not enough: %v", kinds[1:])
	}
}

// Where the least torque is at a border of the verdict, nothing that is known makes it
// surer than one half: then nothing is told.
func TestNothingDecides(t *testing.T) {
	s, trains := trial.Compile(t, "eight-day")
	least := trial.Run(t, trains)[0].Torque.Min / 1.15 / (1 + 1e-9)
	s.Trains[0].Demand.LeastTorqueNM = least
	s = onlyUnsure(t, s, normal(need, 0.01*least), normal("going.mainspring.yield_mpa", 16), normal("going.barrel.inside_diameter_mm", 0.2),
		normal("going.barrel.outside_diameter_mm", 0.5), normal("going.line.efficiency", 0.01))
	r := of(t, s, 0, Options{Draws: 8000, Seed: 3})
	if math.Abs(r.Same-0.5) > 0.02 || r.Decides != (sim.Decides{}) {
		t.Errorf("%+v", r)
	}
}

// Stopped, nothing is told; and of what cannot be run a variant tells what a run tells,
// also where an even cone was to be cut for it.
func TestFails(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, same := begun(t, onlyUnsure(t, s, normal(need, 0.06)), 0, Options{Draws: 300})
	input := slices.IndexFunc(st.inputs, func(in vary.Input) bool { return in.Key == need })
	ended, stop := context.WithCancel(t.Context())
	stop()
	if d, err := st.decides(ended, same); !errors.Is(err, context.Canceled) || d.Inputs[0].Key != "" {
		t.Errorf("%+v, %v", d, err)
	}
	if _, err := st.within(ended, st.surrogate(), input); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	three, _ := trial.Compile(t, "three-trains")
	for what, change := range map[string]func(in *scenario.Train){
		"too long":      func(in *scenario.Train) { in.Mainspring.LengthMM = 1e5 },
		"set up beyond": func(in *scenario.Train) { in.Barrel.SetUpTurns = 50 },
	} {
		broken := three.Clone()
		change(&broken.Trains[2])
		_, want := sim.RunClock(broken, sim.Options{})
		r, err := Variant(t.Context(), broken, 2, Options{}, func(*scenario.Train) {})
		if want == nil || err == nil || err.Error() != want.Error() || r.Draws != 0 {
			t.Errorf("%s: %+v, %v; want %v", what, r, err, want)
		}
		if r, err := Variant(t.Context(), three, 2, Options{}, change); err == nil || r.Draws != 0 {
			t.Errorf("%s: %+v", what, r)
		}
	}
}

// What is just sure enough asks for nothing to be known better; what is a draw less does.
func TestJustSureEnough(t *testing.T) {
	just, less := 0, 0
	for number := range uint64(40) {
		r := of(t, trial.Invent(t, number), 0, Options{Draws: 20, Seed: 2})
		switch r.Same {
		case 19.0 / 20:
			just++
			if r.Decides != (sim.Decides{}) {
				t.Errorf("clock %d: %+v", number, r)
			}
		case 18.0 / 20:
			if r.Decides.Inputs[0].Key != "" {
				less++
			}
		}
	}
	if just == 0 || less == 0 {
		t.Errorf("%d just sure enough, %d a draw less", just, less)
	}
}
