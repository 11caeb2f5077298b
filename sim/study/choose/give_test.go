package choose

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/stock"
)

// toGive is a train that wants a spring, with candidates that suit in these shares of draws.
func toGive(quantity []int, shares ...float64) *Study {
	st := &Study{First: rules.AnotherSpring}
	for i, share := range shares {
		c := Candidate{place: i, Spring: stock.Spring{Label: string(rune('A' + i)), Quantity: quantity[i]}}
		c.Digest.Advice = rules.DefaultAdvice()
		c.Digest.Verdict.Code = rules.Suits
		c.Digest.Spring.Ideal = 9
		if share == 0 {
			c.Digest.Verdict.Code = rules.Thin
		}
		c.Digest.Verdict.Sureness = sim.Sureness{Draws: 100, Suits: share}
		for _, other := range shares {
			if other > share {
				c.class++
			}
		}
		st.Candidates = append(st.Candidates, c)
	}
	return st
}

// Against every way that there is: as many trains as can be get one, none more often than there
// is of it, and the product of the shares is greatest.
func TestGive(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 8))
	for range 400 {
		trains, springs := 1+rnd.IntN(4), 1+rnd.IntN(5)
		quantity := make([]int, springs)
		for i := range quantity {
			quantity[i] = rnd.IntN(3)
		}
		var studies []*Study
		for range trains {
			shares := make([]float64, springs)
			for i := range shares {
				shares[i] = math.Max(0, 1.4*rnd.Float64()-0.4)
			}
			studies = append(studies, toGive(quantity, shares...))
		}
		if rnd.IntN(4) == 0 {
			studies[0].First = rules.Nothing
		}
		most, product := 0, 0.0
		var try func(i, n int, p float64, left []int)
		try = func(i, n int, p float64, left []int) {
			if i == trains {
				if n > most || n == most && p > product {
					most, product = n, p
				}
				return
			}
			try(i+1, n, p, left)
			for k := range studies[i].Candidates {
				if share := studies[i].Candidates[k].Digest.Verdict.Sureness.Suits; share > 0 && left[k] > 0 && studies[i].Wants() {
					left[k]--
					try(i+1, n+1, p*share, left)
					left[k]++
				}
			}
		}
		left := make([]int, springs)
		for i := range left {
			left[i] = max(quantity[i], 1)
		}
		try(0, 0, 1, left)
		n, p := 0, 1.0
		used := make([]int, springs)
		for _, s := range Give(studies, (*Study).Wants) {
			if s.Given == nil {
				continue
			}
			n, p = n+1, p*s.Given.Digest.Verdict.Sureness.Suits
			if used[s.Given.place]++; used[s.Given.place] > max(quantity[s.Given.place], 1) || !s.Wants() {
				t.Fatalf("%s is given %d times of %d", s.Given.Label, used[s.Given.place], quantity[s.Given.place])
			}
		}
		if n != most || math.Abs(p-product) > 1e-12 {
			t.Fatalf("%d trains, %g; %d and %g are to be had", n, p, most, product)
		}
	}
}

// Of as many draws that suit, and without draws, what stands first is given.
func TestGiveWhatStandsFirst(t *testing.T) {
	one := []int{1, 1, 1}
	for _, share := range []float64{0.9, 1} {
		all := Give([]*Study{toGive(one, share, share, share), toGive(one, share, share, share)}, (*Study).Wants)
		if all[0].Given.Label+all[1].Given.Label != "AB" && all[0].Given.Label+all[1].Given.Label != "BA" {
			t.Errorf("%s and %s", all[0].Given.Label, all[1].Given.Label)
		}
	}
}

// A train alone gets what stands first, though another suits in a share that is greater by less
// than counts.
func TestGiveAlone(t *testing.T) {
	st := toGive([]int{1, 1}, 0.85, 0.87)
	st.Candidates[0].class, st.Candidates[1].class = 0, 0
	if all := Give([]*Study{st}, (*Study).Wants); all[0].Given.Label != "A" {
		t.Error(all[0].Given.Label)
	}
}
