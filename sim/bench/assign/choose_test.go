package assign

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// shape is a study of some springs and trains, the pairs made one by one.
func shape(springs, trains int, pair func(spring, train int) Pair) *Study {
	st := new(Study)
	for i := range springs {
		st.Springs = append(st.Springs, fmt.Sprint(i))
	}
	for k := range trains {
		st.Needs = append(st.Needs, Need{Train: fmt.Sprint(k)})
	}
	for i := range springs {
		for k := range trains {
			st.Pairs = append(st.Pairs, pair(i, k))
		}
	}
	return st
}

// rank is how bad a choice is by the words of Of, worked out apart from cost: its
// pairs that stop, are overdriven, thin and strong, and those with faults; and how far
// off it lies.
type rank struct {
	counts [5]int
	off    float64
}

func rankOf(st *Study, pairs []int) rank {
	var r rank
	for _, at := range pairs {
		p := &st.Pairs[at]
		if i := slices.Index([]rules.Code{rules.Stops, rules.Overdriven, rules.Thin, rules.Strong}, p.Verdict.Code); i >= 0 {
			r.counts[i]++
		}
		if p.Faults != 0 {
			r.counts[4]++
		}
		r.off += math.Abs(p.Off)
	}
	return r
}

// compare is below 0 when r is better; how far off they lie is the same up to
// rounding.
func (r rank) compare(q rank) int {
	if by := slices.Compare(r.counts[:], q.counts[:]); by != 0 || math.Abs(r.off-q.off) < 1e-12 {
		return by
	}
	if r.off < q.off {
		return -1
	}
	return 1
}

// everyChoice are all one-to-one choices, each in the order of the trains.
func everyChoice(st *Study) (all [][]int) {
	n, trains := min(len(st.Springs), len(st.Needs)), len(st.Needs)
	var try func(train int, taken []int)
	try = func(train int, taken []int) {
		if len(taken) == n {
			all = append(all, slices.Clone(taken))
			return
		}
		if train == trains {
			return
		}
		try(train+1, taken)
		for i := range st.Springs {
			if !slices.ContainsFunc(taken, func(at int) bool { return at/trains == i }) {
				try(train+1, append(taken, i*trains+train))
			}
		}
	}
	try(0, nil)
	return all
}

// On random pairs the choice, the next and what is said of them are those of trying
// all.
func TestChoiceIsTheBest(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 9))
	alone := 0
	for range 400 {
		codes, far := 1+random.IntN(6), 0.01+0.3*random.Float64()
		st := shape(1+random.IntN(5), 1+random.IntN(5), func(spring, train int) Pair {
			p := Pair{Label: fmt.Sprint(spring), Train: fmt.Sprint(train), Off: far * random.NormFloat64(), Whole: random.IntN(3) > 0}
			p.Verdict.Code = rules.BestFirst()[random.IntN(codes)]
			p.Faults = sim.Faults(random.IntN(4)) // two of them are no worse than one
			return p
		})
		all := everyChoice(st)
		slices.SortStableFunc(all, func(a, b []int) int { return rankOf(st, a).compare(rankOf(st, b)) })
		best := rankOf(st, all[0])
		st.choose()
		if got := rankOf(st, st.Best); got.compare(best) != 0 || !slices.ContainsFunc(all, func(c []int) bool { return slices.Equal(c, st.Best) }) {
			t.Fatalf("%v of %+v, want %v of %+v", st.Best, got, all[0], best)
		}
		for at := range st.Pairs {
			p := &st.Pairs[at]
			if p.Chosen != slices.Contains(st.Best, at) {
				t.Fatalf("pair %d: chosen %v, the choice is %v", at, p.Chosen, st.Best)
			}
		}
		if len(all) == 1 {
			alone++
			if st.Second != nil {
				t.Fatalf("%v beside the only choice there is", st.Second)
			}
			continue
		}
		second := rankOf(st, all[1])
		if got := rankOf(st, st.Second); got.compare(second) != 0 || slices.Equal(st.Second, st.Best) || !slices.ContainsFunc(all, func(c []int) bool { return slices.Equal(c, st.Second) }) {
			t.Fatalf("next %v of %+v, want %v of %+v", st.Second, got, all[1], second)
		}
	}
	t.Logf("%d with a single choice", alone)
	if alone == 0 {
		t.Error("none with a single choice")
	}
}

