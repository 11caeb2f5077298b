package rules

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/r1"
)

var (
	none = r1.EmptyInterval()
	band = r1.Interval{Lo: 0.4, Hi: 0.6}
)

// The first that can decide does: the torques liked, else the cadence, else the
// reserve.
func TestBasis(t *testing.T) {
	for _, c := range []struct {
		need           float64
		liked, cadence r1.Interval
		want           Basis
	}{
		{math.NaN(), none, none, ByNothing}, {1, none, none, ByReserve}, {1, band, none, ByBand}, {1, band, r1.Interval{Lo: 1, Hi: 2}, ByBand},
		{math.NaN(), none, band, ByCadence}, {1, none, band, ByCadence},
	} {
		s := NewStandard(c.need, DefaultBands(), c.liked, c.cadence)
		if s.Basis != c.want {
			t.Errorf("%+v: %v", c, s.Basis)
		}
		if c.want == ByBand && s.Liked != band {
			t.Errorf("%+v: liked %v", c, s.Liked)
		}
	}
}

// The bands of common practice at their very edges.
func TestJudge(t *testing.T) {
	unknown := math.NaN()
	for _, c := range []struct {
		liked             r1.Interval
		need, least, mean float64
		want              Code
	}{
		{none, 1, 0.999, 1.3, Stops}, {none, 1, 1, 1.3, Thin}, {none, 1, 1.149, 1.3, Thin}, {none, 1, 1.15, 1.6, Suits},
		{none, 1, 1.5, 1.601, Strong}, {none, 1, 1.5, 2, Strong}, {none, 1, 1.5, 2.001, Overdriven}, {none, unknown, 1, 1, Unjudged},
		{band, unknown, 0.399, 0.5, Thin}, {band, unknown, 0.4, 0.6, Suits}, {band, unknown, 0.4, 0.75, Strong}, {band, unknown, 0.4, 0.751, Overdriven},
		{band, 0.35, 0.349, 0.5, Stops}, {band, 0.35, 0.35, 0.5, Thin},
	} {
		s := NewStandard(c.need, DefaultBands(), c.liked, none)
		if got := s.Judge(c.least, c.mean); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// The ranges join from 0 to infinity, rising with the verdicts, and a run whose torque is
// level is judged by the range that it lies in.
func TestRanges(t *testing.T) {
	for name, c := range map[string]struct {
		s    Standard
		want []Code
	}{
		"reserve":            {NewStandard(0.3, DefaultBands(), none, none), []Code{Stops, Thin, Suits, Strong, Overdriven}},
		"band":               {NewStandard(0.3, DefaultBands(), band, none), []Code{Stops, Thin, Suits, Strong, Overdriven}},
		"band without need":  {NewStandard(math.NaN(), DefaultBands(), band, none), []Code{Thin, Suits, Strong, Overdriven}},
		"band below need":    {NewStandard(5, DefaultBands(), band, none), []Code{Stops, Thin, Suits, Strong, Overdriven}},
		"nothing is known":   {NewStandard(math.NaN(), DefaultBands(), none, none), nil},
		"band about need":    {NewStandard(0.5, DefaultBands(), band, none), []Code{Stops, Thin, Suits, Strong, Overdriven}},
		"cadence with need":  {NewStandard(0.3, DefaultBands(), none, band), []Code{Stops, Thin, Suits, Strong, Overdriven}},
		"bands of scenarios": {NewStandard(0.3, Bands{1.1, 1.2, 1.3, 1.4}, none, none), []Code{Stops, Thin, Suits, Strong, Overdriven}},
	} {
		at := 0.0
		list := c.s.Ranges()
		if len(list) != len(c.want) {
			t.Fatalf("%s: %v", name, list)
		}
		for i, r := range list {
			if r.Code != c.want[i] || r.Lo != at || r.Hi < r.Lo {
				t.Errorf("%s: %v after %v", name, r, at)
			}
			at = r.Hi
			middle := math.Min(r.Center(), r.Lo+1)
			if got := c.s.Judge(middle, middle); r.Lo < r.Hi && got != r.Code {
				t.Errorf("%s: %v at %v, in the range of %v", name, got, middle, r.Code)
			}
		}
		if len(list) > 0 && !math.IsInf(at, 1) {
			t.Errorf("%s: ends at %v", name, at)
		}
	}
}

// The verdict changes where a margin passes 0, and nowhere else; the limits are
// the torques at which it does.
func TestMargins(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		liked := none
		if random.IntN(2) == 0 {
			liked = r1.Interval{Lo: 1.1, Hi: 1.1 + random.Float64()}
		}
		s := NewStandard(1, DefaultBands(), liked, none)
		least := 3 * random.Float64()
		mean := least * (1 + random.Float64())
		m := s.Margins(least, mean)
		want := Overdriven
		switch {
		case m[0] < 0:
			want = Stops
		case m[1] < 0:
			want = Thin
		case m[2] <= 0:
			want = Suits
		case m[3] <= 0:
			want = Strong
		}
		if got := s.Judge(least, mean); got != want {
			t.Fatalf("least %v, mean %v, margins %v: %v, want %v", least, mean, m, got, want)
		}
		at := s.Limits()
		if suits := s.Suiting(); suits.Lo != max(at[0], at[1]) || suits.Hi != at[2] {
			t.Fatalf("%v suits, limits %v", suits, at)
		}
	}
	s := NewStandard(2, DefaultBands(), none, none)
	if got := s.Limits(); got != [4]float64{2, 2.3, 3.2, 4} {
		t.Error(got)
	}
	s = NewStandard(0.5, DefaultBands(), band, none) // it needs more than the least that is liked
	if got := s.Suiting(); got != (r1.Interval{Lo: 0.5, Hi: 0.6}) {
		t.Error(got)
	}
	s = NewStandard(2, DefaultBands(), band, none)
	if got := s.Limits(); got != [4]float64{2, 0.4, 0.6, 0.75} || s.Reserve(3) != 1.5 {
		t.Error(got)
	}
}

func TestOrderOfVerdicts(t *testing.T) {
	order := BestFirst()
	for i, c := range order {
		if c.Place() != i {
			t.Errorf("%v stands at %d", c, c.Place())
		}
		for k, d := range order {
			want := i < k && d != Unjudged
			if c.Better(d) != want {
				t.Errorf("%v better than %v: %v", c, d, !want)
			}
		}
	}
	if s := fmt.Sprint(order, Code(77)); s != "[suits strong thin overdriven stops ] code 77" {
		t.Error(s)
	}
}

// The margins tell the verdict: wherever a run lies, by the reserve or by torques liked,
// with a need or without.
func TestByMargins(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 5))
	met := map[Code]int{}
	for range 20_000 {
		need, liked := 1.0, r1.EmptyInterval()
		if random.IntN(2) == 0 {
			liked = r1.Interval{Lo: 0.8 + 0.5*random.Float64(), Hi: 1.4 + random.Float64()}
			if random.IntN(2) == 0 {
				need = math.NaN()
			}
		}
		s := NewStandard(need, DefaultBands(), liked, r1.EmptyInterval())
		least := 0.5 + 2*random.Float64()
		mean := least * (1 + random.Float64()/2)
		want := s.Judge(least, mean)
		if got := ByMargins(s.Margins(least, mean)); got != want {
			t.Fatalf("need %v, liked %v, %v and %v: %v by the margins, judged %v", need, liked, least, mean, got, want)
		}
		met[want]++
	}
	if len(met) != 5 {
		t.Errorf("met %v", met)
	}
}
