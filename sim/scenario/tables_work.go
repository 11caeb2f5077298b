package scenario

func escapementTable() *table {
	return &table{
		key: "escapement", meaning: "going trains; the last mesh drives the escape wheel",
		binding: pointed(func(t *Train) **Escapement { return &t.Escapement }),
		fields: []field{
			word("kind", func(e *Escapement) *string { return &e.Kind }, "how the pallets meet the teeth", Recoil, Verge, DeadBeat),
			count("teeth", from(2, maxTeeth), func(e *Escapement) *int { return &e.Teeth }, "teeth of the escape wheel"),
			num("escaping_arc_deg", "deg", from(0.01, 180), func(e *Escapement) *float64 { return &e.EscapingArcDeg }, "whole arc between the two escapes"),
			num("drop", "", fromBelow(0, 1), func(e *Escapement) *float64 { return &e.Drop }, "share of each half pitch lost in drop").or(0.15),
			num("efficiency", "", share, func(e *Escapement) *float64 { return &e.Efficiency }, "of the pallets").or(0.80),
			num("margin_deg", "deg", from(0, 90), func(e *Escapement) *float64 { return &e.MarginDeg }, "semi-arc wanted beyond half the escaping arc").or(0.5),
			num("impulse_late_deg", "deg", from(-45, 45), func(e *Escapement) *float64 { return &e.ImpulseLateDeg },
				"dead beat: how far behind the dead point the middle of the impulse stands; half the lock").or(0.0).only(deadBeat),
			num("trip_deg", "deg", from(0.01, 90), func(e *Escapement) *float64 { return &e.TripDeg }, "semi-arc that trips the escapement, measured").optional(),
		},
	}
}

// deadBeat tells whether an escapement is one.
func deadBeat(_ *Train, e any) bool { return e.(*Escapement).Kind == DeadBeat }

// quality is the span of a pendulum's quality, whether given or counted.
var quality = from(1, 1e6)

func pendulumTable() *table {
	arc := from(0.01, 90)
	return &table{
		key: "pendulum", meaning: "going trains; with the escapement",
		binding: pointed(func(t *Train) **Pendulum { return &t.Pendulum }),
		fields: []field{
			num("length_mm", "mm", from(10, 1e4), func(p *Pendulum) *float64 { return &p.LengthMM }, "length of the equivalent simple pendulum"),
			num("mass_g", "g", from(0.1, 1e6), func(p *Pendulum) *float64 { return &p.MassG }, "its mass"),
			num("quality", "", quality, func(p *Pendulum) *float64 { return &p.Quality }, "quality factor; or decay").optional(),
		},
		subs: []*table{{
			key: "decay", meaning: "a free swing dying down; in place of quality",
			binding: pointed(func(p *Pendulum) **Decay { return &p.Decay }),
			fields: []field{
				num("from_deg", "deg", arc, func(d *Decay) *float64 { return &d.FromDeg }, "semi-arc at the start"),
				num("to_deg", "deg", arc, func(d *Decay) *float64 { return &d.ToDeg }, "semi-arc at the end"),
				num("periods", "periods", from(1, 1e6), func(d *Decay) *float64 { return &d.Periods }, "whole periods (two beats each) counted between"),
			},
		}},
	}
}

