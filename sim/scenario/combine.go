package scenario

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"evenpull/sim/internal/document"
)

// combine judges the values of one table against each other, and at a train
// or the whole scenario those of its tables.
func (tr *trail) combine(item any) {
	switch v := item.(type) {
	case *Scenario:
		tr.names(v)
		tr.tolerances(v)
	case *Tolerance:
		tr.byHowMuch(v)
	case *Bands:
		tr.bands(v)
	case *Mainspring:
		tr.mainspring(v)
	case *Barrel:
		tr.barrel(v)
	case *Fusee:
		tr.fusee(v)
	case *Mesh:
		tr.mesh(v)
	case *Pendulum:
		tr.pendulum(v)
	case *Decay:
		tr.decay(v, tr.steps[tr.depth-2].item.(*Pendulum))
	case *Escapement:
		tr.beyondImpulse(v)
	case *Fly:
		if v.OuterRadiusMM <= v.InnerRadiusMM && tr.sound("outer_radius_mm", "inner_radius_mm") {
			tr.report("outer_radius_mm", "found "+document.Figure(v.OuterRadiusMM),
				"want more than inner_radius_mm, "+document.Figure(v.InnerRadiusMM)+" mm", "inner_radius_mm")
		}
	case *Timed:
		tr.exclusive("twelve_s", "blow_interval_s", v.TwelveS, v.BlowIntervalS)
		if !Given(v.TwelveS) && !Given(v.BlowIntervalS) && tr.sound("blow_interval_s", "twelve_s") {
			tr.report("blow_interval_s", "missing", "want blow_interval_s or twelve_s")
		}
	case *Strike:
		if v.LiftShare >= 1 && tr.sound("lift_share") {
			tr.report("lift_share", "found "+document.Figure(v.LiftShare)+", a pin that lifts longer than its pitch", "want a number from 0.001 to below 1")
		}
		tr.pinSets(v)
	case *Demand:
		tr.rises("blow_interval_s", v.BlowIntervalS)
		tr.rises("torque_band_nm", v.TorqueBandNM)
	case *Train:
		tr.whole(v)
	}
}

// pinSets refuses sets whose pins are not those of the wheel, and hammers that
// there are not.
func (tr *trail) pinSets(s *Strike) {
	if len(s.PinSets) == 0 || !tr.sound("pin_set", "pins", "hammers") {
		return
	}
	pins, lifted := 0, map[float64]bool{}
	for i := range s.PinSets {
		p := &s.PinSets[i]
		tr.push(pinSets, i, s, p)
		pins += p.Pins
		for k, n := range p.Lifts {
			if slices.Contains(p.Lifts[:k], n) && tr.sound("lifts") {
				tr.report("lifts."+strconv.Itoa(k), "found "+document.Figure(n)+" again", "want each hammer once")
			}
			lifted[n] = true
			if (n != math.Trunc(n) || n > float64(len(s.Hammers))) && tr.sound("lifts") {
				tr.report("lifts."+strconv.Itoa(k), "found "+document.Figure(n), fmt.Sprintf("want the number of a hammer, 1 to %d", len(s.Hammers)))
			}
		}
		tr.pop()
	}
	for n := range s.Hammers {
		if !lifted[float64(n+1)] && tr.sound("pin_set") {
			tr.report("pin_set", "found no set that lifts hammer "+strconv.Itoa(n+1), "want every hammer lifted by some pins, or left out")
		}
	}
	if pins != s.Pins && tr.sound("pins") {
		tr.report("pins", "found "+strconv.Itoa(s.Pins), fmt.Sprintf("want %d, the pins of all sets of pin_set", pins))
	}
}

var pinSets = trains.sub("strike").sub("pin_set")

// exclusive refuses two keys that stand in for one another.
func (tr *trail) exclusive(key, other string, v, w float64, others ...string) {
	if Given(v) && Given(w) {
		tr.report(key, "found together with "+other, "want one of the two", append([]string{other}, others...)...)
	}
}

// names refuses trains of one name, or of a name that a KEY needs itself.
func (tr *trail) names(s *Scenario) {
	for i := range s.Trains {
		tr.push(trains, i, s, &s.Trains[i])
		tr.trainName(s, i)
		tr.pop()
	}
}

func (tr *trail) trainName(s *Scenario, i int) {
	own := s.Trains[i].Name
	if own == "" || !tr.sound("name") {
		return
	}
	if reserved(own) {
		tr.report("name", "found "+strconv.Quote(own), "want another name: "+own+" names something else in the scenario")
	}
	for j := range i {
		if s.Trains[j].Name == own {
			tr.report("name", "found "+strconv.Quote(own)+" again", "want a name that no other train has")
			return
		}
	}
}

