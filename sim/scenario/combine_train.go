package scenario

import (
	"math"
	"strconv"

	"evenpull/sim/internal/document"
)

// whole judges the tables of a train against each other.
func (tr *trail) whole(t *Train) {
	tr.counted(t)
	tr.lost(t)
	tr.springInBarrel(&t.Mainspring, &t.Barrel)
	tr.groove(t)
	tr.centres(t)
	tr.drivenArbors(t)
	tr.kinds(t)
	tr.gearing(t)
}

// lost refuses what only the spring could tell that is not there: the height of the barrel,
// and a cone that is to be even for it.
func (tr *trail) lost(t *Train) {
	if !springLost(t) {
		return
	}
	if !Given(t.Barrel.InsideHeightMM) && tr.sound("mainspring.width_mm", "barrel.inside_height_mm") {
		tr.report("barrel.inside_height_mm", "missing", "want the height between bottom and cover, since no mainspring tells it (mainspring.present = false)", "mainspring.present")
	}
	if t.Fusee.Profile == Even && tr.sound("fusee.profile") {
		tr.report("fusee.profile", `found "even" beside mainspring.present = false`, `want the diameters of the cone (profile = "measured" or "cone"): an even one is cut for its mainspring`, "mainspring.present")
	}
}

// springInBarrel refuses a strip that cannot be got in: too wide, or with more
// area edge on, as it packs, than there is between arbor and wall.
func (tr *trail) springInBarrel(m *Mainspring, b *Barrel) {
	if m.WidthMM > b.InsideHeightMM && tr.sound("mainspring.width_mm", "barrel.inside_height_mm") {
		tr.report("mainspring.width_mm", "found "+document.Figure(m.WidthMM)+", "+rounded(m.WidthMM-b.InsideHeightMM)+" mm too wide for the barrel",
			"want at most barrel.inside_height_mm, "+document.Figure(b.InsideHeightMM)+" mm", "barrel.inside_height_mm")
	}
	if !tr.sound("mainspring.thickness_mm", "mainspring.length_mm", "barrel.inside_diameter_mm", "barrel.arbor_diameter_mm") {
		return
	}
	area := math.Pi / 4 * (b.InsideDiameterMM - b.ArborDiameterMM) * (b.InsideDiameterMM + b.ArborDiameterMM)
	pitch := m.ThicknessMM
	if Given(m.Packing) {
		pitch *= m.Packing
	}
	if room := area / pitch; m.LengthMM >= room {
		tr.report("mainspring.length_mm", "found "+document.Figure(m.LengthMM)+", "+rounded(m.LengthMM-room)+" mm too long for the barrel",
			"want less than "+rounded(room)+" mm, which fills it solid at this thickness",
			"mainspring.thickness_mm", "barrel.inside_diameter_mm", "barrel.arbor_diameter_mm")
	}
}

// groove refuses turns of the line that would lie over each other.
func (tr *trail) groove(t *Train) {
	tr.overlap("fusee.pitch_mm", t.Fusee.PitchMM, t.Line.WidthMM)
	tr.overlap("barrel.lay_mm", t.Barrel.LayMM, t.Line.WidthMM)
}

func (tr *trail) overlap(key string, advance, line float64) {
	if !(advance < line) {
		return
	}
	size := "line.width_mm"
	if tr.s.supplied[tr.spot(size)] {
		size = "line.thickness_mm"
	}
	if tr.sound(key, size) {
		tr.report(key, "found "+document.Figure(advance)+", so that turns of the line would overlap",
			"want at least "+size+", "+document.Figure(line)+" mm", size)
	}
}

// centres refuses a fusee and barrel whose lines would touch.
func (tr *trail) centres(t *Train) {
	if !Given(t.Fusee.CentreDistanceMM) || !tr.sound("fusee.centre_distance_mm", "fusee.diameters_mm", "fusee.points", "fusee.land_height_mm", "fusee.small_diameter_mm",
		"fusee.large_diameter_mm", "line.thickness_mm", "barrel.outside_diameter_mm") {
		return
	}
	least := (t.Fusee.greatest()+t.Barrel.OutsideDiameterMM)/2 + t.Line.ThicknessMM
	if t.Fusee.CentreDistanceMM <= least {
		tr.report("fusee.centre_distance_mm", "found "+document.Figure(t.Fusee.CentreDistanceMM),
			"want more than "+rounded(least)+" mm, where the line on the fusee meets the line on the barrel",
			"fusee.diameters_mm", "fusee.points", "fusee.land_height_mm", "fusee.small_diameter_mm", "fusee.large_diameter_mm", "line.thickness_mm", "barrel.outside_diameter_mm")
	}
}

