package fit

import (
	"math"
	"strings"
	"testing"
)

// A malformed problem is refused with what is wrong, where, and what would do.
func TestMalformed(t *testing.T) {
	good := Problem{Predict: over(lineX, line), Y: lineY, Start: []float64{1, 1}}
	for want, change := range map[string]func(*Problem){
		"no model":                                   func(p *Problem) { p.Predict = nil },
		"no parameter":                               func(p *Problem) { p.Start = nil },
		"1 readings, 2 parameters: too few":          func(p *Problem) { p.Y = lineY[:1] },
		"3 standard deviations for 6 readings":       func(p *Problem) { p.SD = lineSD[:3] },
		"1 lower bounds for 2 parameters":            func(p *Problem) { p.Lo = []float64{1} },
		"3 upper bounds for 2 parameters":            func(p *Problem) { p.Hi = []float64{1, 2, 3} },
		"6 readings, 7 parameters: too few":          func(p *Problem) { p.Start = make([]float64, 7) },
		"7 standard deviations for 6 readings":       func(p *Problem) { p.SD = make([]float64, 7) },
		"start of parameter 1 is NaN: want a finite": func(p *Problem) { p.Start = []float64{math.NaN(), 1} },
		"reading 1 is -Inf: want a finite":           func(p *Problem) { p.Y = []float64{-inf, 2, 3, 4, 5, 6} },
		"standard deviation 1 is +Inf: want a pos":   func(p *Problem) { p.SD = []float64{inf, 1, 1, 1, 1, 1} },
		"parameter 2 from -Inf to 0, start 1":        func(p *Problem) { p.Hi = []float64{2, 0} },
		"1 scales for 2 parameters":                  func(p *Problem) { p.Scale = []float64{1} },
		"standard deviation 2 is 0: want a positive": func(p *Problem) { p.SD = []float64{1, 0, 1, 1, 1, 1} },
		"reading 3 is NaN: want a finite":            func(p *Problem) { p.Y = []float64{1, 2, math.NaN(), 4, 5, 6} },
		"start of parameter 2 is +Inf":               func(p *Problem) { p.Start = []float64{1, inf} },
		"scale of parameter 1 is -1":                 func(p *Problem) { p.Scale = []float64{-1, 1} },
		"parameter 2 from 2 to +Inf, start 1":        func(p *Problem) { p.Lo = []float64{0, 2} },
		"parameter 1 from -Inf to 0, start 1":        func(p *Problem) { p.Hi = []float64{0, 2} },
		"parameter 1 from 1 to 1, start 1":           func(p *Problem) { p.Lo, p.Hi = []float64{1, 1}, []float64{1, 2} },
		"parameter 1 from NaN to":                    func(p *Problem) { p.Lo = []float64{math.NaN(), 1} },
	} {
		p := good
		change(&p)
		if _, err := Solve(p); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// Of several things that are wrong the first is told, in the order of the fields.
func TestFirstFault(t *testing.T) {
	bad := []float64{math.NaN(), 1}
	long := []float64{1, 1, 1}
	p := Problem{Predict: over(lineX[:2], line), Y: bad, SD: bad, Start: bad, Scale: bad, Lo: []float64{2, 2}}
	for _, c := range []struct {
		want string
		mend func()
	}{
		{"reading 1", func() { p.Y = lineY[:2] }}, {"standard deviation 1", func() { p.SD = nil }}, {"start of parameter 1", func() { p.Start = []float64{1, 1} }},
		{"scale of parameter 1", func() { p.Scale = nil }}, {"parameter 1 from 2", func() { p.SD, p.Lo, p.Hi, p.Scale = long, long, long, long }},
		{"3 standard deviations", func() { p.SD = nil }}, {"3 lower bounds", func() { p.Lo = nil }}, {"3 upper bounds", func() { p.Hi = nil }}, {"3 scales", func() {}},
	} {
		if _, err := Solve(p); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
		c.mend()
	}
	good := []float64{1, 2}
	for want, c := range map[string][3][]float64{"x 1 is NaN": {bad, bad, bad}, "y 1 is NaN": {good, bad, bad}, "weight 1 is NaN": {good, good, bad}} {
		if _, _, _, _, _, err := Linear(c[0], c[1], c[2]); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// The words of a status are those of its comment.
func TestStatusWords(t *testing.T) {
	for s, want := range map[Status]string{Converged: "converged", AtBound: "bound", NotConverged: "not converged", Singular: "cannot be told apart", Failed: "cannot be evaluated"} {
		if got := s.String(); !strings.Contains(got, want) || strings.HasPrefix(got, "not") != (s == NotConverged) {
			t.Errorf("%d: %q, want %q", s, got, want)
		}
	}
	if Status(200).String() == "" {
		t.Error("a status that is none has no words")
	}
}
