package sweep

import (
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// Unbuilt is how many points cannot be built, and why the last of them cannot.
func (st *Study) Unbuilt() (n int, why string) {
	for i := range st.Points {
		if p := &st.Points[i]; !p.Built() {
			n, why = n+1, p.Fault
		}
	}
	return n, why
}

// Verdicts count the points that can be built by their verdict.
func (st *Study) Verdicts() map[rules.Code]int {
	n := map[rules.Code]int{}
	for i := range st.Points {
		if p := &st.Points[i]; p.Built() {
			code, _ := p.judged()
			n[code]++
		}
	}
	return n
}

// Extremes are the points with the least and the greatest result, of those at which the train
// suits and nothing is at fault; nil for none.
func (st *Study) Extremes() (least, most *Point) {
	for i := range st.Points {
		p := &st.Points[i]
		if !p.Built() {
			continue
		}
		if code, faults := p.judged(); code != rules.Suits || faults != 0 {
			continue
		}
		if least == nil || st.Result(p) < st.Result(least) {
			least = p
		}
		if most == nil || st.Result(p) > st.Result(most) {
			most = p
		}
	}
	return least, most
}

// Stretch is a range of one verdict, or one in which nothing can be built.
type Stretch struct {
	From, To float64 // in the unit of Over
	Code     rules.Code
	Built    bool // else no train can be built there, and Code is Unjudged
}

// Stretches are those between the ends of the range, the changes and the limits: they
// join from end to end, over one input.
func (st *Study) Stretches() []Stretch {
	borders := []float64{st.Over.From, st.Over.To}
	for _, c := range st.Changes {
		borders = append(borders, c.At)
	}
	for _, l := range st.Limits {
		borders = append(borders, l.At)
	}
	slices.Sort(borders)
	list := make([]Stretch, len(borders)-1)
	for i := range list {
		s := &list[i]
		s.From, s.To = borders[i], borders[i+1]
		s.Code, s.Built = st.between(s.From, s.To)
	}
	return list
}

// between is the verdict between two neighbours among the changes, the limits and
// the ends of the range; false when nothing can be built there.
func (st *Study) between(from, to float64) (rules.Code, bool) {
	for _, c := range st.Changes {
		switch {
		case c.At == from:
			return c.Above, true
		case c.At == to:
			return c.Below, true
		}
	}
	for i := range st.Points {
		if p := &st.Points[i]; p.Value >= from && p.Value <= to && p.Built() {
			code, _ := p.judged()
			return code, true
		}
	}
	return rules.Unjudged, false
}

// FaultSpan tells at which points a fault occurs.
type FaultSpan struct {
	Fault    sim.Fault
	First    *Point  // where it occurs first
	From, To float64 // least and greatest value of Over at which it occurs
	Points   int     // of the sweep with it
}

// FaultSpans are the faults of all points, in the order in which they come.
func (st *Study) FaultSpans() []FaultSpan {
	var spans []FaultSpan
	at := map[sim.Fault]int{}
	for i := range st.Points {
		p := &st.Points[i]
		if !p.Built() {
			continue
		}
		_, faults := p.judged()
		for _, f := range faults.List() {
			k, met := at[f]
			if !met {
				k, at[f] = len(spans), len(spans)
				spans = append(spans, FaultSpan{Fault: f, First: p, From: p.Value, To: p.Value})
			}
			s := &spans[k]
			s.From, s.To, s.Points = min(s.From, p.Value), max(s.To, p.Value), s.Points+1
		}
	}
	return spans
}
