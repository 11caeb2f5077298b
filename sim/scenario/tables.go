package scenario

// Bounds on what is read, so that a scenario cannot ask for more work or
// memory than any clock would.
const (
	MaxBytes      = 1 << 20 // of a scenario file
	MaxTrains     = 64      // of a scenario
	MaxMeshes     = 64      // of a train
	MaxLoads      = 64      // of a train
	MaxHammers    = 64      // of a train
	MaxTurns      = 64      // of a fusee
	MaxPoints     = 256     // of a fusee
	MaxTolerances = 256     // of a scenario
	MaxTitle      = 200     // characters of a title
	MaxName       = 64      // characters of a name
	maxNote       = 4000    // characters
	maxTeeth      = 10000   // of a wheel
	leastPoints   = 3       // of a fusee
)

// root is the whole scenario.
var root = rootTable()

func rootTable() *table {
	return &table{
		binding: embedded(func(s *Scenario) *Scenario { return s }),
		meaning: "the clock",
		fields: []field{
			{key: "title", kind: text, phrase: "title", span: upTo(MaxTitle), meaning: "what the scenario is, in one line",
				access: at(func(s *Scenario) *string { return &s.Title })},
			{key: "note", kind: text, phrase: "note", span: upTo(maxNote), need: optional, meaning: "anything worth saying about it",
				access: at(func(s *Scenario) *string { return &s.Note })},
		},
		subs: []*table{placeTable(), verdictTable(), trainTable(), adviceTable(), toleranceTable()},
	}
}

func placeTable() *table {
	return &table{
		key: "place", meaning: "where the clock stands",
		binding: embedded(func(s *Scenario) *Place { return &s.Place }),
		fields: []field{
			num("gravity_m_s2", "m/s²", from(1, 30), func(p *Place) *float64 { return &p.GravityMS2 }, "acceleration of gravity",
				"acceleration of gravity").as("g").or(9.80665).since("standard gravity, CGPM 1901"),
			num("air_density_kg_m3", "kg/m³", from(0.01, 10), func(p *Place) *float64 { return &p.AirDensityKgM3 }, "density of the air",
				"density of the air").as("ρ").or(1.225).since("ISO 2533 at sea level"),
		},
	}
}

func verdictTable() *table {
	reserve := from(0.01, 100)
	return &table{
		key: "verdict", meaning: "the bands of the reserve (delivered over least needed) by which a train is judged; common practice, no source",
		binding: embedded(func(s *Scenario) *Bands { return &s.Verdict }),
		fields: []field{
			num("stops_below", "", reserve, func(b *Bands) *float64 { return &b.StopsBelow }, "least reserve below which a train stops",
				"least reserve below which a train stops").or(1.0).since(practice),
			num("thin_below", "", reserve, func(b *Bands) *float64 { return &b.ThinBelow }, "least reserve below which a train is thin",
				"least reserve below which it is thin").or(1.15).since(practice),
			num("suits_up_to", "", reserve, func(b *Bands) *float64 { return &b.SuitsUpTo }, "mean reserve up to which a train suits",
				"mean reserve up to which it suits").or(1.6).since(practice),
			num("strong_up_to", "", reserve, func(b *Bands) *float64 { return &b.StrongUpTo }, "mean reserve up to which a train is strong",
				"mean reserve up to which it is strong; above, overdriven").or(2.0).since(practice),
		},
	}
}

func trainTable() *table {
	return &table{
		key: "train", many: true, least: 1, limit: MaxTrains, meaning: "one train",
		part:    "the {train} train",
		binding: listed(func(s *Scenario) *[]Train { return &s.Trains }),
		label:   trainLabel,
		fields: []field{
			named("name", func(t *Train) *string { return &t.Name }, "name", "name of the train, unique in the scenario"),
			word("kind", func(t *Train) *string { return &t.Kind }, "kind", "what the train does", Going, Striking),
		},
		subs: []*table{
			springTable(), barrelTable(), lineTable(), fuseeTable(), meshTable(), loadTable(),
			escapementTable(), pendulumTable(), strikeTable(), flyTable(), demandTable(),
		},
	}
}

// trainLabel is what a KEY calls a train: nothing when its name would be taken
// for something else.
func trainLabel(t any) string {
	if own := t.(*Train).Name; !reserved(own) {
		return own
	}
	return ""
}

// reserved are the names that begin the KEYs of the whole clock.
func reserved(name string) bool {
	return name == "title" || name == "note" || name == "place" || name == "verdict" || name == "advice" || name == "tolerance"
}

