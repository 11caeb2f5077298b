package sweep

import (
	"math"

	"evenpull/fusee/numeric"
	"evenpull/sim/rules"
	"evenpull/sim/vary"
)

// fineness is how closely a border is found, as a share of the scenario's value.
const fineness = 1e-6

// Change is where the verdict changes: within half of 1e-6 of the scenario's value or, where
// that is 0, of the range, with the verdicts on both sides as they were found there.
type Change struct {
	At           float64    // in the unit of Over
	Below, Above rules.Code // verdicts below and above it
}

// Limit is where a train can no longer be built.
type Limit struct {
	At    float64 // in the unit of Over
	Above bool    // above At it cannot be built; else below
	Fault string  // why
}

// borders finds the changes and limits between the points. Of two changes that
// lie between neighbours and undo each other it knows nothing.
func (st *Study) borders(m *vary.Model) {
	f := finder{fine: fineness * math.Abs(st.Over.Value), point: func(x float64) (p Point) {
		p.run(m, x, math.NaN())
		return p
	}}
	if f.fine == 0 {
		f.fine = fineness * (st.Over.To - st.Over.From)
	}
	for i := 1; i < len(st.Points); i++ {
		a, b := st.Points[i-1], st.Points[i]
		switch {
		case a.Built() && !b.Built():
			a2, out := f.edge(a, b)
			st.Limits = append(st.Limits, Limit{At: (a2.Value + out.Value) / 2, Above: true, Fault: out.Fault})
			b = a2
		case !a.Built() && b.Built():
			b2, out := f.edge(b, a)
			st.Limits = append(st.Limits, Limit{At: (b2.Value + out.Value) / 2, Fault: out.Fault})
			a = b2
		case !a.Built():
			continue
		}
		for a.Verdict.Code != b.Verdict.Code && b.Value-a.Value > f.fine {
			lo, hi := f.change(a, b)
			st.Changes = append(st.Changes, Change{At: (lo.Value + hi.Value) / 2, Below: lo.Verdict.Code, Above: hi.Verdict.Code})
			a = hi
		}
	}
}

// finder looks at points between those of the grid.
type finder struct {
	point func(x float64) Point
	fine  float64 // how far apart the two sides of a border may be
}

// edge narrows the way from a point that can be built to one that cannot, until
// they are next to each other.
func (f *finder) edge(in, out Point) (Point, Point) {
	numeric.Bisect(in.Value, out.Value, f.fine, func(x float64) bool {
		p := f.point(x)
		if p.Built() {
			in = p
		} else {
			out = p
		}
		return p.Built()
	})
	return in, out
}

// change finds the first point above lo whose verdict is another, between lo and
// hi which differ: by false position on the margin that passes 0 first, kept
// within the bracket; every fourth step halves it.
func (f *finder) change(lo, hi Point) (Point, Point) {
	was := lo.Verdict.Code
	for k := 1; hi.Value-lo.Value > f.fine; k++ {
		width := hi.Value - lo.Value
		x := lo.Value + width/2
		if u := firstPassing(&lo, &hi); k%4 != 0 && !math.IsNaN(u) {
			// A step beyond the root closes the bracket on its other side.
			room := math.Min(f.fine/2, width/4)
			x = math.Max(lo.Value+room, math.Min(lo.Value+u*width, hi.Value-room))
		}
		p := f.point(x)
		if !p.Built() {
			break // a gap in what can be built: the border is as near as that
		}
		if p.Verdict.Code == was {
			lo = p
		} else {
			hi = p
		}
	}
	return lo, hi
}

// firstPassing is the share of the way from a to b at which the first of the
// margins passes 0 if all are straight; NaN when none does.
func firstPassing(a, b *Point) float64 {
	first, from, to := math.NaN(), a.Margins(), b.Margins()
	for k := range from {
		x, y := from[k], to[k]
		if u := x / (x - y); (x < 0) != (y < 0) && !(u >= first) && !math.IsInf(x-y, 0) && !math.IsNaN(u) {
			first = u
		}
	}
	return first
}
