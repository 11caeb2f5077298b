package page

import "evenpull/sim"

// has tells whether some train of the clocks is such.
func has(clocks []Clock, such func(*sim.Train) bool) bool {
	for i := range clocks {
		for k := range clocks[i].of.Run.Trains {
			if such(clocks[i].of.Run.Trains[k].Train) {
				return true
			}
		}
	}
	return false
}

func escapes(t *sim.Train) bool { return t.Escapes }
func strikes(t *sim.Train) bool { return t.Strikes }

// equations are those that the figures were computed by, with their sources.
func equations(clocks []Clock) []string {
	list := []string{
		"Mainspring: every element carries the same couple M until wall or arbor stops it, κ = clamp(κ₀ + M/EI, κw, κa), EI = E w h³/12 (as a plate over 1 − ν²); the turns wound on are ∫(κ − κw) ds/2π. Bending of a strip: S. Timoshenko, Strength of Materials. Packed coils and the half-area rule: SAE Spring Design Manual.",
		"Set: bent sharper than κy = 2σy/(E h) a strip carries M/EI = 1.5 κy (1 − (κy/κa)²/3) and springs back by that (elastic, perfectly plastic section: Timoshenko).",
		"Line and fusee: φ(θ) = φs + (1/Rb) ∫ρ dθ; T(θ) = η M(φ) · ηl · ρ/Rb; the work of the spring less the losses is the work at the fusee.",
		"Wheels: T′ = T (z/Z) η − d at each mesh; tooth friction π μ (1/z₁ + 1/z₂)(1 − ε + ε₁² + ε₂²) (G. Niemann, H. Winter, Maschinenelemente II; from memory).",
	}
	if has(clocks, escapes) {
		list = append(list,
			"Escapement and pendulum: the work of a period 4 τ γ equals the loss π K A²/Q; the circular error is agm(1, cos(A/2)) − 1, exactly; what the escapement does to the rate: G. B. Airy, On the disturbances of pendulums and balances, Trans. Camb. Phil. Soc. 3 (1826).")
	}
	if has(clocks, strikes) {
		list = append(list,
			"Striking: du/dψ = (2/J)(T − c u) with u = ω² of the fly, exact within each phase; drag c = ½ ρ Cd Σ w (ro⁴ − ri⁴)/4 (flat plates: S. F. Hoerner, Fluid-Dynamic Drag).")
	}
	return append(list,
		"Verdicts: the least reserve of the run and its mean against bands of common practice, which have no published source and can be changed in the scenario.",
		"Elasticities: central differences extrapolated after Richardson.")
}

// limits are what the model leaves out, in plain words.
func limits(clocks []Clock) []string {
	list := []string{
		"Friction between coils is one efficiency; imperfect packing, hooks and the bridle are left out, so a real barrel gives a turn or so less than the turns available and starts more softly.",
		"The line does not stretch, and its stiffness is in its efficiency.",
		"Springs differ from what their label says: the thickness measured decides.",
		"Wear, dirt and temperature are in no figure; the reserve is there for them.",
	}
	if has(clocks, escapes) {
		list = append(list, "The pendulum's arc and rate are averages over a period, without friction on dead faces, wheel inertia and play.")
	}
	if has(clocks, strikes) {
		list = append(list, "The fly is taken as fast on its arbor; wheels and hammers have no inertia beside it.")
	}
	return list
}

// glossary are the words that a clockmaker may not know, and what they mean.
func glossary() [][2]string {
	return [][2]string{
		{"need", "the least torque at the fusee on which the train runs"},
		{"reserve", "torque delivered over the need"},
		{"unevenness", "greatest less least torque over the mean; 0 % would be a perfect cone"},
		{"coefficient of variation", "how far the torque swings about its mean, in the mean"},
		{"set, yield", "a strip bent past its yield stays bent: it has set, and gives less"},
		{"elasticity", "how many % a result changes for 1 % more of an input"},
		{"semi-arc", "the swing of the pendulum to one side"},
		{"Q", "how well the pendulum keeps its swing: 2π times the energy it holds over what it loses in a period"},
		{"rate against its own beat", "how much faster (+) or slower the clock goes than its pendulum swinging freely at the smallest arcs"},
		{"Searle", "a number that tells whether a strip bends as a narrow strip (small) or is held flat across its width as a plate (large)"},
		{"rms", "root of the mean of the squares: the usual size of a difference"},
		{"χ² per degree of freedom", "about 1 where differences are no greater than the scatter of the readings explains"},
		{"95 % interval", "where the true value lies in nineteen of twenty such measurements"},
	}
}
