package scenario

func escapementTable() *table {
	return &table{
		key: "escapement", meaning: "going trains; the last mesh drives the escape wheel",
		part:    "the {train} escapement",
		binding: pointed(func(t *Train) **Escapement { return &t.Escapement }),
		fields: []field{
			word("kind", func(e *Escapement) *string { return &e.Kind }, "kind", "how the pallets meet the teeth", Recoil, Verge, DeadBeat),
			count("teeth", from(2, maxTeeth), func(e *Escapement) *int { return &e.Teeth }, "teeth", "teeth of the escape wheel").as("z"),
			num("escaping_arc_deg", "deg", from(0.01, 180), func(e *Escapement) *float64 { return &e.EscapingArcDeg }, "escaping arc",
				"whole arc between the two escapes").as("2γ").known(within(0.2)),
			num("drop", "", fromBelow(0, 1), func(e *Escapement) *float64 { return &e.Drop }, "drop",
				"share of each half pitch lost in drop").as("δ").known(within(0.05)).or(0.15).since(practice),
			num("efficiency", "", share, func(e *Escapement) *float64 { return &e.Efficiency }, "pallet efficiency",
				"of the pallets").as("ηp").known(within(0.05)).or(0.80).since(practice),
			num("margin_deg", "deg", from(0, 90), func(e *Escapement) *float64 { return &e.MarginDeg }, "arc margin",
				"semi-arc wanted beyond half the escaping arc").or(0.5).since(practice),
			num("impulse_late_deg", "deg", from(-45, 45), func(e *Escapement) *float64 { return &e.ImpulseLateDeg }, "lateness of the impulse",
				"dead beat: how far behind the dead point the middle of the impulse stands; half the lock").or(0.0).only(deadBeat),
			num("trip_deg", "deg", from(0.01, 90), func(e *Escapement) *float64 { return &e.TripDeg }, "tripping arc",
				"semi-arc that trips the escapement, measured").optional(),
			num("recoil_ratio", "", from(1, 100), func(e *Escapement) *float64 { return &e.RecoilRatio }, "recoil ratio",
				"recoil and verge: couple that drives the wheel back over the couple that comes back, 1/η² of all that is moved").as("f").
				knownBy(recoilBetween).orFrom("the pallets and the last mesh", recoilRatio).only(func(_ *Train, e any) bool { return e.(*Escapement).Kind != DeadBeat }),
			num("dead_friction", "", from(0, 2), func(e *Escapement) *float64 { return &e.DeadFriction }, "friction coefficient of the dead faces",
				"dead beat: friction of the faces that hold the tooth; with both radii below, or left out with them").as("μ").known(withinPercent(30)).optional(),
			num("pallet_radius_mm", "mm", across, func(e *Escapement) *float64 { return &e.PalletRadiusMM }, "radius of the dead faces",
				"dead beat: of the dead faces about the pallets' centre").as("Rp").optional(),
			num("wheel_radius_mm", "mm", across, func(e *Escapement) *float64 { return &e.WheelRadiusMM }, "radius of the escape wheel",
				"dead beat: of the escape wheel at the tips of its teeth").as("rw").optional(),
		},
	}
}

// recoilRatio is that of the pallets and the mesh that drives the escape wheel,
// 1/(ηp² ηm²): the wheels before it are taken to stand.
func recoilRatio(t *Train) float64 { return t.movedBack(1) }

// movedBack is the ratio of recoil where the pallets and so many of the last meshes are
// moved.
func (t *Train) movedBack(last int) float64 {
	left := t.Escapement.Efficiency
	for i := max(len(t.Meshes)-last, 0); i < len(t.Meshes); i++ {
		left *= t.Meshes[i].passes()
	}
	return min(max(1/(left*left), 1), 100)
}

// recoilBetween is how the ratio is known that was assumed: from that of the pallets alone
// to that of the whole train; of no train, as with three meshes and the usual
// efficiencies. One that was given is taken as exact.
func recoilBetween(t *Train, given bool) ReadingError {
	if t == nil || t.Escapement == nil {
		mesh := Mesh{Efficiency: 0.95}
		t, given = &Train{Escapement: &Escapement{Efficiency: 0.8}, Meshes: []Mesh{mesh, mesh, mesh}}, false
	}
	if lo, hi := t.movedBack(0), t.movedBack(len(t.Meshes)); lo < hi && !given {
		return ReadingError{Lo: lo, Hi: hi}
	}
	return ReadingError{}
}

// deadBeat tells whether an escapement is one.
func deadBeat(_ *Train, e any) bool { return e.(*Escapement).Kind == DeadBeat }

