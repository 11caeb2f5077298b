package scenario

// AssumedYieldMPa is the flow stress (MPa) of a strip of unknown steel: 0.95 of what the
// steels of EN 10132-4 bear at the thickness of clock springs (from memory).
const AssumedYieldMPa = 1600.0

// coneWanted: turns, pitch and set-up may be left out where a search is to find them.
func coneWanted(t *Train) bool { return t.Fusee.Profile == Wanted }

// UsualMarginMM is the bare cone beyond the groove at each end, where nothing else is said.
const UsualMarginMM = 2.0

// FlowOfTensile is the flow stress of spring steel over its tensile strength, about (from
// memory).
const FlowOfTensile = 0.95

// Spans that several keys share. The least share keeps a product of losses
// from running down to nothing; see also the checks of the whole train.
var (
	share  = from(0.01, 1)
	torque = from(0, 1e4)
	across = from(0.5, 2000) // what lies in or on a barrel or fusee
	pivot  = from(0.1, 500)
)

// pivotsGiven tells whether the pivots of both barrel and fusee are.
func (t *Train) pivotsGiven() bool { return Given(t.Barrel.ArborPivotMM) && Given(t.Fusee.PivotMM) }

// lineEfficiency is that of the line alone where all pivots are given, else with them:
// typical ones pass 0.92 to 0.96 together with the line (our own computation).
func lineEfficiency(t *Train) float64 {
	if t.pivotsGiven() {
		return 0.99
	}
	return 0.95
}

func lineAndPivots(t *Train) string {
	if t.pivotsGiven() {
		return "the line alone, its pivots being given; " + practice
	}
	return "with the pivots that are not given; " + practice
}

// springLost tells whether a train has no mainspring.
func springLost(t *Train) bool { return t != nil && !t.Mainspring.Present }

func springTable() *table {
	return &table{
		key: "mainspring", required: true, meaning: "the strip",
		part:    "the {train} mainspring",
		binding: embedded(func(t *Train) *Mainspring { return &t.Mainspring }),
		fields: []field{
			num("width_mm", "mm", from(0.5, 500), func(m *Mainspring) *float64 { return &m.WidthMM }, "width", "width of the strip").as("w").known(within(0.1)).mostly(2, 200).unless(springLost),
			num("thickness_mm", "mm", from(0.02, 10), func(m *Mainspring) *float64 { return &m.ThicknessMM }, "thickness",
				"thickness of the strip").as("h").known(within(0.01)).mostly(0.02, 3).unless(springLost),
			num("length_mm", "mm", from(20, 1e5), func(m *Mainspring) *float64 { return &m.LengthMM }, "working length",
				"working length of the strip; left out, solid_turns tell it, or the strip fills half the barrel").as("L").knownBy(howLong).
				orFrom("what solid_turns tell, or half the barrel filled", inferLength).sinceOf(whyLength).only(func(_ *Train, m any) bool { return m.(*Mainspring).lengthLeftOut() }).mostly(250, 20000),
			num("modulus_gpa", "GPa", from(10, 500), func(m *Mainspring) *float64 { return &m.ModulusGPa }, "Young's modulus",
				"Young's modulus").as("E").known(withinPercent(2)).or(206.0).since("spring steel, from memory"),
			word("natural_form", func(m *Mainspring) *string { return &m.NaturalForm }, "natural form",
				"how the strip came by its form: it set when first wound home, was made in even coils, or never took a form",
				BySet, AsEven, AsStraight).or(BySet),
			num("yield_mpa", "MPa", from(50, 5000), func(m *Mainspring) *float64 { return &m.YieldMPa }, "flow stress",
				"stress at which the strip flows when first wound home, near 0.95 of its tensile strength; in place of free_coils").
				as("σy").knownBy(flowStress).or(AssumedYieldMPa).since("0.95 of what strip of EN 10132-4 bears, from memory").only(func(_ *Train, m any) bool { return m.(*Mainspring).steelUnknown() }),
			num("free_coils", "coils", from(0, 200), func(m *Mainspring) *float64 { return &m.FreeCoils }, "free coils",
				"coils that the spring shows lying free, which tell its steel; in place of yield_mpa").as("n").known(within(0.25)).optional(),
			word("bending", func(m *Mainspring) *string { return &m.Bending }, "bending",
				"as wide as it is, or for comparison as a narrow strip or a plate", AsWide, AsStrip, AsPlate).or(AsWide),
			num("poisson", "", fromBelow(0, 0.5), func(m *Mainspring) *float64 { return &m.Poisson }, "Poisson's ratio",
				"Poisson's ratio, not used by strip").as("ν").or(0.3).since("steel, from memory"),
			num("solid_turns", "turns", aboveUpTo(0, 200), func(m *Mainspring) *float64 { return &m.SolidTurns }, "turns counted from rest to solid",
				"turns from rest to solid, counted by hand in the barrel, which tell the packing and stand in its place, or the length where that is left out").known(within(0.25)).optional(),
			num("packing", "", from(1, 2), func(m *Mainspring) *float64 { return &m.Packing }, "packing",
				"what a coil takes up in the barrel over its thickness, 1 being ideal").
				as("k").knownBy(howPacked).or(AssumedPacking).since(practice).only(func(_ *Train, m any) bool { return !m.(*Mainspring).countTellsPacking() }),
			num("couple_ratio", "", from(0.5, 2), func(m *Mainspring) *float64 { return &m.CoupleRatio }, "couple ratio",
				"couple that the spring gives over the one computed for it; how far that may be off: our own solution coil by coil").known(withinPercent(2)).or(1.0),
			num("efficiency", "", share, func(m *Mainspring) *float64 { return &m.Efficiency }, "coil efficiency",
				"what coil friction leaves, running down").as("η").known(within(0.03)).or(0.90).since(practice).
				only(func(_ *Train, m any) bool { return !Given(m.(*Mainspring).FrictionCoefficient) }),
			num("friction_coefficient", "", from(0, 1), func(m *Mainspring) *float64 { return &m.FrictionCoefficient }, "friction coefficient of the coils",
				"friction between the coils, which tells at each turn what they lose; in place of efficiency").as("μ").known(withinPercent(30)).optional(),
			word("outer_end", func(m *Mainspring) *string { return &m.OuterEnd }, "outer end",
				"how the outer end is held, for the friction coefficient", Ends()...).or(Hooked).since(practice).
				only(func(_ *Train, m any) bool { return Given(m.(*Mainspring).FrictionCoefficient) }),
			truth("present", func(m *Mainspring) *bool { return &m.Present }, "presence of the mainspring",
				"false: it is broken or lost, and choose finds another; its sizes may then be left out").or(true).goesUnsaid(),
		},
	}
}