// drivenArbors refuses names used twice and names of no arbor.
func (tr *trail) drivenArbors(t *Train) {
	if !tr.sound("mesh") {
		return
	}
	known := true // every arbor's name
	for i := range t.Meshes {
		if d := t.Meshes[i].Drives; d != "" && t.meshDriving(d) < i && tr.soundMesh(t, i, "drives") {
			tr.push(meshes, i, t, &t.Meshes[i])
			tr.report("drives", "found "+strconv.Quote(d)+" again", "want a name that no other mesh of the train drives")
			tr.pop()
		}
		known = known && tr.soundMesh(t, i, "drives")
	}
	if !known {
		return
	}
	for i := range t.Loads {
		tr.push(loads, i, t, &t.Loads[i])
		tr.arbor(t, "arbor", t.Loads[i].Arbor)
		tr.comesAndGoes(&t.Loads[i])
		tr.pop()
	}
	if t.Strike != nil {
		tr.arbor(t, "strike.pin_arbor", t.Strike.PinArbor)
	}
}

// comesAndGoes refuses half a timing, and a load that lasts past its next coming.
func (tr *trail) comesAndGoes(l *Load) {
	tr.together("every_h", "lasts_min", Given(l.EveryH), Given(l.LastsMin))
	if l.LastsMin >= 60*l.EveryH && tr.sound("every_h", "lasts_min") {
		tr.report("lasts_min", "found "+document.Figure(l.LastsMin), "want less than every_h, "+document.Figure(60*l.EveryH)+" min, or neither for a load that stands", "every_h")
	}
}

var meshes, loads = trains.sub("mesh"), trains.sub("load")

// kinds refuses what belongs to the other kind of train, and halves of pairs.
func (tr *trail) kinds(t *Train) {
	switch t.Kind {
	case Going:
		tr.foreign("strike", t.Strike != nil, Striking)
		tr.foreign("fly", t.Fly != nil, Striking)
		tr.foreign("demand.blow_interval_s", t.Demand.BlowIntervalS.Given(), Striking)
		tr.foreign("demand.torque_band_nm", t.Demand.TorqueBandNM.Given(), Striking)
		tr.together("escapement", "pendulum", t.Escapement != nil, t.Pendulum != nil)
		tr.driven(t, "escapement", t.Escapement != nil)
	case Striking:
		tr.foreign("escapement", t.Escapement != nil, Going)
		tr.foreign("pendulum", t.Pendulum != nil, Going)
		tr.together("strike", "fly", t.Strike != nil, t.Fly != nil)
		if t.timed() && t.Fly != nil && Given(t.Fly.DragCoefficient) {
			tr.report("fly.drag_coefficient", "found together with strike.timed", "want one of the two", "strike.timed")
		}
		tr.driven(t, "strike", t.Strike != nil)
	}
}

// timed tells whether a timed strike tells the drag coefficient of the fly.
func (t *Train) timed() bool { return t.Strike != nil && t.Strike.Timed != nil }

func (tr *trail) foreign(key string, given bool, kind string) {
	if given {
		tr.report(key, "found in a "+tr.train().Kind+" train", "want it left out: it belongs to a "+kind+" train", "kind")
	}
}

func (tr *trail) together(a, b string, hasA, hasB bool) {
	if hasA == hasB || !tr.sound(a, b) {
		return
	}
	if hasB {
		a, b = b, a
	}
	tr.report(a, "found without "+b, "want both or neither")
}

// driven refuses work that no mesh drives.
func (tr *trail) driven(t *Train, key string, given bool) {
	if given && len(t.Meshes) == 0 && tr.sound("mesh") {
		tr.report("mesh", "missing", "want at least one table "+meshes.header()+" between the fusee and the "+key)
	}
}

// Spans of a whole train, which keep what 64 meshes multiply to within reason.
var (
	ratios = from(1e-6, 1e9)
	passed = from(1e-4, 1)
)

// gearing refuses trains whose ratio or loss is beyond any clock's.
func (tr *trail) gearing(t *Train) {
	ratio, left := 1.0, 1.0
	for i := range t.Meshes {
		m := &t.Meshes[i]
		if !tr.soundMesh(t, i, "wheel", "pinion", "efficiency", "friction_coefficient") {
			return
		}
		ratio *= float64(m.Wheel) / float64(m.Pinion)
		if Given(m.Efficiency) {
			left *= m.Efficiency
		} else {
			left *= 1 - m.frictionLoss()
		}
	}
	if !ratios.holds(ratio) {
		tr.report("mesh", "found meshes that multiply to a ratio of "+rounded(ratio), "want a ratio "+ratios.String())
	}
	if !passed.holds(left) {
		tr.report("mesh", "found meshes that pass on only "+rounded(left)+" of the torque", "want a share "+passed.String())
	}
}

// soundMesh tells whether the keys of a mesh of the present train are sound.
func (tr *trail) soundMesh(t *Train, i int, keys ...string) bool {
	if len(tr.bad) == 0 {
		return true
	}
	tr.push(meshes, i, t, &t.Meshes[i])
	defer tr.pop()
	return tr.sound(keys...)
}
