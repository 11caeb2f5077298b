package scenario

import (
	"errors"
	"maps"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
)

// maxValue is the longest value that Set takes, in bytes.
const maxValue = 1 << 16

// Apply makes changes of the form KEY=VALUE, in order, and checks the whole.
// All faults come back together, and then nothing is changed. Pointers that
// Value gave before no longer point into the scenario.
func (s *Scenario) Apply(sets []string) error {
	changed := s.Clone()
	var faults Faults
	for _, kv := range sets {
		key, value, ok := strings.Cut(kv, "=")
		if !ok {
			faults = append(faults, Fault{Source: setSource(shown(keyline.Clip(kv))), Found: `found no "="`, Want: "want KEY=VALUE"})
			continue
		}
		var f Fault
		if err := changed.Set(strings.TrimSpace(key), strings.TrimSpace(value)); errors.As(err, &f) {
			faults = append(faults, f)
		}
	}
	if more, ok := changed.Check().(Faults); ok {
		faults = append(faults, more...)
	}
	if err := faults.Sorted(); err != nil {
		return err
	}
	*s = *changed
	return nil
}

// Set changes one value. KEY is such as going.mainspring.thickness_mm,
// going.mesh.centre.efficiency, going.load.centre.torque_nm,
// going.fusee.diameters_mm.0 (at a whole turn, from 0),
// striking.strike.hammers.1.mass_g, tolerance.1.plus_minus (both from 1),
// place.gravity_m_s2 or title. The value is TOML; a text may stand without
// quotes.
//
// Of keys that exclude each other the one set stays and the other is cleared. What
// is derived from a default follows. The value's type is judged at once, as a Fault,
// its range and what it does to the rest by Check, so that several changes can
// be made first.
func (s *Scenario) Set(key, value string) error {
	return s.change(key, func(tg *target) *wrong { return tg.put(value) })
}

// SetNumber is Set for a number, in the unit of its KEY:
// SetNumber("going.mainspring.thickness_mm", 0.40). A number that can only be whole,
// such as teeth, is taken only so, and in its range.
func (s *Scenario) SetNumber(key string, v float64) error {
	return s.change(key, func(tg *target) *wrong { return tg.putNumber(v) })
}

// change stores a value where a KEY says, and what follows from it.
func (s *Scenario) change(key string, put func(*target) *wrong) error {
	tg, err := s.resolve(key, true)
	if err != nil {
		return err
	}
	if w := put(tg); w != nil {
		tg.undo()
		return keyFault(key, w.found, w.want)
	}
	tg.dropAlternatives()
	spot := tg.fieldSpot()
	s.record(spot, key)
	delete(s.supplied, tg.spot(tg.f.key))
	s.Complete()
	return nil
}

// record keeps in mind which KEY changed a spot.
func (s *Scenario) record(spot, key string) {
	if s.set == nil {
		s.set = map[string]string{}
	}
	maps.DeleteFunc(s.set, func(old, _ string) bool { return strings.HasPrefix(old, spot+".") })
	s.set[spot] = key
}

// put stores a value given as text.
func (tg *target) put(value string) *wrong {
	if len(value) > maxValue {
		return &wrong{found: "found " + plural(len(value), "byte"), want: "want at most " + strconv.Itoa(maxValue)}
	}
	v, err := document.Value(value)
	if dst, ok := tg.v.(*string); ok {
		if s, isText := v.(string); isText && err == nil {
			*dst = s
		} else {
			*dst = value
		}
		return nil
	}
	f, dst := tg.place()
	if err != nil {
		w := &wrong{found: "found " + strconv.Quote(keyline.Clip(value)), want: f.want()}
		if cure := document.Cure(value); cure != "" {
			w.want += ", " + cure
		}
		return w
	}
	return f.assign(dst, tg.inUnit(v))
}

// putNumber stores a number.
func (tg *target) putNumber(v float64) *wrong {
	if tg.by != 0 {
		v *= tg.by
	}
	f, dst := tg.place()
	switch d := dst.(type) {
	case *float64:
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			*d = v
			return nil
		}
	case *int:
		if f.span.wholes(v) {
			*d = int(v)
			return nil
		}
	}
	return &wrong{found: "found " + document.Figure(v), want: f.want()}
}