func barrelTable() *table {
	return &table{
		key: "barrel", required: true, meaning: "the spring inside, the line outside",
		part:    "the {train} barrel",
		binding: embedded(func(t *Train) *Barrel { return &t.Barrel }),
		fields: []field{
			num("inside_diameter_mm", "mm", across, func(b *Barrel) *float64 { return &b.InsideDiameterMM }, "inside diameter",
				"diameter of the wall inside").as("2R").known(within(0.1)).mostly(8, 500),
			num("inside_height_mm", "mm", across, func(b *Barrel) *float64 { return &b.InsideHeightMM }, "inside height", "height between bottom and cover").
				orFrom("the width of the mainspring and 1 mm", func(t *Train) float64 { return t.Mainspring.WidthMM + 1 }).asRead().mostly(2, 300),
			num("arbor_diameter_mm", "mm", across, func(b *Barrel) *float64 { return &b.ArborDiameterMM }, "arbor diameter",
				"diameter of the arbor where the spring lies on it").as("2r").known(within(0.1)).mostly(2, 200),
			num("outside_diameter_mm", "mm", across, func(b *Barrel) *float64 { return &b.OutsideDiameterMM }, "outside diameter",
				"diameter where the line lies").known(within(0.1)).mostly(8, 500),
			num("outside_length_mm", "mm", across, func(b *Barrel) *float64 { return &b.OutsideLengthMM }, "outside length",
				"room for the line").orFrom("the inside height", func(t *Train) float64 { return t.Barrel.InsideHeightMM }),
			num("set_up_turns", "turns", from(0, 60), func(b *Barrel) *float64 { return &b.SetUpTurns }, "set-up of the {train} mainspring",
				"turns of the spring left when the fusee has run down").as("φs").knownBy(oneClick).unless(coneWanted),
			count("clicks", from(1, 200), func(b *Barrel) *int { return &b.Clicks }, "clicks of the ratchet",
				"teeth of the set-up ratchet").or(usualClicks).since(practice),
			num("lay_mm", "mm", from(0.1, 100), func(b *Barrel) *float64 { return &b.LayMM }, "lay of the line along the {train} barrel",
				"advance of the line along the barrel for each barrel turn").orNothing("follows the fusee"),
			num("arbor_pivot_mm", "mm", pivot, func(b *Barrel) *float64 { return &b.ArborPivotMM }, "diameter of the arbor that the {train} barrel turns on",
				"diameter on which the barrel turns under the pull of the line").known(within(0.1)).optional(),
			num("pivot_friction", "", from(0, 1), func(b *Barrel) *float64 { return &b.PivotFriction }, "friction coefficient of the pivots of the {train} barrel and fusee",
				"friction of the barrel on its arbor and of the fusee's pivots").
				as("μ").known(withinPercent(30)).or(0.15).since(practice).only(func(t *Train, _ any) bool { return Given(t.Barrel.ArborPivotMM) || Given(t.Fusee.PivotMM) }),
		},
	}
}

