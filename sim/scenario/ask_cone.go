package scenario

import (
	"math"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
)

// askCone asks about diameters that stand the wrong way round, or of which one is out of
// line with its neighbours.
func (tr *trail) askCone(f *Fusee) {
	if f.SmallDiameterMM > outOfOrder*f.LargeDiameterMM && tr.sound("small_diameter_mm", "large_diameter_mm") {
		tr.report("small_diameter_mm", "found "+document.Figure(f.SmallDiameterMM)+", more than large_diameter_mm, "+document.Figure(f.LargeDiameterMM)+" mm",
			"want the two changed about")
	}
	key, d, by := "diameters_mm", f.DiametersMM, 1.0
	if len(f.Points) > 0 {
		key, d = "points", nil
		for _, p := range f.Points {
			d = append(d, p.DiameterMM)
		}
	}
	if len(d) < leastPoints || len(f.Points) > 0 && f.Points[0].Turn != 0 || tr.badUnder(tr.spot(key)) || !tr.sound("turns") {
		return
	}
	for _, v := range d {
		if !across.holds(v) {
			return
		}
	}
	if as, ok := tr.s.writtenAs(tr.spot(key)); ok {
		_, by = tr.steps[tr.depth-1].t.measured(as)
	}
	if wrongWayRound(d) {
		tr.report(key, "found diameters that fall, from "+rounded(d[0]/by)+" at the small end to "+rounded(d[len(d)-1]/by), "want the small end first: "+f.turned(by))
		return
	}
	i, cure, why := outOfLine(d, by)
	if i < 0 {
		return
	}
	var beside []string
	for _, k := range []int{i - 1, i + 1} {
		if k >= 0 && k < len(d) {
			beside = append(beside, rounded(d[k]/by))
		}
	}
	want := "want it measured again"
	if why != "" {
		want = "want " + rounded(cure/by) + "? " + why
	}
	tr.report(key+"."+strconv.Itoa(i), "found a diameter of "+rounded(d[i]/by)+", out of line with "+strings.Join(beside, " and ")+" beside it", want)
}

// outOfOrder is how much more than the large end the small one has to be to be taken for
// it: a cylinder read twice is not.
const outOfOrder = 1.05

// wrongWayRound tells whether diameters that should rise fall at most steps and in all.
func wrongWayRound(d []float64) bool {
	falls := 0
	for i := range len(d) - 1 {
		if d[i+1] < d[i] {
			falls++
		}
	}
	return d[0] > outOfOrder*d[len(d)-1] && 2*falls > len(d)-1
}

// turned is the list of diameters as it would be the other way round.
func (f *Fusee) turned(by float64) string {
	var all []string
	for i := range f.DiametersMM {
		all = append(all, rounded(f.DiametersMM[len(f.DiametersMM)-1-i]/by))
	}
	for i := range f.Points {
		p := f.Points[len(f.Points)-1-i]
		all = append(all, "["+rounded(f.Turns-p.Turn)+", "+rounded(p.DiameterMM/by)+"]")
	}
	if len(all) > 20 {
		return "from " + all[0] + " to " + all[len(all)-1]
	}
	return "[" + strings.Join(all, ", ") + "]"
}

// outOfLine finds a diameter (mm, written in units of by) that is past a neighbour by 5 %
// and 1.5 mm at least, while its neighbours follow each other, and that would stand
// between them with two of its digits changed about or its decimal point moved; or one that
// is a quarter past a neighbour whatever was meant. A groove worn by so much has lost its
// lands. At the ends, where wear is greatest and a cone steepest, twice as much is asked
// for, and past the last step only for the decimal point. −1 for none.
func outOfLine(d []float64, by float64) (at int, cure float64, why string) {
	at = -1
	for i, v := range d {
		lo, hi := between(d, i)
		inside := i > 0 && i < len(d)-1
		far := 1.0
		if !inside {
			far = 2
		}
		if lo > hi+slack(hi) || !(max(lo-v-far*slack(lo), v-hi-far*slack(hi)) > 0) {
			continue
		}
		const reading = 0.3 // mm
		digits := inside || i == 0 && v > hi || i > 0 && v < lo
		if cure, why := meant(v, by, lo-reading, hi+reading, digits); why != "" {
			return i, cure, why
		}
		if at < 0 && inside && (v > 1.25*hi || v < lo/1.25) {
			at = i
		}
	}
	return at, math.NaN(), ""
}

func slack(d float64) float64 { return max(1.5, 0.05*d) }

// between are the diameters that the one at i lies between: those beside it, and at an end
// three times as far as the last step goes.
func between(d []float64, i int) (lo, hi float64) {
	last := len(d) - 1
	switch i {
	case 0:
		return d[1] - 3*math.Abs(d[2]-d[1]) - 1, d[1]
	case last:
		return d[last-1], d[last-1] + 3*math.Abs(d[last-1]-d[last-2]) + 1
	}
	return d[i-1], d[i+1]
}

// meant is what was likely meant by a diameter that should lie within a range, and why;
// digits tells whether they may have changed places.
func meant(v, by, lo, hi float64, digits bool) (cure float64, why string) {
	for _, factor := range []float64{10, 0.1, 100, 0.01} {
		if c := v * factor; c >= lo && c <= hi {
			return c, "the decimal point"
		}
	}
	if !digits {
		return math.NaN(), ""
	}
	text := document.Swapped(rounded(v/by), func(c float64) bool { return c*by >= lo && c*by <= hi })
	c, err := strconv.ParseFloat(text, 64)
	if err != nil { // nothing fits
		return math.NaN(), ""
	}
	return c * by, "two digits changed about"
}