func (tr *trail) bands(b *Bands) {
	if !tr.sound("stops_below", "thin_below", "suits_up_to", "strong_up_to") {
		return
	}
	tr.rising("thin_below", "stops_below", b.ThinBelow, b.StopsBelow)
	tr.rising("suits_up_to", "thin_below", b.SuitsUpTo, b.ThinBelow)
	tr.rising("strong_up_to", "suits_up_to", b.StrongUpTo, b.SuitsUpTo)
}

// rises refuses a pair whose second number is not above the first.
func (tr *trail) rises(key string, v Range) {
	if v.Given() && !(v.Lo < v.Hi) && tr.sound(key) {
		tr.notRising(tr.steps[tr.depth-1].t.field(key), v)
	}
}

// rising refuses a band that ends before the one below it.
func (tr *trail) rising(key, below string, v, least float64) {
	if v < least {
		tr.report(key, "found "+document.Figure(v), "want at least "+below+", "+document.Figure(least), below)
	}
}

// lengthLeftOut tells whether something stands for a length that was not given: there has to
// be a strip that it is of.
func (m *Mainspring) lengthLeftOut() bool {
	return m.LengthBy != LengthGiven && (m.Present || Given(m.ThicknessMM))
}

// steelUnknown tells whether nothing given tells the flow stress of a strip that set.
func (m *Mainspring) steelUnknown() bool { return m.NaturalForm == BySet && !Given(m.FreeCoils) }

// countTellsPacking tells whether turns counted from rest to solid tell the packing, which
// they do where the length is given.
func (m *Mainspring) countTellsPacking() bool {
	return Given(m.SolidTurns) && m.LengthBy == LengthGiven
}

func (m *Mainspring) ofForm() string { return " for natural_form = " + strconv.Quote(m.NaturalForm) }

// alternatives refuses of a strip keys that stand in for one another.
func (tr *trail) alternatives(m *Mainspring) {
	tr.exclusive("free_coils", "yield_mpa", m.FreeCoils, m.YieldMPa)
	if m.countTellsPacking() {
		tr.exclusive("solid_turns", "packing", m.SolidTurns, m.Packing)
	}
	tr.exclusive("friction_coefficient", "efficiency", m.FrictionCoefficient, m.Efficiency)
}

func (tr *trail) mainspring(m *Mainspring) {
	tr.alternatives(m)
	if !tr.sound("natural_form", "free_coils", "yield_mpa") {
		return
	}
	switch {
	case m.NaturalForm != BySet && Given(m.YieldMPa):
		tr.report("yield_mpa", "found "+document.Figure(m.YieldMPa)+m.ofForm(), `want it left out, or natural_form = "set"`, "natural_form")
	case m.NaturalForm == AsStraight && Given(m.FreeCoils):
		tr.report("free_coils", "found "+document.Figure(m.FreeCoils)+m.ofForm(), `want it left out, or natural_form = "set" or "even"`, "natural_form")
	case m.NaturalForm == AsEven && !Given(m.FreeCoils):
		tr.report("free_coils", "missing", "want the coils that the spring shows lying free"+m.ofForm(), "natural_form")
	}
}

func (tr *trail) barrel(b *Barrel) {
	if b.ArborDiameterMM >= b.InsideDiameterMM && tr.sound("arbor_diameter_mm", "inside_diameter_mm") {
		tr.report("arbor_diameter_mm", "found "+document.Figure(b.ArborDiameterMM),
			"want less than inside_diameter_mm, "+document.Figure(b.InsideDiameterMM)+" mm", "inside_diameter_mm")
	}
	if b.ArborPivotMM >= b.InsideDiameterMM && tr.sound("arbor_pivot_mm", "inside_diameter_mm") {
		tr.report("arbor_pivot_mm", "found "+document.Figure(b.ArborPivotMM),
			"want less than inside_diameter_mm, "+document.Figure(b.InsideDiameterMM)+" mm", "inside_diameter_mm")
	}
	if b.OutsideDiameterMM <= b.InsideDiameterMM && tr.sound("outside_diameter_mm", "inside_diameter_mm") {
		tr.report("outside_diameter_mm", "found "+document.Figure(b.OutsideDiameterMM),
			"want more than inside_diameter_mm, "+document.Figure(b.InsideDiameterMM)+" mm", "inside_diameter_mm")
	}
}

