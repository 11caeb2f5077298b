package trying

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/scenario"
	"evenpull/sim/study/choose"
	"evenpull/sim/vary"
)

// number is one as people write it, with a point or a comma, and its unit or none.
var number = regexp.MustCompile(`^([-+−]?[0-9]*[.,]?[0-9]+(?:[eE][-+]?[0-9]+)?)\s*(.*)$`)

// Read reads what was typed for an input, in its own unit where it names none, else in any
// of its kind. The error tells what was found and what is wanted.
func (b *Bench) Read(key, text string) (float64, error) {
	q, err := b.Found.Quantity(key)
	if err != nil {
		return math.NaN(), err
	}
	want := fmt.Sprintf("want a number from %.6g to %.6g", q.Lo, q.Hi)
	if math.IsInf(q.Hi, 1) {
		want = fmt.Sprintf("want a number, %.6g or more", q.Lo)
	}
	if q.Unit != "" {
		want += " " + q.Unit
	}
	of := number.FindStringSubmatch(strings.TrimSpace(text))
	if of == nil {
		return math.NaN(), fmt.Errorf("found %.40q; %s", text, want)
	}
	v, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-").Replace(of[1]), 64)
	if err != nil {
		return math.NaN(), fmt.Errorf("found %.40q; %s", text, want)
	}
	if of[2] != "" {
		as, by := scenario.Spelt(key, of[2])
		switch {
		case as != "":
			v = tidy(v * by)
		case of[2] != q.Unit:
			units := scenario.UnitWords(key)
			if len(units) == 0 {
				return math.NaN(), fmt.Errorf("found %.40q; %s", text, want)
			}
			return math.NaN(), fmt.Errorf("found %.40q; want a number in %s", text, strings.Join(units, ", "))
		}
	}
	if !(v >= q.Lo && v <= q.Hi) {
		return math.NaN(), fmt.Errorf("found %.40s; %s", text, want)
	}
	return v, nil
}

// Others are the inputs that are not on the bench from the start: numbers of the train, each
// by itself, then those of the whole clock.
func (b *Bench) Others() (list []scenario.Quantity) {
	always := []string{b.Key(Thickness), b.Key(Width), b.Key(Length), b.Key(SetUp)}
	for _, q := range b.Found.Quantities() {
		if vary.Concerns(b.Found, b.Number, q.Key) && q.List == "" && !slices.Contains(always, q.Key) {
			list = append(list, q)
		}
	}
	own := func(q scenario.Quantity) int { return strings.Index(q.Key, b.Key("")) } // 0 of the train's own, else −1
	slices.SortStableFunc(list, func(x, y scenario.Quantity) int { return own(y) - own(x) })
	return list
}

// Strip are the values that a candidate of a dealer's list is tried with, as it is fitted.
func (b *Bench) Strip(c *choose.Candidate) map[string]float64 {
	set := map[string]float64{b.Key(Thickness): c.ThicknessMM, b.Key(Width): c.WidthMM, b.Key(Length): c.Length(), b.Key(SetUp): c.Digest.Spring.SetUp}
	if scenario.Given(c.YieldMPa) {
		set[b.Key("mainspring.yield_mpa")] = c.YieldMPa
	}
	if scenario.Given(c.ModulusGPa) {
		set[b.Key("mainspring.modulus_gpa")] = c.ModulusGPa
	}
	return set
}

// told are what observations of a spring tell, which stands for them once another is tried.
var told = []string{"mainspring.yield_mpa", "mainspring.packing", "fly.drag_coefficient"}

// Changed are the KEYs whose values in a trial are others than were found.
func (b *Bench) Changed(a *Answer) (keys []string) {
	all := slices.Clone(told)
	for i := range all {
		all[i] = b.Key(all[i])
	}
	for key := range a.Values {
		if !slices.Contains(all, key) {
			all = append(all, key)
		}
	}
	for _, key := range all {
		now, err := a.Trial.Value(key)
		if err != nil {
			continue
		}
		if was, err := b.Found.Value(key); err != nil || *was != *now {
			keys = append(keys, key)
		}
	}
	slices.Sort(keys)
	return keys
}