// place is where a value goes and what it takes: one number of a list or pair takes a
// number.
func (tg *target) place() (*field, any) {
	if n := tg.number(); n != nil {
		return &field{kind: number, unit: tg.f.unit, span: tg.f.span}, n
	}
	return tg.f, tg.v
}

// dropAlternatives clears what the key just set replaces.
func (tg *target) dropAlternatives() {
	st := &tg.steps[tg.depth-1]
	switch v := st.item.(type) {
	case *Mainspring:
		tg.replace("yield_mpa", &v.YieldMPa, "free_coils", &v.FreeCoils)
		if tg.f.key == "length_mm" {
			v.LengthBy = LengthGiven
		}
		if tg.f.key == "length_mm" && Given(v.SolidTurns) {
			v.Packing = math.NaN()
		} else if v.LengthBy == LengthGiven {
			tg.replace("packing", &v.Packing, "solid_turns", &v.SolidTurns)
		}
		tg.replace("efficiency", &v.Efficiency, "friction_coefficient", &v.FrictionCoefficient)
		tg.naturalForm(v)
	case *Mesh:
		tg.replace("efficiency", &v.Efficiency, "friction_coefficient", &v.FrictionCoefficient)
	case *Escapement:
		if tg.f.key == "kind" {
			v.ofKind()
		}
	case *Pendulum:
		tg.replace("length_mm", &v.LengthMM, "beats_per_minute", &v.BeatsPerMinute)
		if tg.f.key == "quality" {
			v.Decay = nil
		}
	case *Decay:
		st.parent.(*Pendulum).Quality = math.NaN()
		tg.replace("periods", &v.Periods, "lasts_s", &v.LastsS)
	case *Timed:
		tg.replace("blow_interval_s", &v.BlowIntervalS, "twelve_s", &v.TwelveS)
		if t := tg.train(); t != nil && t.Fly != nil {
			t.Fly.DragCoefficient = math.NaN()
		}
	case *Fly:
		if t := tg.train(); tg.f.key == "drag_coefficient" && t.timed() {
			t.Strike.Timed = nil
		}
	case *Fusee:
		tg.profile(v)
	case *Tolerance:
		tg.replace("plus_minus", &v.PlusMinus, "percent", &v.Percent)
	}
}

// naturalForm keeps form and steel together: a form that needs no steel drops it, and a
// flow stress makes the strip one that set.
func (tg *target) naturalForm(m *Mainspring) {
	switch tg.f.key {
	case "natural_form":
		if m.NaturalForm != BySet {
			m.YieldMPa = math.NaN()
		}
		if m.NaturalForm == AsStraight {
			m.FreeCoils = math.NaN()
		}
	case "yield_mpa":
		m.NaturalForm = BySet
	case "free_coils":
		if m.NaturalForm == AsStraight {
			m.NaturalForm = BySet
		}
	}
}

// ofKind clears what other pallets than those of the kind have.
func (e *Escapement) ofKind() {
	if e.Kind == DeadBeat {
		e.RecoilRatio = math.NaN()
	} else {
		e.DeadFriction, e.PalletRadiusMM, e.WheelRadiusMM = math.NaN(), math.NaN(), math.NaN()
	}
}

// replace clears the other of two numbers when one of them was set.
func (tg *target) replace(a string, pa *float64, b string, pb *float64) {
	switch tg.f.key {
	case a:
		*pb = math.NaN()
	case b:
		*pa = math.NaN()
	}
}

// profile clears the diameters that the fusee's profile has no use for.
func (tg *target) profile(f *Fusee) {
	switch {
	case tg.f.key == "profile" && f.Profile == Measured:
		f.SmallDiameterMM, f.LargeDiameterMM = math.NaN(), math.NaN()
	case tg.f.key == "profile" && (f.Profile == Cone || f.Profile == Even):
		f.DiametersMM, f.Points = nil, nil
	case tg.f.key == "points":
		f.DiametersMM = nil
	case tg.f.key == "diameters_mm":
		f.Points = nil
	case f.Profile == Even:
		tg.replace("small_diameter_mm", &f.SmallDiameterMM, "large_diameter_mm", &f.LargeDiameterMM)
	}
}
