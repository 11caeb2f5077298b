package words

import (
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
)

// ran is a trial of a train that goes or does not.
func ran(mass float64, runs bool) book.Trial {
	return book.Trial{MassG: mass, Runs: &runs, BlowIntervalS: math.NaN()}
}

func struck(mass, interval float64) book.Trial {
	return book.Trial{MassG: mass, BlowIntervalS: interval}
}

// need is of a pulley on which a gram pulls a millinewton metre when gravity is
// 10 m/s².
func need(trials ...book.Trial) *measure.Need {
	n := measure.NeedOf(&book.Weights{Train: "going", PulleyRadiusMM: 100, Trials: trials}, 10)
	return &n
}

// wantNotes compares notes with what each is to hold; an empty list: no note.
func wantNotes(t *testing.T, what string, notes []string, says ...string) {
	t.Helper()
	if len(says) == 0 && len(notes) > 0 {
		t.Errorf("%s: %q", what, notes)
	}
	for _, s := range says {
		if !slices.ContainsFunc(notes, func(n string) bool { return strings.Contains(n, s) }) {
			t.Errorf("%s: no note says %q: %q", what, s, notes)
		}
	}
}

func TestNeedNotes(t *testing.T) {
	many := []book.Trial{ran(100, true)}
	for i := range 20 {
		many = append(many, ran(200+float64(i), false))
	}
	for name, c := range map[string]struct {
		trials []book.Trial
		says   []string
	}{
		"both ends":       {[]book.Trial{ran(400, false), ran(300, false), ran(500, true), ran(600, true)}, nil},
		"all run":         {[]book.Trial{ran(600, true), ran(500, true)}, []string{"every weight of the trials ran: the least torque is at most 0.500 N·m"}},
		"none runs":       {[]book.Trial{ran(300, false), ran(400, false)}, []string{"no weight of the trials ran: the least torque is above 0.400 N·m"}},
		"contrary":        {[]book.Trial{ran(300, false), ran(400, true), ran(450, false), ran(500, true)}, []string{"trial 3 (450 g) stopped although trial 2 (400 g), no heavier, ran", "lies from 0.300 to 0.500 N·m"}},
		"the same":        {[]book.Trial{ran(400, true), ran(400, false), ran(500, true)}, []string{"all that is sure is that the least torque is at most 0.500 N·m; the least torque differs with the phase of the teeth"}},
		"nothing is sure": {[]book.Trial{ran(400, true), ran(500, false)}, []string{"no weight is known above which it never stopped; the least torque differs with the phase of the teeth: judge each weight over one full turn of the centre wheel"}},
		"lower alone":     {[]book.Trial{ran(300, false), ran(400, true), ran(500, false)}, []string{"no weight is known"}},
		"many":            {many, []string{"15 more trials contradict lighter ones in the same way"}},
		"struck":          {[]book.Trial{struck(500, 1), ran(600, false)}, []string{"trial 2 (600 g) did not strike although trial 1 (500 g), no heavier, struck", "no weight is known above which it always struck; repeat these trials"}},
	} {
		wantNotes(t, name, NeedNotes(need(c.trials...)), c.says...)
	}
	if n := len(NeedNotes(need(many...))); n != mostTold+2 {
		t.Errorf("%d notes", n)
	}
	if n := len(NeedNotes(need(many[:mostTold+1]...))); n != mostTold+1 { // as many as are told, and what is sure
		t.Errorf("%d notes", n)
	}
}

// Of an up-and-down sequence no trial contradicts another.
func TestUpDownNotes(t *testing.T) {
	steps := func(first, step float64, runs ...bool) (trials []book.Trial) {
		for _, r := range runs {
			trials = append(trials, ran(first, r))
			if first += step; r {
				first -= 2 * step
			}
		}
		return trials
	}
	n := need(steps(400, 20, false, false, false, true, true, true, false, false, true, true)...)
	if got, want := NeedHead(n), say("going train needs %v N·m at the winding square, between %v and %v (95 %%)", n.Bracket.Least, n.Bracket.Between.Lo, n.Bracket.Between.Hi); got != want || n.UpDown == nil {
		t.Errorf("%q, want %q", got, want)
	}
	notes := NeedNotes(n)
	wantNotes(t, "up and down", notes, say("up-and-down trials in steps of 0.0200 N·m (Dixon and Mood, 1948): under this torque half of them run; the least torque differs typically by %v N·m from trial to trial", n.UpDown.SD))
	if len(notes) != 1 {
		t.Errorf("%q", notes)
	}
	wantNotes(t, "coarse", NeedNotes(need(steps(400, 20, false, true, false, true, false, true)...)), "differs typically by at most", "too wide to tell how far it differs: halve them")
	wantNotes(t, "fine", NeedNotes(need(steps(400, 1, false, false, false, false, true, true, true, true, true, true, true, true, false, false, false, false, false, false)...)), "take wider ones")
}

// The trials of a fly that obeys 1/interval² = 2.5 (torque − 0.3) tell both figures.
func TestPaceNotes(t *testing.T) {
	at := func(torque float64) book.Trial { return struck(1e3*torque, 1/math.Sqrt(2.5*(torque-0.3))) }
	wantNotes(t, "fly", NeedNotes(need(at(0.8), ran(280, false), at(0.4), at(0.6))),
		"the square of the blows a second grows by 2.50 for each N·m above 0.300 N·m, as a fly makes it: that accounts for 100.00 % of how 3 trials differ (r²)")
	wantNotes(t, "two", NeedNotes(need(at(0.8), at(0.4))), "two timed trials make a line whatever they are: the square of the blows a second grows by 2.50", "every weight of the trials struck")
	wantNotes(t, "one", NeedNotes(need(struck(500, 1.5))), "blows were timed under one torque only")
	wantNotes(t, "falling", NeedNotes(need(struck(500, 1), struck(600, 1.2), struck(700, 1.4))),
		"do not come faster under heavier weights", "trials 1, 2 and 3 do not strike faster with more weight")
	var pools []book.Trial
	for i := range 14 {
		pools = append(pools, struck(500+float64(10*i), 2-0.1*float64(i/2)))
	}
	wantNotes(t, "pools", NeedNotes(need(pools...)), "trials 1 and 2 do not strike faster", "2 more groups of trials do not strike faster with more weight")
}