func lineTable() *table {
	return &table{
		key: "line", required: true, meaning: "between fusee and barrel",
		part:    "the {train} line",
		binding: embedded(func(t *Train) *Line { return &t.Line }),
		fields: []field{
			word("kind", func(l *Line) *string { return &l.Kind }, "kind", "what the line is", "gut", "wire", "chain"),
			num("thickness_mm", "mm", from(0.1, 50), func(l *Line) *float64 { return &l.ThicknessMM }, "thickness", "thickness of the line, off the arbor: of a chain, its height").known(within(0.1)),
			num("width_mm", "mm", from(0.1, 50), func(l *Line) *float64 { return &l.WidthMM }, "width",
				"width of the line along the arbor, as of a chain").known(within(0.1)).orFrom("the thickness", func(t *Train) float64 { return t.Line.ThicknessMM }),
			num("efficiency", "", share, func(l *Line) *float64 { return &l.Efficiency }, "efficiency",
				"share of the torque that the line passes on, and with it the pivots of barrel and fusee whose diameters are not given").
				as("ηl").known(within(0.02)).orFrom("0.95, or 0.99 with the pivots of both barrel and fusee", lineEfficiency).sinceOf(lineAndPivots),
			num("breaking_n", "N", from(1, 1e6), func(l *Line) *float64 { return &l.BreakingN }, "breaking tension", "tension at which the line breaks").optional(),
			num("fleet_angle_max_deg", "deg", aboveUpTo(0, 45), func(l *Line) *float64 { return &l.FleetAngleMaxDeg }, "greatest fleet angle",
				"greatest angle between line and plane of the fusee's turning").or(4.0).since(practice),
		},
	}
}

