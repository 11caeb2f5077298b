package scenario

// Spans that several keys share. The least share keeps a product of losses
// from running down to nothing; see also the checks of the whole train.
var (
	share  = from(0.01, 1)
	torque = from(0, 1e4)
	across = from(0.5, 2000) // what lies in or on a barrel or fusee
)

func springTable() *table {
	return &table{
		key: "mainspring", required: true, meaning: "the strip",
		binding: embedded(func(t *Train) *Mainspring { return &t.Mainspring }),
		aside: func(m any) string {
			if s := m.(*Mainspring); Given(s.YieldMPa) || Given(s.FreeCoils) {
				return ""
			}
			return "straight (never set)"
		},
		fields: []field{
			num("width_mm", "mm", from(0.5, 500), func(m *Mainspring) *float64 { return &m.WidthMM }, "width of the strip"),
			num("thickness_mm", "mm", from(0.02, 10), func(m *Mainspring) *float64 { return &m.ThicknessMM }, "thickness of the strip"),
			num("length_mm", "mm", from(20, 1e5), func(m *Mainspring) *float64 { return &m.LengthMM }, "working length of the strip"),
			num("modulus_gpa", "GPa", from(10, 500), func(m *Mainspring) *float64 { return &m.ModulusGPa }, "Young's modulus").or(206.0),
			num("yield_mpa", "MPa", from(50, 5000), func(m *Mainspring) *float64 { return &m.YieldMPa },
				"stress at which the strip sets when first wound home; in place of free_coils").optional(),
			num("free_coils", "coils", from(0, 200), func(m *Mainspring) *float64 { return &m.FreeCoils },
				"coils that the spring shows lying free; in place of yield_mpa").optional(),
			word("bending", func(m *Mainspring) *string { return &m.Bending }, "whether the strip is held flat across its width", AsStrip, AsPlate).or(AsStrip),
			num("poisson", "", fromBelow(0, 0.5), func(m *Mainspring) *float64 { return &m.Poisson }, "Poisson's ratio, used by plate").or(0.3),
			num("efficiency", "", share, func(m *Mainspring) *float64 { return &m.Efficiency }, "what coil friction leaves, running down").or(0.90),
		},
	}
}

func barrelTable() *table {
	return &table{
		key: "barrel", required: true, meaning: "the spring inside, the line outside",
		binding: embedded(func(t *Train) *Barrel { return &t.Barrel }),
		fields: []field{
			num("inside_diameter_mm", "mm", across, func(b *Barrel) *float64 { return &b.InsideDiameterMM }, "diameter of the wall inside"),
			num("inside_height_mm", "mm", across, func(b *Barrel) *float64 { return &b.InsideHeightMM }, "height between bottom and cover"),
			num("arbor_diameter_mm", "mm", across, func(b *Barrel) *float64 { return &b.ArborDiameterMM }, "diameter of the arbor where the spring lies on it"),
			num("outside_diameter_mm", "mm", across, func(b *Barrel) *float64 { return &b.OutsideDiameterMM }, "diameter where the line lies"),
			num("outside_length_mm", "mm", across, func(b *Barrel) *float64 { return &b.OutsideLengthMM },
				"room for the line").orFrom("the inside height", func(t *Train) float64 { return t.Barrel.InsideHeightMM }),
			num("set_up_turns", "turns", from(0, 60), func(b *Barrel) *float64 { return &b.SetUpTurns }, "turns of the spring left when the fusee has run down"),
			count("clicks", from(1, 200), func(b *Barrel) *int { return &b.Clicks }, "teeth of the set-up ratchet; default: common practice, no source").or(12),
			num("lay_mm", "mm", from(0.1, 100), func(b *Barrel) *float64 { return &b.LayMM },
				"advance of the line along the barrel for each barrel turn").orNothing("follows the fusee"),
		},
	}
}

func lineTable() *table {
	return &table{
		key: "line", required: true, meaning: "between fusee and barrel",
		binding: embedded(func(t *Train) *Line { return &t.Line }),
		fields: []field{
			word("kind", func(l *Line) *string { return &l.Kind }, "what the line is", "gut", "wire", "chain"),
			num("thickness_mm", "mm", from(0.1, 50), func(l *Line) *float64 { return &l.ThicknessMM }, "thickness of the line"),
			num("efficiency", "", share, func(l *Line) *float64 { return &l.Efficiency }, "torque left after bending the line").or(0.97),
			num("breaking_n", "N", from(1, 1e6), func(l *Line) *float64 { return &l.BreakingN }, "tension at which the line breaks").optional(),
			num("fleet_angle_max_deg", "deg", aboveUpTo(0, 45), func(l *Line) *float64 { return &l.FleetAngleMaxDeg },
				"greatest angle between line and plane of the fusee's turning").or(4.0),
		},
	}
}

func fuseeTable() *table {
	return &table{
		key: "fusee", required: true, meaning: "the cone",
		binding: embedded(func(t *Train) *Fusee { return &t.Fusee }),
		fields: []field{
			num("turns", "turns", from(0.5, MaxTurns), func(f *Fusee) *float64 { return &f.Turns }, "turns from fully wound to run down"),
			word("profile", func(f *Fusee) *string { return &f.Profile }, "how the diameters are known", Measured, Cone, Even),
			{key: "diameters_mm", kind: list, unit: "mm", span: across, need: optional,
				meaning: "measured: over the groove bottoms at each whole turn, small end first, one more than the turns",
				ref:     at(func(f *Fusee) *[]float64 { return &f.DiametersMM })},
			num("small_diameter_mm", "mm", across, func(f *Fusee) *float64 { return &f.SmallDiameterMM },
				"over the groove bottoms where the fusee is fully wound; cone: with the large one; even: exactly one of them").optional(),
			num("large_diameter_mm", "mm", across, func(f *Fusee) *float64 { return &f.LargeDiameterMM },
				"over the groove bottoms where the fusee has run down").optional(),
			num("pitch_mm", "mm", from(0.1, 100), func(f *Fusee) *float64 { return &f.PitchMM }, "advance of the groove for each turn"),
			num("centre_distance_mm", "mm", from(1, 5000), func(f *Fusee) *float64 { return &f.CentreDistanceMM },
				"between the axes of fusee and barrel; needed for the fleet angle").optional(),
		},
	}
}
