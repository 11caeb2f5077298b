package scenario

import (
	"errors"
	"math"
	"slices"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/mainspring/rub"
	"evenpull/sim/internal/document"
)

// LengthBy is how the length of a strip is known.
type LengthBy uint8

const (
	LengthGiven    LengthBy = iota // in the scenario
	LengthInferred                 // left out: SolidTurns tells it or, without them, half the barrel is filled
	LengthMisread                  // the same where values are drawn: a count past the most turns is taken as these
	LengthKept                     // as it was inferred before something was changed
)

// A strip of unknown length fills half the barrel, or between these shares of it (common
// practice, no source).
const leastFilled, mostFilled = 0.42, 0.55

const mm, mpa, gpa = 1e-3, 1e6, 1e9

// Keep makes the length one that stays whatever it was inferred from.
func (m *Mainspring) Keep(lengthMM float64) {
	m.LengthMM, m.LengthBy, m.SolidTurns = lengthMM, LengthKept, math.NaN()
}

// Housing is the barrel inside, in SI.
func (b *Barrel) Housing() mainspring.Housing {
	return mainspring.Housing{Arbor: b.ArborDiameterMM * mm / 2, Inside: b.InsideDiameterMM * mm / 2}
}

// Strip is the strip in SI as far as it is given: turns counted from rest to solid and
// coils that it shows lying free tell more of it.
func (m *Mainspring) Strip() mainspring.Strip {
	s := mainspring.Strip{
		Width: m.WidthMM * mm, Thickness: m.ThicknessMM * mm, Length: m.LengthMM * mm,
		Modulus: m.ModulusGPa * gpa, Bending: bendingOf(m.Bending), Poisson: m.Poisson, Packing: 1, Couple: m.CoupleRatio,
	}
	if Given(m.Packing) {
		s.Packing = m.Packing
	}
	if Given(m.FrictionCoefficient) {
		s.Uncounted = rub.Uncounted(EndOf(m.OuterEnd))
	}
	switch {
	case m.NaturalForm == AsEven:
		s.Form, s.FreeCoils = mainspring.Even, m.FreeCoils
	case m.NaturalForm == BySet && Given(m.YieldMPa):
		s.Form, s.Yield = mainspring.Set, m.YieldMPa*mpa
	}
	return s
}

// Ends are the ways in which an outer end is held, as a file names them, by mainspring.End.
func Ends() []string { return []string{mainspring.Hooked: Hooked, mainspring.Braced: Braced} }

// EndOf is the end of a name, hooked where there is none.
func EndOf(name string) mainspring.End { return mainspring.End(max(slices.Index(Ends(), name), 0)) }

func bendingOf(word string) mainspring.Bending {
	switch word {
	case AsStrip:
		return mainspring.Narrow
	case AsPlate:
		return mainspring.Plate
	}
	return mainspring.Wide
}

// coilsTell are the free coils where they tell the steel, else NaN.
func (m *Mainspring) coilsTell() float64 {
	if m.NaturalForm == BySet && !Given(m.YieldMPa) {
		return m.FreeCoils
	}
	return math.NaN()
}

// inferLength is the length (mm) that stands for one left out; NaN where there is none. Of a
// count past the most turns it is the length that makes these.
func inferLength(t *Train) float64 {
	if t.Mainspring.LengthBy == LengthKept {
		return t.Mainspring.LengthMM
	}
	length, _ := t.lengthTold(false)
	return length
}

// lengthTold is the length (mm) that stands for one left out, the shorter or the longer one
// that makes the turns counted: see mainspring.LengthFor.
func (t *Train) lengthTold(longer bool) (float64, error) {
	m := &t.Mainspring
	s, h := m.Strip(), t.Barrel.Housing()
	if Given(m.SolidTurns) {
		length, err := mainspring.LengthFor(s, h, m.SolidTurns, m.coilsTell(), longer)
		return length / mm, err
	}
	if half := s.HalfFill(h); half > 0 && !math.IsInf(half, 1) {
		return half / mm, nil
	}
	return math.NaN(), nil
}

// whyLength tells what a length that was left out is from, and how far it may be off.
func whyLength(t *Train) string {
	m := &t.Mainspring
	if m.LengthBy == LengthKept {
		return "as before the change"
	}
	if !Given(m.SolidTurns) {
		off := howLong(t, false)
		return "half the barrel filled, " + rounded(off.Lo) + " to " + rounded(off.Hi) + "; " + practice
	}
	longer, _ := t.lengthTold(true)
	told := "solid at " + rounded(m.SolidTurns) + " turns; "
	lo, hi := howPacked(t, m.Packing != AssumedPacking).Around(m.Packing)
	for i, packing := range []float64{max(lo, 1), hi} {
		packed := *t
		packed.Mainspring.Packing = packing
		length, _ := packed.lengthTold(false)
		told += [2]string{"", " to "}[i] + rounded(length)
	}
	return told + " by packing; or " + rounded(longer)
}

// counted refuses turns from rest to solid that a strip of no length makes.
func (tr *trail) counted(t *Train) {
	m := &t.Mainspring
	if m.LengthBy != LengthInferred || !Given(m.SolidTurns) || tr.badUnder(tr.spot("mainspring")) || !tr.sound("barrel.inside_diameter_mm", "barrel.arbor_diameter_mm") {
		return
	}
	_, err := t.lengthTold(false)
	var count *mainspring.CountError
	want := "want length_mm, or fewer free coils"
	switch {
	case err == nil:
		return
	case errors.As(err, &count) && count.Counted > count.Most:
		want = "want at most " + document.Figure(math.Floor(100*count.Most)/100) + ", the most that a strip of this thickness makes in this barrel at any length, with packing = " + document.Figure(m.Packing)
	case errors.As(err, &count):
		want = "want more than " + rounded(count.Least)
	}
	tr.report("mainspring.solid_turns", "found "+document.Figure(m.SolidTurns), want, "mainspring.thickness_mm", "mainspring.packing",
		"mainspring.free_coils", "barrel.inside_diameter_mm", "barrel.arbor_diameter_mm")
}