func fuseeTable() *table {
	return &table{
		key: "fusee", required: true, meaning: "the cone",
		part:    "the {train} fusee",
		binding: embedded(func(t *Train) *Fusee { return &t.Fusee }),
		fields: []field{
			num("turns", "turns", from(0.5, MaxTurns), func(f *Fusee) *float64 { return &f.Turns }, "turns", "turns from fully wound to run down").as("n").unless(coneWanted),
			word("profile", func(f *Fusee) *string { return &f.Profile }, "profile", "how the diameters are known, or that there is no cone yet", Measured, Cone, Even, Wanted),
			{key: "diameters_mm", kind: list, unit: "mm", span: across, need: optional, usual: within(0.1),
				phrase: "groove diameters", each: [2]string{"diameter of the {train} fusee at turn {n} from the small end"},
				meaning: "measured: over the groove bottoms at each whole turn, small end first, one more than the turns",
				access:  at(func(f *Fusee) *[]float64 { return &f.DiametersMM })},
			{key: "points", kind: places, unit: "mm", span: across, need: optional, usual: within(0.1),
				phrase: "groove diameters at points", each: [2]string{"diameter of the {train} fusee at turn {n} from the small end"},
				meaning: "measured: pairs of a turn from the small end and the diameter there, three or more, both ends among them; in place of diameters_mm",
				access:  at(func(f *Fusee) *[]Point { return &f.Points })},
			word("over", func(f *Fusee) *string { return &f.Over }, "place of the diameters", "what every diameter was measured over: the groove bottoms, or the lands between them",
				OverGroove, OverLands).or(OverGroove),
			num("land_height_mm", "mm", from(0, 20), func(f *Fusee) *float64 { return &f.LandHeightMM }, "height of the lands",
				"height of the lands over the groove bottom, for diameters measured over lands").known(within(0.1)).
				orFrom("half the line's thickness", func(t *Train) float64 { return t.Line.ThicknessMM / 2 }).only(func(t *Train, _ any) bool { return t.Fusee.Over == OverLands }),
			num("small_diameter_mm", "mm", across, func(f *Fusee) *float64 { return &f.SmallDiameterMM }, "small diameter",
				"over the groove bottoms where the fusee is fully wound; cone: with the large one; even: exactly one of them").knownBy(coneEnd).optional().mostly(2, 500),
			num("large_diameter_mm", "mm", across, func(f *Fusee) *float64 { return &f.LargeDiameterMM }, "large diameter",
				"over the groove bottoms where the fusee has run down").knownBy(coneEnd).optional().mostly(4, 500),
			num("pitch_mm", "mm", from(0.1, 100), func(f *Fusee) *float64 { return &f.PitchMM }, "groove pitch", "advance of the groove for each turn").as("p").unless(coneWanted),
			num("centre_distance_mm", "mm", from(1, 5000), func(f *Fusee) *float64 { return &f.CentreDistanceMM }, "distance between the axes of the {train} fusee and its barrel",
				"between the axes of fusee and barrel; needed for the fleet angle").optional().mostly(10, 2000),
			num("pivot_mm", "mm", pivot, func(f *Fusee) *float64 { return &f.PivotMM }, "diameter of the pivots of the {train} fusee",
				"diameter of the fusee's pivots; with great_wheel_mm").known(within(0.1)).optional(),
			num("great_wheel_mm", "mm", across, func(f *Fusee) *float64 { return &f.GreatWheelMM }, "diameter of the {train} great wheel",
				"diameter of the great wheel at which its pinion pushes it; with pivot_mm").optional(),
			num("pull_angle_deg", "deg", from(0, 180), func(f *Fusee) *float64 { return &f.PullAngleDeg }, "angle between line and pinion at the {train} fusee",
				"angle between the pull of the line and the push of the pinion on the great wheel").as("α").or(90.0).since("a right angle, no source").
				only(func(t *Train, _ any) bool { return Given(t.Fusee.PivotMM) }),
			num("runtime_at_least_h", "h", from(0.1, 1e5), func(f *Fusee) *float64 { return &f.RuntimeAtLeastH }, "shortest running time wanted of the {train} train",
				"wanted: hours that it is to run at the least").optional().mostly(6, 2000),
			num("height_at_most_mm", "mm", across, func(f *Fusee) *float64 { return &f.HeightAtMostMM }, "greatest height wanted of the {train} fusee",
				"wanted: height of the whole blank at the most, end margins included").optional().mostly(8, 200),
			num("diameter_at_most_mm", "mm", across, func(f *Fusee) *float64 { return &f.DiameterAtMostMM }, "greatest diameter wanted of the {train} fusee",
				"wanted: diameter over the lands at the most").optional().mostly(8, 200),
			num("diameter_at_least_mm", "mm", across, func(f *Fusee) *float64 { return &f.DiameterAtLeastMM }, "least diameter wanted of the {train} fusee",
				"wanted: diameter of the groove bottom at the least").optional().mostly(4, 150),
			num("end_margin_mm", "mm", from(0, 100), func(f *Fusee) *float64 { return &f.EndMarginMM }, "end margin",
				"bare cone beyond the groove at each end").or(UsualMarginMM).since(practice).only(func(_ *Train, f any) bool { return f.(*Fusee).Profile == Wanted }),
			num("reserve_wanted", "", from(0.1, 100), func(f *Fusee) *float64 { return &f.ReserveWanted }, "mean reserve wanted of the {train} train",
				"wanted: mean reserve at the least; left out, what is thin").optional(),
			word("hand", func(f *Fusee) *string { return &f.Hand }, "hand of the groove", "whether the groove is that of a right-hand screw", RightHand, LeftHand).or(RightHand),
		},
	}
}