// quality is the span of a pendulum's quality, whether given or counted.
var quality = from(1, 1e6)

func pendulumTable() *table {
	arc := from(0.01, 90)
	return &table{
		key: "pendulum", meaning: "going trains; with the escapement",
		part:    "the {train} pendulum",
		binding: pointed(func(t *Train) **Pendulum { return &t.Pendulum }),
		fields: []field{
			num("length_mm", "mm", from(10, 1e4), func(p *Pendulum) *float64 { return &p.LengthMM }, "length", "length of the equivalent simple pendulum; or beats_per_minute").as("l").mostly(40, 4000).optional(),
			num("beats_per_minute", "", from(18, 600), func(p *Pendulum) *float64 { return &p.BeatsPerMinute }, "beats a minute",
				"beats a minute of free small swings, two a period, in place of length_mm").optional(),
			num("mass_g", "g", from(0.1, 1e6), func(p *Pendulum) *float64 { return &p.MassG }, "mass", "its mass").as("m").mostly(5, 50000),
			num("quality", "", quality, func(p *Pendulum) *float64 { return &p.Quality }, "quality factor",
				"quality factor; or decay").as("Q").known(withinPercent(10)).optional(),
		},
		subs: []*table{{
			key: "decay", meaning: "a free swing dying down; in place of quality",
			part:    "the free swing of the {train} pendulum",
			binding: pointed(func(p *Pendulum) **Decay { return &p.Decay }),
			fields: []field{
				num("from_deg", "deg", arc, func(d *Decay) *float64 { return &d.FromDeg }, "first semi-arc", "semi-arc at the start").as("a1"),
				num("to_deg", "deg", arc, func(d *Decay) *float64 { return &d.ToDeg }, "last semi-arc", "semi-arc at the end").as("a2"),
				num("periods", "periods", from(1, 1e6), func(d *Decay) *float64 { return &d.Periods }, "periods",
					"whole periods (two beats each) counted between").as("N").known(withinPercent(10)).optional(),
				num("lasts_s", "s", from(0.1, 1e7), func(d *Decay) *float64 { return &d.LastsS }, "time",
					"seconds between, in place of periods").known(withinPercent(10)).optional(),
			},
		}},
	}
}

// timedWithin is how well (s) a strike of twelve is timed, and intervals are those between
// its blows.
const (
	timedWithin = 0.2
	intervals   = 11
)

func strikeTable() *table {
	return &table{
		key: "strike", meaning: "striking trains; the pins that lift the hammers",
		part:    "the {train} train",
		binding: pointed(func(t *Train) **Strike { return &t.Strike }),
		fields: []field{
			named("pin_arbor", func(s *Strike) *string { return &s.PinArbor }, "pin arbor", "arbor that carries the pins: a driven one, or fusee"),
			count("pins", from(1, 1000), func(s *Strike) *int { return &s.Pins }, "lifting pins", "lifting pins"),
			num("blows_per_12h", "blows", from(1, 1e5), func(s *Strike) *float64 { return &s.BlowsPer12H }, "blows in twelve hours", "blows struck in twelve hours"),
			num("lift_share", "", from(0.001, 1000), func(s *Strike) *float64 { return &s.LiftShare }, "lift share",
				"share of a pin pitch spent lifting").as("λ").known(within(0.05)),
			num("tail_efficiency", "", share, func(s *Strike) *float64 { return &s.Tail }, "efficiency of the hammer tails",
				"share of the work at the pins that lifts hammers; the rest is friction at the tails").or(1.0),
		},
		subs: []*table{{
			key: "hammers", many: true, least: 1, limit: MaxHammers, meaning: "hammers, all lifted by one pin",
			part: "hammer {item} of the {train} train", general: "a hammer",
			binding: listed(func(s *Strike) *[]Hammer { return &s.Hammers }),
			fields: []field{
				num("mass_g", "g", from(0.01, 1e6), func(h *Hammer) *float64 { return &h.MassG }, "mass",
					"mass of the hammer at its head").as("m").known(withinPercent(3)),
				num("lift_mm", "mm", from(0.01, 1000), func(h *Hammer) *float64 { return &h.LiftMM }, "lift",
					"height that the head is lifted").known(withinPercent(3)),
				num("spring_n", "N", from(0, 1e4), func(h *Hammer) *float64 { return &h.SpringN }, "spring force",
					"force of the hammer spring at the head").known(withinPercent(3)),
			},
		}, {
			key: "timed", meaning: "a strike that was timed, which tells the drag coefficient of the fly; in place of it",
			part:    "the timed strike of the {train} train",
			binding: pointed(func(s *Strike) **Timed { return &s.Timed }),
			fields: []field{
				num("torque_nm", "N·m", from(1e-6, 1e4), func(t *Timed) *float64 { return &t.TorqueNM }, "torque", "torque at the fusee arbor while it was timed"),
				num("blow_interval_s", "s", from(0.01, 100), func(t *Timed) *float64 { return &t.BlowIntervalS }, "blow interval",
					"seconds from blow to blow once it goes evenly").known(within(timedWithin / intervals)).optional(),
				num("twelve_s", "s", from(0.1, 1200), func(t *Timed) *float64 { return &t.TwelveS }, "length of twelve",
					"seconds from the first blow to the last of twelve, eleven intervals, from rest; in place of blow_interval_s").known(within(timedWithin)).optional(),
			},
		}, {
			key: "pin_set", many: true, limit: MaxHammers, meaning: "pins in succession that lift the same hammers, as of a quarter train; left out, every pin lifts every hammer",
			part: "set {item} of pins of the {train} train", general: "a set of pins",
			binding: listed(func(s *Strike) *[]PinSet { return &s.PinSets }),
			fields: []field{
				count("pins", from(1, 1000), func(p *PinSet) *int { return &p.Pins }, "pins", "pins in succession"),
				{key: "lifts", kind: list, span: from(1, MaxHammers), need: optional, names: true, phrase: "hammers", meaning: "numbers of the hammers they lift, from 1; none: a gap",
					access: at(func(p *PinSet) *[]float64 { return &p.Lifts })},
			},
		}},
	}
}

