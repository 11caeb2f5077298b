package measure

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestDrift(t *testing.T) {
	rising := SupplyOf(down([]float64{0.50, 0.5}, []float64{0.51, 0.51}, []float64{0.5201, 0.5201}, []float64{0.53, 0.53}))
	if d := rising.Drift; !d.Found || !near(d.Slope, 0.01, 0.01) || !(d.P < 0.001) {
		t.Errorf("%+v", d)
	}
	// Three repeats: with one degree of freedom p = 1 − 2/π·arctan t (closed form).
	three := SupplyOf(down([]float64{0.53}, []float64{0.515}, []float64{0.5035}))
	slope, rss := (0.5035-0.53)/2, 0.0
	for i, v := range []float64{0.53, 0.515, 0.5035} {
		r := v - (0.53+0.515+0.5035)/3 - slope*float64(i-1)
		rss += r * r
	}
	p := 1 - 2/math.Pi*math.Atan(math.Abs(slope)/math.Sqrt(rss/2))
	wantNear(t, "p", three.Drift.P, p, 1e-9)
	if three.Drift.Found != (p < 0.05) {
		t.Errorf("%+v", three.Drift)
	}
	straight := SupplyOf(down([]float64{0.75}, []float64{0.5}, []float64{0.25}))
	if d := straight.Drift; !d.Found || d.P != 0 {
		t.Errorf("%+v", d)
	}
	if d := SupplyOf(down([]float64{0.5}, []float64{0.6})).Drift; !near(d.Slope, 0.1, 1e-9) || !math.IsNaN(d.P) || d.Found {
		t.Errorf("two repeats: %+v", d)
	}
}

// TestDriftByChance: without drift one record in twenty is called drifting.
func TestDriftByChance(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	found := 0
	const records = 4000
	for range records {
		var repeats []Repeat
		for range 5 {
			repeats = append(repeats, Repeat{1, 0.5 + 0.01*r.NormFloat64()})
		}
		if driftOf(repeats).Found {
			found++
		}
	}
	if share := float64(found) / records; math.Abs(share-0.05) > 3*math.Sqrt(0.05*0.95/records) {
		t.Errorf("%.4f of records are called drifting", share)
	}
}

func TestOutliers(t *testing.T) {
	b := down([]float64{0.50}, []float64{0.51}, []float64{0.49}, []float64{0.50}, []float64{0.80}, []float64{0.505})
	s := SupplyOf(b)
	o := s.Turns[0].Outlier
	if lies, none := s.Turns[0].Outlying(), (&Turn{}).Outlying(); o != nil && lies != o.Value || !math.IsNaN(none) {
		t.Errorf("%v lies off, and %v where nothing does", lies, none)
	}
	if o == nil || o.Repeat != 5 || o.Value != 0.80 || !(o.G > o.Critical) || !near(o.Critical, grubbs(6), 1e-12) {
		t.Fatalf("%+v", o)
	}
	wantNear(t, "it stays", s.Turns[0].Mean, (0.50+0.51+0.49+0.50+0.80+0.505)/6, 1e-12)

	// Of three readings two alike make any third look far: where the meter's step
	// is known, k steps off is told from k²(4/9 − G²/3) > G²/12 on (closed form),
	// which with the critical G is 19 to 20.
	for third, flagged := range map[float64]bool{0.47: false, 0.45: false, 0.48: false, 0.64: false, 0.66: true} {
		b := down([]float64{0.46}, []float64{0.46}, []float64{third})
		b.MeterResolutionNM = 0.01
		if got := SupplyOf(b).Turns[0].Outlier != nil; got != flagged {
			t.Errorf("0.46, 0.46, %v: flagged %v", third, got)
		}
	}
}

// outlierShare is the share of turns with an outlier when normal readings with a
// standard deviation of 0.01 N·m are rounded to a step.
func outlierShare(records, turns, repeats int, step float64) float64 {
	r := rand.New(rand.NewPCG(8, 8))
	found := 0
	for range records {
		b := down(make([][]float64, repeats)...)
		b.MeterResolutionNM = step
		for i := range b.RunningDown {
			for range turns {
				v := 0.5 + 0.01*r.NormFloat64()
				if step > 0 {
					v = step * math.Round(v/step)
				}
				b.RunningDown[i] = append(b.RunningDown[i], v)
			}
		}
		for _, turn := range SupplyOf(b).Turns {
			if turn.Outlier != nil {
				found++
			}
		}
	}
	return float64(found) / float64(records*turns)
}

// TestOutliersByChance: of normal readings one turn in twenty has one, of those
// rounded to a step that is known no more than that.
func TestOutliersByChance(t *testing.T) {
	const records, turns = 400, 65
	margin := 3 * math.Sqrt(0.05*0.95/records/turns)
	for _, repeats := range []int{3, 6} {
		if share := outlierShare(records, turns, repeats, 0); math.Abs(share-0.05) > margin {
			t.Errorf("%d repeats: %.4f of turns have an outlier", repeats, share)
		}
		for _, step := range []float64{0.002, 0.005, 0.01, 0.02} {
			if share := outlierShare(records, turns, repeats, step); share > 0.05+margin {
				t.Errorf("%d repeats rounded to %v N·m: %.4f of turns have an outlier", repeats, step, share)
			}
		}
	}
}