func TestSupplyNotes(t *testing.T) {
	nan := math.NaN()
	given := func(down ...[]float64) *book.Torque { return &book.Torque{RunningDown: down} }
	list := []float64{0.1, 0.7, 0.3}
	metered, mixed, apart := given(list, list, list), given([]float64{0.5, 0.6, 0.5}), given([]float64{0.5})
	metered.MeterResolutionNM = 0.01
	mixed.WindingUp, apart.WindingUp = [][]float64{{0.4, 0.5, 0.6}}, [][]float64{{nan, 0.6}}
	far := make([][]float64, 3)
	for i := range far {
		far[i] = slices.Repeat([]float64{0.5 + 0.1*float64(i/2)}, 9)
	}
	for name, c := range map[string]struct {
		given *book.Torque
		says  []string
	}{
		"rising":       {given([]float64{0.50, 0.5}, []float64{0.51, 0.51}, []float64{0.5201, 0.5201}, []float64{0.53, 0.53}), []string{"the mean rises by 0.0100 N·m from repeat to repeat, more than chance explains (chance does so in less than 0.1 of 100 cases)"}},
		"falling":      {given([]float64{0.75}, []float64{0.5}, []float64{0.25}), []string{"the mean falls by 0.250 N·m from repeat to repeat"}},
		"slight":       {given([]float64{0.500}, []float64{0.510}, []float64{0.521}, []float64{0.524}), []string{"more than chance explains (chance does so in "}},
		"outlier":      {given([]float64{0.50}, []float64{0.51}, []float64{0.49}, []float64{0.50}, []float64{0.80}, []float64{0.505}), []string{"at fusee turn 0 repeat 5 read 0.800 N·m, further from the others than chance explains", "one turn in twenty"}},
		"many":         {given(far...), []string{"4 more readings are as far off"}},
		"one repeat":   {given([]float64{0.5, 0.52}), []string{"one repeat alone tells nothing"}},
		"all alike":    {given(list, list, list), []string{"all repeats read the same at fusee turns 0, 1 and 2 and no error of the meter is given"}},
		"with a meter": {metered, nil},
		"unread":       {given([]float64{nan, 0.5, nan, 0.5, nan}, []float64{nan, 0.5, nan, 0.6}), []string{"no reading at fusee turns 0 and 2: left out of every figure"}},
		"unequal":      {given([]float64{0.5, 0.5}, []float64{0.6}), []string{"some repeats lack readings", "one reading only at fusee turn 1: no interval there"}},
		"two":          {given([]float64{0.5, 0.52}, []float64{0.5, 0.53}), []string{"a third run-down would divide the interval of the mean by about three"}},
		"even":         {given([]float64{0.5, 0.5001}, []float64{0.52, 0.53}, []float64{0.55, 0.54}), []string{"the unevenness is no more than scatter alone would show"}},
		"apart":        {given([]float64{0.5, 0.5}, []float64{nan, nan, 0.5}), []string{"share no fusee turn with the others"}},
		"mixed":        {mixed, []string{"at fusee turns 0 and 1 running down gave more torque than winding up took, which cannot be"}},
		"no common":    {apart, []string{"no common turn: no efficiency follows"}},
	} {
		s := measure.SupplyOf(c.given)
		wantNotes(t, name, SupplyNotes(&s), c.says...)
	}
}

// What was judged by ear is told as the band that is liked, with what it lacks and what
// contradicts it.
func TestByEar(t *testing.T) {
	heard := func(mass float64, j book.Judged) book.Trial {
		return book.Trial{MassG: mass, BlowIntervalS: math.NaN(), TwelveS: math.NaN(), Judged: j}
	}
	for name, c := range map[string]struct {
		trials []book.Trial
		wants  []string
	}{
		"both ends": {[]book.Trial{heard(500, book.Weak), heard(600, book.Liked), heard(800, book.Liked), heard(900, book.Brisk)}, []string{"by ear it likes 0.550 to 0.850 N·m"}},
		"open":      {[]book.Trial{heard(600, book.Liked), heard(800, book.Liked)}, []string{"likes 0.600 to 0.800 N·m", "nothing lighter was judged weak", "nothing heavier was judged brisk"}},
		"one":       {[]book.Trial{heard(600, book.Liked)}, []string{"no band of torques follows"}},
		"contrary":  {[]book.Trial{heard(500, book.Weak), heard(700, book.Liked), heard(750, book.Weak), heard(800, book.Liked), heard(950, book.Brisk)}, []string{"trial 3 (750 g) was judged weak although trial 2 (700 g), no heavier, was judged liked"}},
	} {
		n := measure.NeedOf(&book.Weights{Train: "striking", PulleyRadiusMM: 100, Trials: c.trials}, 10)
		said := Likes(&n) + "\n" + strings.Join(NeedNotes(&n), "\n")
		for _, want := range c.wants {
			if !strings.Contains(said, want) {
				t.Errorf("%s: no %q in %s", name, want, said)
			}
		}
		if name == "both ends" && strings.Contains(said, "may") && strings.Contains(said, "judged") {
			t.Errorf("%s", said)
		}
		if got := Trial(&n, &n.Trials[0]); !strings.HasPrefix(got, "judged ") {
			t.Error(got)
		}
	}
}