func (tr *trail) mesh(m *Mesh) {
	if m.Drives == fuseeArbor {
		tr.report("drives", `found "fusee"`, "want another name: fusee is the great wheel's own arbor")
	}
	switch e, mu := m.Efficiency, m.FrictionCoefficient; {
	case Given(e) && Given(mu):
		tr.exclusive("friction_coefficient", "efficiency", mu, e)
	case !Given(e) && !Given(mu) && tr.sound("efficiency", "friction_coefficient"):
		tr.report("efficiency", "missing", "want efficiency or friction_coefficient")
	case Given(mu) && m.frictionLoss() >= 1 && tr.sound("wheel", "pinion"):
		tr.report("friction_coefficient", "found "+document.Figure(mu)+", which loses "+rounded(100*m.frictionLoss())+" % of the torque",
			"want less than "+rounded(mu/m.frictionLoss())+" with these teeth", "wheel", "pinion")
	}
}

// passes is the share of the torque that the mesh passes on; 1 when that is not known.
func (m *Mesh) passes() float64 {
	switch {
	case Given(m.Efficiency):
		return m.Efficiency
	case Given(m.FrictionCoefficient):
		return 1 - m.frictionLoss()
	}
	return 1
}

// frictionLoss is the share of the torque lost to tooth friction, by the loss of involute
// teeth at a contact ratio of 1 with all contact in recess, as cycloidal clock teeth touch
// (from memory: Niemann and Winter, Maschinenelemente II): π µ (1/Z + 1/z).
func (m *Mesh) frictionLoss() float64 {
	return math.Pi * m.FrictionCoefficient * (1/float64(m.Wheel) + 1/float64(m.Pinion))
}

func (tr *trail) pendulum(p *Pendulum) {
	tr.exclusive("beats_per_minute", "length_mm", p.BeatsPerMinute, p.LengthMM)
	if !Given(p.BeatsPerMinute) && !Given(p.LengthMM) && tr.sound("length_mm", "beats_per_minute") {
		tr.report("length_mm", "missing", "want length_mm or beats_per_minute")
	}
	switch {
	case !tr.sound("quality", "decay"):
	case Given(p.Quality) && p.Decay != nil:
		tr.report("decay", "found together with quality", "want one of the two", "quality")
	case !Given(p.Quality) && p.Decay == nil:
		tr.report("quality", "missing", "want quality or decay")
	}
}

// beyondImpulse refuses what belongs to other pallets, and faces that rub known by halves.
func (tr *trail) beyondImpulse(e *Escapement) {
	rubs := []string{"dead_friction", "pallet_radius_mm", "wheel_radius_mm"}
	values := []float64{e.DeadFriction, e.PalletRadiusMM, e.WheelRadiusMM}
	given := 0
	for i, v := range values {
		if Given(v) {
			given++
			tr.ofPallets(rubs[i], v, e.Kind == DeadBeat, e.Kind)
		}
	}
	if Given(e.RecoilRatio) {
		tr.ofPallets("recoil_ratio", e.RecoilRatio, e.Kind != DeadBeat, e.Kind)
	}
	for i, v := range values {
		if given > 0 && !Given(v) && tr.sound(rubs...) {
			tr.report(rubs[i], "missing", "want it beside "+rubs[(i+1)%3]+" and "+rubs[(i+2)%3]+", or none of the three", rubs...)
		}
	}
}

// ofPallets refuses a value that belongs to another kind of pallets.
func (tr *trail) ofPallets(key string, v float64, belongs bool, kind string) {
	if !belongs && tr.sound("kind", key) {
		tr.report(key, "found "+document.Figure(v)+" for kind = "+strconv.Quote(kind), "want it left out", "kind")
	}
}

// decay refuses a swing that does not die down, or hardly at all:
// quality = π·periods / ln(from/to).
func (tr *trail) decay(d *Decay, p *Pendulum) {
	tr.exclusive("lasts_s", "periods", d.LastsS, d.Periods)
	key, length := "periods", d.Periods
	if Given(d.LastsS) {
		key, length = "lasts_s", d.LastsS
	}
	if !tr.sound("from_deg", "to_deg", "periods", "lasts_s") {
		return
	}
	if !Given(length) {
		tr.report("periods", "missing", "want periods, or the time as lasts_s or lasts_min")
		return
	}
	if d.ToDeg >= d.FromDeg {
		tr.report("to_deg", "found "+document.Figure(d.ToDeg), "want less than from_deg, "+document.Figure(d.FromDeg)+" deg", "from_deg")
		return
	}
	count := d.Count(2 * math.Pi * math.Sqrt(p.Metres(tr.s.Place.GravityMS2)/tr.s.Place.GravityMS2))
	if q := math.Pi * count / math.Log(d.FromDeg/d.ToDeg); Given(q) && !quality.holds(q) {
		tr.report(key, "found "+document.Figure(length)+", which makes a quality of "+rounded(q),
			"want what makes a quality "+quality.String(), "from_deg", "to_deg")
	}
}
