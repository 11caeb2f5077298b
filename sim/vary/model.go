// Package vary runs a train again and again with some of its quantities changed: the engine
// below the studies of what would happen if.
//
// A Model is a train with KEYs that vary; Run gives the run-down with values for them, in the
// units of the KEYs, and Each does so on every core. Only what depends on a value that changed
// is compiled anew; a run is that of the scenario with the values set. Terms, such as KEY, are
// those of package sim.
//
// A changed spring is another spring of the same steel, as it was inferred from the coils that
// the scenario's own shows lying free, and packs as that one. Its set is computed anew. But
// where values are drawn because they may have been misread (see Reading), what was observed
// stays and what it tells is inferred anew. A cone that was asked to be even stays as it was
// cut for the scenario's own spring, unless the fusee itself is changed: then it is cut anew
// each time.
//
// Inputs tells what of a train is not known exactly, and a Drawer draws it: each input on its
// own, within its tolerance or usual reading error (normal, uniform or log-normal, as
// scenario.ReadingError says), never beyond the range of its quantity. That inputs may be off
// together is left out. Slopes are central differences, extrapolated after L. F. Richardson,
// with the error that the extrapolation shows.
package vary

import (
	"cmp"
	"slices"
	"strings"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
)

// Hold is what of the spring stays when another thickness or barrel is tried.
type Hold uint8

const (
	Length Hold = iota // the length of the strip, as the scenario has it
	Fill               // the share of the barrel that it fills: the strip is cut to it
)

// Holds are the names of what may be held: see Hold.
func Holds() []string { return []string{"length", "fill"} }

// String is the name.
func (h Hold) String() string { return Holds()[min(int(h), int(Fill))] }

// Model is a train of a scenario with some quantities that vary. It is not for
// use by several goroutines at once: see Copy and Each.
type Model struct {
	base    *scenario.Scenario // never changed
	number  int
	hold    Hold
	reading bool        // what was observed stays, not what was inferred
	cone    *fusee.Cone // that was asked for, or nil
	keys    []string
	nominal []float64
	lo, hi  []float64 // the range of each

	s       *scenario.Scenario // changed at each run
	at      []*float64         // where the values of the keys stand in it
	follow  func() bool
	parts   sim.Part
	partOf  []sim.Part // that each key has a share in
	always  sim.Part   // compiled anew whatever changed
	stale   sim.Part   // not compiled since an error
	train   sim.Train
	options sim.Options
	strip   Strip
	result  sim.Result

	own    sim.Train  // as the scenario has it
	digest sim.Digest // and what it comes to
}

// New makes a model of the train with the given number in which the keys may
// vary. It fails with the errors of scenario.Value, of sim.CompileTrain and of a
// run-down, so that the scenario as it is can be run.
func New(s *scenario.Scenario, number int, hold Hold, keys ...string) (*Model, error) {
	return newModel(s, number, hold, keys, given{})
}

// Reading is New for values that may have been misread: coils that the spring shows
// lying free, and turns counted from rest to solid, stay as they were seen, and the steel
// and the packing that they tell follow from the values of each run.
func Reading(s *scenario.Scenario, number int, hold Hold, keys ...string) (*Model, error) {
	return newModel(s, number, hold, keys, given{reading: true})
}

// Drive is New with arc, rate and blows left out of every run, also of that of the
// scenario as it is: see DriveOnly.
func Drive(s *scenario.Scenario, number int, keys ...string) (*Model, error) {
	return newModel(s, number, Length, keys, given{options: sim.Options{TorqueOnly: true}})
}

// WithCone is New with another cone, already cut, in the train. It stays, unless a
// key of the fusee is among those that vary.
func WithCone(s *scenario.Scenario, number int, cone fusee.Cone, keys ...string) (*Model, error) {
	return newModel(s, number, Length, keys, given{cone: &cone})
}

// given is what not every model has.
type given struct {
	cone    *fusee.Cone
	options sim.Options
	reading bool
}

