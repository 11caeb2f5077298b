package live

import (
	"math"

	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/study/trying"
)

// rule is what an input is moved along.
type rule struct {
	Key     string   `json:"key"`
	Words   string   `json:"words"`
	Unit    string   `json:"unit"`
	From    number   `json:"from"`
	To      number   `json:"to"`
	Step    number   `json:"step"`
	Digits  int      `json:"digits"`
	Value   number   `json:"value"`
	Notches []notch  `json:"notches"`
	Closed  []closed `json:"closed"`
}

type closed struct {
	From  number `json:"from"`
	To    number `json:"to"`
	Words string `json:"words"`
}

// rule is that of an input in a trial.
func (t *Train) rule(a *trying.Answer, key string) rule {
	r := a.Rules[key]
	out := rule{Key: key, Words: t.called(&r.Quantity), Unit: r.Quantity.Unit, From: number(r.From), To: number(r.To),
		Step: number(r.Step), Digits: digits(r.Step), Value: number(r.Value), Notches: []notch{}, Closed: []closed{}}
	if key == t.Key(trying.Thickness) {
		for _, n := range t.notches {
			if n.At >= r.From && n.At <= r.To {
				out.Notches = append(out.Notches, n)
			}
		}
	}
	for _, c := range r.Closed {
		out.Closed = append(out.Closed, closed{number(c.From), number(c.To), words.TryingClosed(c.Why)})
	}
	return out
}

// called is an input in few words: the four that are always there are the mainspring's.
func (t *Train) called(q *scenario.Quantity) string {
	if short, ok := map[string]string{t.Key(trying.Thickness): "thickness", t.Key(trying.Width): "width", t.Key(trying.Length): "length", t.Key(trying.SetUp): "set-up"}[q.Key]; ok {
		return short
	}
	return words.Input(q.Words, t.Name)
}

// digits are the decimals of a step; those of a click, which is a part of a turn, are two.
func digits(step float64) int {
	for n := range 6 {
		if by := step * math.Pow10(n); math.Abs(by-math.Round(by)) < 1e-6*by {
			return n
		}
	}
	return 2
}