func flyTable() *table {
	return &table{
		key: "fly", meaning: "striking trains; the last mesh drives the fly",
		part:    "the {train} fly",
		binding: pointed(func(t *Train) **Fly { return &t.Fly }),
		fields: []field{
			count("vanes", from(1, 64), func(f *Fly) *int { return &f.Vanes }, "vanes", "vanes"),
			num("width_mm", "mm", across, func(f *Fly) *float64 { return &f.WidthMM }, "vane width", "width of a vane along the arbor").as("w"),
			num("inner_radius_mm", "mm", from(0, 2000), func(f *Fly) *float64 { return &f.InnerRadiusMM }, "inner radius", "where a vane begins").as("ri"),
			num("outer_radius_mm", "mm", across, func(f *Fly) *float64 { return &f.OuterRadiusMM }, "outer radius", "where a vane ends").as("ro"),
			num("thickness_mm", "mm", from(0.01, 50), func(f *Fly) *float64 { return &f.ThicknessMM }, "vane thickness", "thickness of a vane"),
			num("density_kg_m3", "kg/m³", from(10, 25000), func(f *Fly) *float64 { return &f.DensityKgM3 }, "density",
				"density of the vanes").or(8500.0).since("brass, from memory"),
			num("drag_coefficient", "", from(0.01, 10), func(f *Fly) *float64 { return &f.DragCoefficient }, "drag coefficient",
				"of a vane across the air; or strike.timed").as("Cd").known(withinTimes(1.4)).or(1.2).since("near that of a flat plate, from memory").only(func(t *Train, _ any) bool { return !t.timed() }),
			num("inertia_g_mm2", "g·mm²", from(1e-3, 1e12), func(f *Fly) *float64 { return &f.InertiaGMM2 }, "moment of inertia",
				"moment of inertia at the fly arbor, in place of the computed one").as("J").optional(),
		},
	}
}

func demandTable() *table {
	need := from(1e-6, 1e4)
	cadence := func(t *Train, d any) bool {
		return t.Kind == Striking && t.Strike != nil && !d.(*Demand).TorqueBandNM.Given()
	}
	return &table{
		key: "demand", meaning: "what the train was found to need at the fusee arbor",
		part:    "the {train} train",
		binding: embedded(func(t *Train) *Demand { return &t.Demand }),
		fields: []field{
			num("least_torque_nm", "N·m", need, func(d *Demand) *float64 { return &d.LeastTorqueNM }, "least torque that the {train} train needs",
				"measured; overrides the predicted one in the verdict").known(withinPercent(5)).optional(),
			both("blow_interval_s", "s", from(0.01, 100), func(d *Demand) *Range { return &d.BlowIntervalS }, "blow interval wanted", [2]string{"shortest blow interval wanted", "longest blow interval wanted"},
				"striking: the cadence wanted, fastest and slowest").or(Range{0.8, 1.6}).since(practice).only(cadence),
			both("torque_band_nm", "N·m", need, func(d *Demand) *Range { return &d.TorqueBandNM }, "torque liked", [2]string{"least torque liked", "greatest torque liked"},
				"striking: the torques liked at the bench, in place of the cadence"),
		},
	}
}