// A pair that is hopeless is left out of the choice, and every other is taken before it.
func TestHopeless(t *testing.T) {
	st := shape(2, 2, func(spring, train int) Pair {
		p := Pair{Whole: true, Off: 0.1}
		p.Verdict.Code = rules.Stops
		if spring == train {
			p.Verdict.Code, p.TurnsLost = rules.Suits, 1
		}
		return p
	})
	if st.choose(); !slices.Equal(st.Best, []int{2, 1}) || len(st.Second) != 0 {
		t.Errorf("%v, then %v", st.Best, st.Second)
	}
	st.Pairs[1].TurnsLost, st.Pairs[1].Chosen = 1, false
	if st.choose(); len(st.Best) != 1 || len(st.Bare(st.Best)) != 1 {
		t.Errorf("%v", st.Best)
	}
}

// How far off a spring lies that gives no finite figure is worse than any that does,
// and hides none of the others.
func TestOffNotKnown(t *testing.T) {
	for _, off := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		// The first train can have spring 0 alone, by the verdict; in the second the
		// others differ.
		st := shape(3, 2, func(spring, train int) Pair {
			p := Pair{Off: []float64{0.1, 30, 20}[spring]}
			p.Verdict.Code = rules.Suits
			if train == 0 && spring > 0 {
				p.Verdict.Code = rules.Stops
			}
			if train == 0 || spring == 0 {
				p.Off = off
			}
			return p
		})
		if st.choose(); !slices.Equal(st.Best, []int{0, 5}) || !slices.Equal(st.Second, []int{0, 3}) {
			t.Errorf("%v off: %v, then %v", off, st.Best, st.Second)
		}
		st = shape(2, 1, func(spring, _ int) Pair { return Pair{Off: []float64{off, -1e3}[spring]} })
		if st.choose(); !slices.Equal(st.Best, []int{1}) {
			t.Errorf("%v off is taken before a thousand: %v", off, st.Best)
		}
	}
}

// What is not judged is no worse than what suits: the nearer one is taken. What is
// wrong is worse than both however near it lies.
func TestUnjudgedIsNoFault(t *testing.T) {
	st := shape(2, 1, func(spring, _ int) Pair {
		p := Pair{Off: []float64{0.3, 0.1}[spring]}
		p.Verdict.Code = []rules.Code{rules.Suits, rules.Unjudged}[spring]
		return p
	})
	if st.choose(); !slices.Equal(st.Best, []int{1}) {
		t.Errorf("%v", st.Best)
	}
	for _, wrong := range []rules.Code{rules.Stops, rules.Overdriven, rules.Thin, rules.Strong} {
		st.Pairs[1].Verdict.Code = wrong
		if st.choose(); !slices.Equal(st.Best, []int{0}) {
			t.Errorf("%v is taken before what suits", wrong)
		}
	}
}

// Springs and trains may be at most twelve, but of one kind any number.
func TestMost(t *testing.T) {
	pair := func(spring, train int) Pair {
		if spring%12 == train {
			return Pair{Off: 0.01}
		}
		return Pair{Off: 0.5}
	}
	for _, c := range [][2]int{{40, 1}, {1, 40}} {
		st := shape(c[0], c[1], pair)
		if st.choose(); len(st.Best) != min(c[0], c[1]) || st.Best[0] != 0 {
			t.Errorf("%d springs, %d trains: %v", c[0], c[1], st.Best)
		}
	}
	b := levelSprings(t, 0.5)
	for i := range 11 {
		w, q := b.Weights[0], b.Torques[0]
		w.Train, q.Spring = fmt.Sprint("t", i), fmt.Sprint("more", i)
		b.Weights, b.Torques = append(b.Weights, w), append(b.Torques, q)
	}
	if st := study(t, b, nil); len(st.Best) != 12 || len(st.Pairs) != 144 {
		t.Errorf("twelve springs, twelve trains: %v", st.Best)
	}
}