func adviceTable() *table {
	portion := from(0, 1)
	return &table{
		key: "advice", apart: true, rules: true, meaning: "the rules by which something is advised; common practice, no source",
		binding: embedded(func(s *Scenario) *Advice { return &s.Advice }),
		fields: []field{
			num("turns_to_spare", "turns", from(0, 20), func(a *Advice) *float64 { return &a.TurnsToSpare }, "turns to spare when the fusee is wound",
				"turns that the spring is to have left when the fusee is wound: with fewer a caution, and nothing that leaves fewer is advised").or(1.0),
			truth("note_beyond_handbook", func(a *Advice) *bool { return &a.NoteBeyondHandbook }, "note where a run needs more turns than handbooks count",
				"whether it is noted that a run needs more turns than handbooks count").or(true),
			num("set_up_gain", "", portion, func(a *Advice) *float64 { return &a.SetUpGain }, "share of the unevenness that another set-up is to take away",
				"share of itself by which another set-up is to lower the unevenness, where it betters no verdict, to be advised").or(0.2),
			num("set_up_gain_points", "", portion, func(a *Advice) *float64 { return &a.SetUpGainPoints }, "unevenness that another set-up is to take away at least",
				"and by how much at least, 0.02 being two points of a hundred").or(0.02),
			num("shorten_gain", "", portion, func(a *Advice) *float64 { return &a.ShortenGain }, "rise of the share that suits for which a spring is cut shorter",
				"by how much cutting a spring shorter is to raise the share of draws that suit, where it betters no verdict, to be advised").or(0.05),
			num("equal_within", "", portion, func(a *Advice) *float64 { return &a.EqualWithin }, "difference of the shares that suit up to which springs are equal",
				"springs whose shares of draws that suit differ by no more than this are equal in that").or(0.03),
			num("cut_at_most", "", portion, func(a *Advice) *float64 { return &a.CutAtMost }, "share of the groove's diameter that cutting may take away",
				"greatest share of the groove's diameter that may come off at any turn for a cut of the cone to be advised").or(0.1),
			num("cut_gain", "", portion, func(a *Advice) *float64 { return &a.CutGain }, "share of the unevenness that cutting may leave",
				"share of itself to which a cut is to lower the unevenness, or below, to be advised").or(0.5),
			truth("historic", func(a *Advice) *bool { return &a.Historic }, "rule that the cone is kept", "true: the cone is kept, cutting it is never advised"),
		},
	}
}

func toleranceTable() *table {
	return &table{
		key: "tolerance", many: true, limit: MaxTolerances, apart: true, meaning: "how far a quantity may be from its value, for studies that vary it",
		binding: listed(func(s *Scenario) *[]Tolerance { return &s.Tolerances }),
		fields: []field{
			{key: "key", kind: quantityKey, phrase: "key of what may be off", span: upTo(maxKey), meaning: "the quantity", access: at(func(t *Tolerance) *string { return &t.Key })},
			num("plus_minus", "", from(0, 1e6), func(t *Tolerance) *float64 { return &t.PlusMinus }, "amount by which it may be off",
				"in the unit of the quantity: half the width of what is uniform, two standard deviations of what is normal; 0: it is known").optional(),
			num("percent", "percent", aboveUpTo(0, 1000), func(t *Tolerance) *float64 { return &t.Percent }, "percentage by which it may be off",
				"the same as a share of the value; in place of plus_minus").optional(),
			word("shape", func(t *Tolerance) *string { return &t.Shape }, "shape of its distribution", "how the values are distributed", Normal, Uniform).or(Normal),
		},
	}
}

func meshTable() *table {
	teeth := from(2, maxTeeth)
	return &table{
		key: "mesh", many: true, limit: MaxMeshes, meaning: "a wheel driving a pinion, in order from the great wheel",
		part: "the mesh that drives the {item} arbor of the {train} train", general: "a mesh",
		binding: listed(func(t *Train) *[]Mesh { return &t.Meshes }),
		label:   func(m any) string { return m.(*Mesh).Drives },
		fields: []field{
			count("wheel", teeth, func(m *Mesh) *int { return &m.Wheel }, "teeth of the wheel", "teeth of the wheel").as("Z"),
			count("pinion", teeth, func(m *Mesh) *int { return &m.Pinion }, "leaves of the pinion", "leaves of the pinion").as("z"),
			named("drives", func(m *Mesh) *string { return &m.Drives }, "driven arbor", "name of the driven arbor, unique in the train"),
			num("efficiency", "", share, func(m *Mesh) *float64 { return &m.Efficiency }, "efficiency",
				"torque passed on over torque received without loss").as("η").known(within(0.02)).or(0.95).since(practice).
				only(func(_ *Train, m any) bool { return !Given(m.(*Mesh).FrictionCoefficient) }),
			num("friction_coefficient", "", from(0, 2), func(m *Mesh) *float64 { return &m.FrictionCoefficient }, "tooth friction coefficient",
				"tooth friction, from which the efficiency is computed; in place of efficiency").as("μ").known(withinPercent(30)).optional(),
			num("drag_nm", "N·m", torque, func(m *Mesh) *float64 { return &m.DragNM }, "drag on the {item} arbor of the {train} train",
				"constant drag on the driven arbor").as("d").or(0.0),
		},
	}
}

func loadTable() *table {
	return &table{
		key: "load", many: true, limit: MaxLoads, meaning: "a load at an arbor, such as lifting the warning",
		part: "{load} at the {item} arbor of the {train} train", general: "a load",
		binding: listed(func(t *Train) *[]Load { return &t.Loads }),
		label:   func(l any) string { return l.(*Load).Arbor },
		fields: []field{
			named("arbor", func(l *Load) *string { return &l.Arbor }, "arbor", "a driven arbor, or fusee"),
			num("torque_nm", "N·m", torque, func(l *Load) *float64 { return &l.TorqueNM }, "torque", "torque that the load takes"),
			num("every_h", "h", from(0.01, 1e4), func(l *Load) *float64 { return &l.EveryH }, "time from one coming to the next",
				"hours from one coming of the load to the next; left out: it stands").optional(),
			num("lasts_min", "min", from(0.001, 6e5), func(l *Load) *float64 { return &l.LastsMin }, "duration", "minutes that it lasts").optional(),
		},
	}
}