func strikeTable() *table {
	return &table{
		key: "strike", meaning: "striking trains; the pins that lift the hammers",
		binding: pointed(func(t *Train) **Strike { return &t.Strike }),
		fields: []field{
			named("pin_arbor", func(s *Strike) *string { return &s.PinArbor }, "arbor that carries the pins: a driven one, or fusee"),
			count("pins", from(1, 1000), func(s *Strike) *int { return &s.Pins }, "lifting pins"),
			num("blows_per_12h", "blows", from(1, 1e5), func(s *Strike) *float64 { return &s.BlowsPer12H }, "blows struck in twelve hours"),
			num("lift_share", "", from(0.001, 1000), func(s *Strike) *float64 { return &s.LiftShare }, "share of a pin pitch spent lifting"),
			num("tail_efficiency", "", share, func(s *Strike) *float64 { return &s.Tail }, "share of the work at the pins that lifts hammers; the rest is friction at the tails").or(1.0),
		},
		subs: []*table{{
			key: "hammers", many: true, least: 1, limit: MaxHammers, meaning: "hammers, all lifted by one pin",
			binding: listed(func(s *Strike) *[]Hammer { return &s.Hammers }),
			fields: []field{
				num("mass_g", "g", from(0.01, 1e6), func(h *Hammer) *float64 { return &h.MassG }, "mass of the hammer at its head"),
				num("lift_mm", "mm", from(0.01, 1000), func(h *Hammer) *float64 { return &h.LiftMM }, "height that the head is lifted"),
				num("spring_n", "N", from(0, 1e4), func(h *Hammer) *float64 { return &h.SpringN }, "force of the hammer spring at the head"),
			},
		}, {
			key: "pin_set", many: true, limit: MaxHammers, meaning: "pins in succession that lift the same hammers, as of a quarter train; left out, every pin lifts every hammer",
			binding: listed(func(s *Strike) *[]PinSet { return &s.PinSets }),
			fields: []field{
				count("pins", from(1, 1000), func(p *PinSet) *int { return &p.Pins }, "pins in succession"),
				{key: "lifts", kind: list, span: from(1, MaxHammers), need: optional, names: true, meaning: "numbers of the hammers they lift, from 1; none: a gap",
					ref: at(func(p *PinSet) *[]float64 { return &p.Lifts })},
			},
		}},
	}
}

func flyTable() *table {
	return &table{
		key: "fly", meaning: "striking trains; the last mesh drives the fly",
		binding: pointed(func(t *Train) **Fly { return &t.Fly }),
		fields: []field{
			count("vanes", from(1, 64), func(f *Fly) *int { return &f.Vanes }, "vanes"),
			num("width_mm", "mm", across, func(f *Fly) *float64 { return &f.WidthMM }, "width of a vane along the arbor"),
			num("inner_radius_mm", "mm", from(0, 2000), func(f *Fly) *float64 { return &f.InnerRadiusMM }, "where a vane begins"),
			num("outer_radius_mm", "mm", across, func(f *Fly) *float64 { return &f.OuterRadiusMM }, "where a vane ends"),
			num("thickness_mm", "mm", from(0.01, 50), func(f *Fly) *float64 { return &f.ThicknessMM }, "thickness of a vane"),
			num("density_kg_m3", "kg/m³", from(10, 25000), func(f *Fly) *float64 { return &f.DensityKgM3 }, "density of the vanes; default: brass").or(8500.0),
			num("drag_coefficient", "", from(0.01, 10), func(f *Fly) *float64 { return &f.DragCoefficient }, "of a vane across the air").or(1.2),
			num("inertia_g_mm2", "g·mm²", from(1e-3, 1e12), func(f *Fly) *float64 { return &f.InertiaGMM2 },
				"moment of inertia at the fly arbor, in place of the computed one").optional(),
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
		binding: embedded(func(t *Train) *Demand { return &t.Demand }),
		fields: []field{
			num("least_torque_nm", "N·m", need, func(d *Demand) *float64 { return &d.LeastTorqueNM },
				"measured; overrides the predicted one in the verdict").optional(),
			both("blow_interval_s", "s", from(0.01, 100), func(d *Demand) *Range { return &d.BlowIntervalS },
				"striking: the cadence wanted, fastest and slowest; default: common practice, no source").or(Range{0.8, 1.6}).only(cadence),
			both("torque_band_nm", "N·m", need, func(d *Demand) *Range { return &d.TorqueBandNM },
				"striking: the torques liked at the bench, in place of the cadence"),
		},
	}
}