func newModel(s *scenario.Scenario, number int, hold Hold, keys []string, g given) (*Model, error) {
	m := &Model{cone: g.cone, options: g.options, reading: g.reading, base: s, number: number, hold: hold, keys: keys, s: s.Clone()}
	m.at, m.nominal, m.lo, m.hi = make([]*float64, len(keys)), make([]float64, len(keys)), make([]float64, len(keys)), make([]float64, len(keys))
	for i, key := range keys {
		v, err := m.s.Value(key)
		if err != nil {
			return nil, err
		}
		q, err := m.s.Quantity(key)
		if err != nil {
			return nil, err
		}
		m.at[i], m.nominal[i], m.lo[i], m.hi[i] = v, *v, q.Lo, q.Hi
		m.partOf = append(m.partOf, sim.PartsOf(key))
	}
	if hold == Fill {
		m.always = sim.DrivePart
	}
	if in := &m.s.Trains[number]; g.cone == nil && in.Fusee.Profile != scenario.Even && sim.ConeByLine(&in.Fusee) && m.varies(&in.Line.ThicknessMM) {
		m.partOf[slices.Index(m.at, &in.Line.ThicknessMM)] |= sim.ConePart
	}
	m.parts = m.always
	for _, p := range m.partOf {
		m.parts |= p
	}
	m.stale = m.parts
	var err error
	if m.train, err = sim.CompileTrain(m.s, number); err != nil {
		return nil, err
	}
	m.strip = StripOf(&m.s.Trains[m.number])
	if spring := &m.s.Trains[number].Mainspring; !m.reading {
		err = infer(m)
	} else if spring.LengthBy == scenario.LengthInferred {
		spring.LengthBy = scenario.LengthMisread
	}
	m.follow = m.s.Following(keys...)
	if err = cmp.Or(err, m.cut()); err != nil {
		return nil, err
	}
	r, err := m.Run(m.nominal)
	if err != nil {
		return nil, err
	}
	m.own, m.digest = m.train, r.Digest
	m.train.Reuse() // from here on: the scenario's own cone stays
	return m, nil
}

// cut puts a cone in that stays, unless the fusee varies.
func (m *Model) cut() error {
	switch {
	case m.parts&sim.ConePart != 0:
	case m.cone != nil:
		m.train.Drive.Cone = *m.cone
	default:
		w, err := m.train.Drive.Wind()
		if err != nil {
			return sim.Blame(m.base, m.number, err)
		}
		m.train.Drive.Cone = w.CutCone()
	}
	return nil
}

// Copy is a model of its own for another goroutine.
func (m *Model) Copy() (*Model, error) {
	c, err := newModel(m.base, m.number, m.hold, m.keys, given{m.cone, sim.Options{TorqueOnly: m.options.TorqueOnly}, m.reading})
	if err == nil {
		c.options = m.options
	}
	return c, err
}

// DriveOnly leaves arc, rate and blows out of the runs to come, which are then
// several times as fast; torques, need and verdict are the same. Copies have it too.
func (m *Model) DriveOnly() { m.options.TorqueOnly = true }

// Whole takes arc, rate and blows into the runs to come.
func (m *Model) Whole() { m.options.TorqueOnly = false }

// For leaves arc, rate and blows out of the runs to come where none of the figures needs
// them.
func (m *Model) For(of []outcome.Figure) {
	m.DriveOnly()
	r, err := m.Run(m.nominal)
	for _, f := range of {
		if err != nil || f.Of(&r.Digest) != f.Of(&m.digest) { // NaN where it does not apply now, but may elsewhere
			m.Whole()
		}
	}
}

// Nominal are the values of the keys in the scenario.
func (m *Model) Nominal() []float64 { return m.nominal }

// Keys are the keys that vary.
func (m *Model) Keys() []string { return m.keys }

// Run runs the train down with the given values of the keys, in their units.
// The result holds until the next run. An error tells why the train cannot be
// built with these values: see Why.
func (m *Model) Run(values []float64) (*sim.Result, error) { return m.run(values, false) }

// run is Run; ranged tells that every value is within its range.
func (m *Model) run(values []float64, ranged bool) (*sim.Result, error) {
	parts := m.stale | m.always
	for i, at := range m.at {
		if *at != values[i] {
			*at = values[i]
			parts |= m.partOf[i]
		}
	}
	m.stale = parts
	followed := m.follow()
	m.cutToFill()
	check := m.s.CheckTrain
	if m.hold == Length && (ranged || followed && m.within(values)) { // what the strip is cut to may be anything
		check = m.s.CheckCombined
	}
	if err := check(m.number); err != nil {
		return nil, err
	}
	if err := m.train.Update(m.s, m.number, parts); err != nil {
		return nil, err
	}
	m.stale = 0
	if err := m.train.RunInto(&m.result, m.options); err != nil {
		return nil, sim.Blame(m.s, m.number, err)
	}
	return &m.result, nil
}

// within tells whether every value is inside its range.
func (m *Model) within(values []float64) bool {
	for i, v := range values {
		if !(v > m.lo[i] && v < m.hi[i]) {
			return false
		}
	}
	return true
}

// Own is the train as the scenario has it, its cone cut, and what it comes to.
func (m *Model) Own() (*sim.Train, *sim.Digest) { return &m.own, &m.digest }

// Concerns tells whether a KEY names a quantity of the train with the given
// number, or one of the whole clock.
func Concerns(s *scenario.Scenario, number int, key string) bool {
	owner, _, _ := strings.Cut(key, ".")
	return owner == "place" || owner == "verdict" || owner == s.Trains[number].Name
}
