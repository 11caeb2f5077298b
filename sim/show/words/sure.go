package words

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// Judged is a verdict with how sure it is, where that was asked for: "SUITS, sure to 89 in
// 100, else thin"; another that the draws end in more often is said first. Shown makes
// the word of a verdict.
func Judged(d *sim.Digest, shown func(rules.Code) string) string {
	if s := &d.Verdict.Sureness; s.Rather() {
		return say("rather %s, in %s draws of the readings within their errors; as they were read it %s, in %s", shown(s.Else), ofHundred(s.ElseIn), Does(d.Verdict.Code), ofHundred(s.Same))
	}
	return shown(d.Verdict.Code) + Sure(d)
}

// Sure is how sure a verdict is, to follow its word; "" where that was not asked for.
func Sure(d *sim.Digest) string {
	s := &d.Verdict.Sureness
	return cmp.Or(
		where(s.Rather(), ", but rather %s: in %s draws of the readings within their errors", Small(s.Else), ofHundred(s.ElseIn)),
		where(s.Draws > 0, ", sure to %s", inHundred(s.Same))+where(s.Else != rules.Unjudged, ", else %s", Small(s.Else)))
}

// surely is Sure within a sentence.
func surely(d *sim.Digest) string {
	return where(d.Verdict.Sureness.Draws > 0, " (%s)", strings.TrimPrefix(Sure(d), ", "))
}

// InHundred is how sure a verdict is, as a number of 100; "–" where it was not asked for.
func InHundred(d *sim.Digest) string {
	s := &d.Verdict.Sureness
	return Either(s.Draws > 0, strings.NewReplacer(" in 100", "", "none", "0").Replace(inHundred(s.Same)), "–")
}

// ofHundred is a share of the draws, before "draws".
func ofHundred(share float64) string { return strings.Replace(inHundred(share), " in ", " of ", 1) }

// inHundred is a share of the draws, no draw rounded away.
func inHundred(share float64) string {
	return cmp.Or(
		where(share == 0, "none"),
		where(share < 0.005, "< 1 in 100"),
		where(share < 1 && share >= 0.995, "> 99 in 100"),
		say("%.0f in 100", 100*share))
}

// Decides tells which input is to be known better, and how well, for the verdict to be
// surer; "" where it is sure enough, or was not asked.
func Decides(d *sim.Digest) string {
	it := Decider(d)
	return Either(it == "", "", "what decides: "+it)
}

// Decider is Decides where it is said already that it decides.
func Decider(d *sim.Digest) string {
	by := &d.Verdict.Sureness.Decides
	first := &by.Inputs[0]
	if first.Key == "" {
		return ""
	}
	how := toKnow(first.Key)
	return say("%s%s%s; were it known ", Input(first.Words, d.Name), where(first.Assumed, ", which was assumed"), where(how != "", ": %s", how)) + cmp.Or(
		where(!math.IsNaN(first.Within), "to %s in place of %s, sure to %s", howWell(first, first.Within), howWell(first, first.Now), inHundred(sim.SureEnough)),
		say("exactly, sure to %s", inHundred(by.Alone)))
}

// DeciderToOrder is Decides of a spring that is still to be ordered, whose coils and turns
// nobody can count yet: the dealer is asked for its steel.
func DeciderToOrder(d *sim.Digest) string {
	says := Decides(d)
	key := d.Verdict.Sureness.Decides.Inputs[0].Key
	if how := toKnow(key); strings.Contains(key, ".mainspring.") && how != "" {
		says = strings.Replace(says, ": "+how+";", where(strings.HasSuffix(key, ".yield_mpa"), ": ask the dealer for its tensile strength, of which it is about 0.95")+";", 1)
	}
	return says
}

// toKnow is how an input is known better; "" where it is a reading like any other.
func toKnow(key string) string {
	_, key, _ = strings.Cut(key, ".")
	return map[string]string{
		"mainspring.yield_mpa": "count its free coils", "mainspring.packing": "count its turns from rest to solid",
		"fly.drag_coefficient": "time one strike", "demand.least_torque_nm": "weights up and down tell it",
	}[key]
}

// DecidesWith tells which others are to be known with the one that decides; "" where it is
// enough, or there is none.
func DecidesWith(d *sim.Digest) string {
	by, more := &d.Verdict.Sureness.Decides, told{}
	for _, in := range by.Inputs[1:] {
		more.when(in.Key != "", "the %s", Input(in.Words, d.Name))
	}
	return cmp.Or(
		where(len(more) > 0, "with %s known exactly too, it would be sure to %s", listed(more), inHundred(by.All)),
		where(by.Inputs[0].Key != "" && by.All < sim.SureEnough, "no three inputs known exactly would make it sure to %s", inHundred(sim.SureEnough)))
}

// howWell is how far an input may be off.
func howWell(in *sim.Decider, by float64) string {
	return Either(in.Times, say("a factor of %.3g", by), united("± "+typed(rounded(by)), in.Unit))
}

// rounded takes off what arithmetic adds to a figure that was typed.
func rounded(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	if err != nil {
		return v
	}
	return r
}
