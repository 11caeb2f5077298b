package page

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"evenpull/escapement"
	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/fusee/numeric"
	"evenpull/sim/internal/trial"
	"evenpull/train"
)

// reckoner works formulas out as they stand on the page, with the values of their signs.
type reckoner struct {
	t      *testing.T
	all    []remark
	values map[string]float64
	left   []rune
}

func newReckoner(t *testing.T, values map[string]float64) *reckoner {
	values["π"], values["e"] = math.Pi, math.E
	return &reckoner{t: t, all: written(t).equations(), values: values}
}

// right is what stands right of a sign and = in an equation.
func (c *reckoner) right(number int, sign string) string {
	c.t.Helper()
	for _, e := range c.all {
		for _, is := range e.Is {
			if right, found := strings.CutPrefix(is, sign+" = "); found && e.Number == number {
				right, _, _ = strings.Cut(right, " if ")
				right, _, _ = strings.Cut(right, " < ")
				right, _, _ = strings.Cut(right, " > ")
				return right
			}
		}
	}
	c.t.Fatalf("(%d) has no %s", number, sign)
	return ""
}

// let works out the sign of an equation and keeps it.
func (c *reckoner) let(number int, sign string) float64 {
	c.t.Helper()
	v := c.of(c.right(number, sign))
	sign, _, _ = strings.Cut(sign, "(")
	c.values[sign] = v
	return v
}

// of is the value of a formula.
func (c *reckoner) of(text string) float64 {
	c.t.Helper()
	before := c.left
	defer func() { c.left = before }()
	c.left = []rune(text)
	v := c.sum()
	if len(c.left) > 0 {
		c.t.Fatalf("%s: %q is left", text, string(c.left))
	}
	return v
}

func (c *reckoner) at(text string) bool {
	if strings.HasPrefix(string(c.left), text) {
		c.left = c.left[len([]rune(text)):]
		return true
	}
	return false
}

func (c *reckoner) sum() float64 {
	v := 0.0
	if c.at("−") {
		c.at(" ")
		v = -c.product()
	} else {
		v = c.product()
	}
	for {
		switch {
		case c.at(" + "):
			v += c.product()
		case c.at(" − "):
			v -= c.product()
		default:
			return v
		}
	}
}

func (c *reckoner) product() float64 {
	v := c.power()
	for len(c.left) > 0 {
		switch {
		case c.at("//"), c.at("/"):
			v /= c.power()
		case len(c.left) > 1 && c.left[0] == ' ' && !strings.ContainsRune("+−=,", c.left[1]):
			c.left = c.left[1:]
			v *= c.power()
		default:
			return v
		}
	}
	return v
}

func (c *reckoner) power() float64 {
	v := c.factor()
	for {
		switch {
		case c.at("²"):
			v *= v
		case c.at("³"):
			v = v * v * v
		case c.at("⁴"):
			v = v * v * v * v
		case c.at("^"):
			v = math.Pow(v, c.factor())
		default:
			return v
		}
	}
}

func (c *reckoner) factor() float64 {
	c.t.Helper()
	switch {
	case c.at("√"):
		return math.Sqrt(c.factor())
	case c.at("½"):
		return 0.5
	case c.at("("), c.at("["):
		v := c.sum()
		if c.at(","); c.left[0] == ' ' {
			c.t.Fatalf("two in brackets: %q", string(c.left))
		}
		c.left = c.left[1:]
		return v
	}
	n := 0
	for n < len(c.left) && (unicode.IsLetter(c.left[n]) || unicode.IsDigit(c.left[n]) || c.left[n] == '_' || c.left[n] == '.' || c.left[n] == '∞') {
		n++
	}
	word := string(c.left[:n])
	c.left = c.left[n:]
	if v, err := strconv.ParseFloat(word, 64); err == nil {
		return v
	}
	if of, is := map[string]func(float64) float64{"sin": math.Sin, "cos": math.Cos, "tan": math.Tan, "cosh": math.Cosh, "sinh": math.Sinh, "abs": math.Abs, "ln": math.Log,
		"cot": func(x float64) float64 { return 1 / math.Tan(x) }}[word]; is {
		c.at(" ")
		return of(c.power())
	}
	if two, is := map[string]func(a, b float64) float64{"min": math.Min, "max": math.Max, "agm": agm}[word]; is && c.at("(") {
		a := c.sum()
		c.at(", ")
		b := c.sum()
		c.at(")")
		return two(a, b)
	}
	v, known := c.values[word]
	if !known {
		c.t.Fatalf("nobody knows %q, before %q", word, string(c.left))
	}
	return v
}

// agm is the arithmetic–geometric mean, by its definition.
func agm(a, b float64) float64 {
	for range 40 {
		a, b = (a+b)/2, math.Sqrt(a*b)
	}
	return a
}

func same(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within*math.Abs(want)+1e-15) || want == 0 {
		t.Errorf("%s: the page has %.12g, the program %.12g", what, got, want)
	}
}

// stripOf reckons what does not hang on the winding.
func stripOf(t *testing.T, d *fusee.Drive) *reckoner {
	s := &d.Spring
	c := newReckoner(t, map[string]float64{
		"r": d.Housing.Arbor, "R": d.Housing.Inside, "h": s.Thickness, "L": s.Length, "w": s.Width, "E": s.Modulus, "ν": s.Poisson, "σ": s.Yield, "k": s.Packing, "c_M": max(s.Couple, 1),
	})
	c.let(12, "r_w")
	c.let(12, "r_u")
	c.let(3, "κ_m")
	zeta := c.let(3, "ζ")
	const step = 1e-4
	phi := func(at float64) float64 { c.values["ζ"] = at; return c.let(3, "Φ(ζ)") }
	c.values["y_9"] = (phi(zeta+step) - phi(zeta-step)) / (2 * step)
	phi(zeta)
	c.values["P"] = c.of(strings.ReplaceAll(c.right(3, "P"), "Φ′(ζ)", "y_9"))
	c.let(3, "Ψ")
	c.let(4, "B")
	c.let(6, "σ_1")
	c.let(6, "κ_y")
	return c
}

// The equations of the strip, worked out as they stand there by quadrature from (5) and (9)
// on, are what the program computes closed.
func TestStripAsWritten(t *testing.T) {
	for _, packing := range []string{"1", "1.065"} {
		_, trains := trial.Compile(t, "eight-day")
		d := trains[0].Drive
		d.Spring.Packing, _ = strconv.ParseFloat(packing, 64)
		curve, err := mainspring.New(d.Spring, d.Housing)
		if err != nil {
			t.Fatal(err)
		}
		c := stripOf(t, &d)
		same(t, "P", c.values["P"], curve.Flatness(), 1e-7)
		same(t, "B", c.values["B"], curve.Stiffness(), 1e-8)
		same(t, "σ_1", c.values["σ_1"], curve.FlowStress(), 1e-8)
		same(t, "f_b", c.let(2, "f_b"), curve.Fill(), 1e-12)
		same(t, "σ_p", c.let(14, "σ_p"), curve.PeakStress(), 1e-8)
		same(t, "ξ", c.let(16, "ξ"), curve.Searle(), 1e-12)
		same(t, "overstrain", c.of("1/(r κ_y)"), curve.Overstrain(), 1e-8)
		at := func(s, m float64) (free, kappa float64) {
			c.values["s"], c.values["M"] = s, m
			c.let(1, "κ_a(s)")
			c.let(1, "κ_w(s)")
			if c.let(5, "κ_1(s)"); c.values["κ_1"] > c.values["κ_y"] {
				free = c.let(5, "κ_0")
			}
			c.values["κ_0"] = free
			return free, c.let(9, "κ(s)")
		}
		over := func(f func(s float64) float64) float64 { return numeric.NewGauss(10).Panels(0, d.Spring.Length, 40, f) }
		same(t, "n_0", over(func(s float64) float64 { free, _ := at(s, 0); return free })/(2*math.Pi), curve.FreeTurns(), 1e-6)
		c.values["φ_0"] = over(func(s float64) float64 { _, rest := at(s, 0); return rest - c.values["κ_w"] }) / (2 * math.Pi)
		same(t, "φ_0", c.values["φ_0"], curve.SlackTurns(), 1e-3)
		same(t, "N", c.let(12, "N"), curve.Turns(), 1e-4)
		for _, turns := range []float64{1, 4, 8} {
			m := curve.Couple(turns)
			same(t, "φ", over(func(s float64) float64 { _, rest := at(s, 0); _, k := at(s, m); return k - rest })/(2*math.Pi), turns, 1e-4)
			same(t, "U", c.values["B"]/2*over(func(s float64) float64 {
				free, rest := at(s, 0)
				_, k := at(s, m)
				return (k-free)*(k-free) - (rest-free)*(rest-free)
			}), curve.Energy(turns), 1e-4)
		}
	}
}

// So are those of line and fusee, with pivots and without.
func TestDriveAsWritten(t *testing.T) {
	for name, bears := range map[string]fusee.Pivots{"bare": {}, "pivots": {Friction: 0.15, Barrel: 6e-3, Fusee: 2e-3, Wheel: 35e-3, Pull: 1}} {
		for _, shape := range []fusee.Shape{fusee.Cut, fusee.EvenByLarge} {
			_, trains := trial.Compile(t, "eight-day")
			d := trains[0].Drive
			d.Pivots = bears
			if shape != fusee.Cut {
				d.Cone.Shape, d.Cone.End = shape, 20e-3
			}
			w, err := d.Wind()
			if err != nil {
				t.Fatal(err)
			}
			for _, theta := range []float64{w.Start() + 1, w.Turns() - 2} {
				s := w.At(theta)
				c := newReckoner(t, map[string]float64{"M": s.Couple, "ρ": s.Radius, "R_b": w.BarrelRadius(), "η": d.Efficiency, "η_l": d.Line.Efficiency, "p": d.Cone.Pitch,
					"μ": bears.Friction, "r_b": bears.Barrel, "r_p": bears.Fusee, "r_g": bears.Wheel, "α": float64(bears.Pull), "β": math.Atan(s.Fleet), "T_f": s.Torque, "n": d.Cone.Turns, "θ": theta})
				c.let(18, "F")
				same(t, name+" F_l", c.let(22, "F_l"), s.Tension, 1e-9)
				same(t, name+" tan β", c.let(23, "tan β"), s.Fleet, 1e-9)
				c.let(21, "F_w")
				same(t, name+" T_w", c.let(21, "T_w"), s.Winding, 1e-9)
				if bears.Fusee == 0 {
					same(t, name+" T_f", c.let(19, "T_f"), s.Torque, 1e-9)
				} else {
					c.let(20, "W")
					same(t, name+" T_f", c.let(20, "T_f"), s.Torque, 1e-9)
				}
				if shape == fusee.Cut {
					continue
				}
				c.values["C"] = s.Torque * c.of("(R_b + μ r_b)/(η η_l R_b)")
				if bears.Fusee == 0 {
					same(t, name+" ρ", c.let(29, "ρ"), s.Radius, 1e-9)
				} else {
					c.let(30, "y")
					same(t, name+" ρ", c.let(30, "η_l ρ")/d.Line.Efficiency, s.Radius, 1e-9)
				}
			}
		}
	}
}

// So are those of wheels, escapement and pendulum.
func TestEscapementAsWritten(t *testing.T) {
	_, trains := trial.Compile(t, "eight-day")
	r := trial.Run(t, trains)[0]
	for _, of := range []string{"recoil", "dead beat"} {
		e, p := trains[0].Escapement, trains[0].Pendulum
		costs := e.Ratio
		if of == "dead beat" {
			e.Kind, e.Ratio, e.Late, e.DeadFriction, e.PalletRadius, e.WheelRadius, e.Margin = escapement.DeadBeat{}, 0, 0.002, 0.15, 12e-3, 16e-3, 0
		}
		clock, err := escapement.New(e, p)
		if err != nil {
			t.Fatal(err)
		}
		torque := 1.5 * clock.TorqueFor(e.Reach())
		g := clock.Going(torque)
		c := newReckoner(t, map[string]float64{"z_e": float64(e.Teeth), "δ": e.Drop, "γ": float64(e.HalfArc()), "T_e": torque, "η_p": e.Efficiency, "m": p.Mass, "g": p.Gravity, "l": p.Length, "Q": p.Quality,
			"A": float64(g.Amplitude), "f": costs, "λ_i": float64(e.Late), "A_x": float64(e.Margin), "μ_d": e.DeadFriction, "R_p": e.PalletRadius, "r_e": e.WheelRadius})
		c.let(36, "G")
		same(t, "τ", c.let(36, "τ"), e.Couple(torque), 1e-12)
		same(t, "K", c.let(37, "K"), p.Stiffness(), 1e-12)
		same(t, "t_0", c.let(37, "t_0"), p.Period(), 1e-12)
		same(t, "Γ_c", c.let(43, "Γ_c"), g.Rate.Circular, 1e-9)
		if of == "recoil" {
			same(t, "recoil: work", c.let(38, "4 τ γ − 2 (f − 1) τ (A − γ)"), c.of("4 τ γ − 2 (f − 1) τ (A − γ)"), 1e-9)
			same(t, "A_∞", c.let(40, "A_∞"), float64(e.Widest()), 1e-12)
			same(t, "Γ_e", c.let(45, "Γ_e"), g.Rate.Escapement, 1e-9)
			same(t, "Γ_d", c.let(45, "Γ_d"), g.Rate.Damping, 1e-12)
			same(t, "f", 1/(e.Efficiency*e.Efficiency*math.Pow(trains[0].Meshes()[len(trains[0].Meshes())-1].Efficiency, 2)), costs, 1e-9)
			continue
		}
		c.let(39, "D")
		same(t, "dead beat: work", c.let(39, "4 τ γ − 4 D (A − γ)"), c.of("4 τ γ − 4 D (A − γ)"), 1e-9)
		same(t, "A_∞", c.let(41, "A_∞"), float64(e.Widest()), 1e-12)
		for _, n := range []string{"ψ_1", "ψ_2"} {
			c.values[n] = math.Asin(c.of(c.right(46, "sin "+n)))
		}
		c.values["α_γ"] = math.Asin(c.of(c.right(47, "sin α_γ")))
		c.let(47, "q_j")
		same(t, "Γ_e", c.let(46, "Γ_e"), g.Rate.Escapement, 1e-9)
		same(t, "Γ_d", c.let(47, "Γ_d"), g.Rate.Damping, 1e-9)
		same(t, "A_m", c.let(42, "A_m"), float64(e.Reach()), 1e-12)
	}
	m := trains[0].Meshes()[0]
	c := newReckoner(t, map[string]float64{"Z": float64(m.Wheel), "z": float64(m.Pinion), "T_1": 1, "η_m": m.Efficiency, "d": m.Drag, "ω_1": 1, "μ_z": 0.1, "ε_1": 0, "ε_2": 1})
	same(t, "ω_2", c.let(32, "ω_2"), trains[0].Wheels.Speed(1), 1e-12)
	same(t, "T_2", c.let(32, "T_2"), trains[0].Wheels.Torque(1, 1), 1e-12)
	same(t, "η_m", c.let(33, "η_m"), train.FrictionEfficiency(0.1, m.Wheel, m.Pinion), 1e-12)
	c.values["i_e"], c.values["z_e"], c.values["t_0"] = trains[0].Wheels.Speed(trains[0].Wheels.Last()), float64(trains[0].Escapement.Teeth), trains[0].Pendulum.Period()
	same(t, "t_f", c.let(34, "t_f"), 3600*r.HoursPerTurn, 1e-12)
}

// So are those of hammers and fly.
func TestStrikeAsWritten(t *testing.T) {
	f := train.Fly{Vanes: 2, Width: 20e-3, Inner: 3e-3, Outer: 16e-3, Thickness: 0.5e-3, Density: 8500, DragCoefficient: 1.2}
	hammer := train.Hammer{Mass: 0.04, Lift: 0.02, Spring: 0.3}
	d := train.StrikeDesign{Meshes: []train.Mesh{{Wheel: 78, Pinion: 8, Efficiency: 0.95, Drag: 1e-4}, {Wheel: 64, Pinion: 8, Efficiency: 0.94}, {Wheel: 60, Pinion: 7, Efficiency: 0.93}}, PinArbor: 1,
		Pins: train.AllPins(8, hammer), LiftShare: 0.6, TailEfficiency: 0.9, Fly: f, AirDensity: 1.2, Gravity: 9.81}
	s, err := train.NewStrike(d)
	if err != nil {
		t.Fatal(err)
	}
	c := newReckoner(t, map[string]float64{"ρ_a": 1.2, "C_d": 1.2, "n_v": 2, "w_v": f.Width, "r_o": f.Outer, "r_i": f.Inner, "ρ_v": f.Density, "t_v": f.Thickness, "n_p": 8, "λ": 0.6, "η_t": 0.9,
		"m_h": hammer.Mass, "g": 9.81, "F_h": hammer.Spring, "s_h": hammer.Lift, "i_v": 64.0 / 8 * 60 / 7, "i_p": 78.0 / 8, "n_12": 90})
	same(t, "c", c.let(50, "c"), s.Drag(), 1e-12)
	same(t, "J", c.let(51, "J"), s.Inertia(), 1e-12)
	same(t, "χ_b", c.let(54, "χ_b"), s.Pitch(), 1e-12)
	torque := 2 * s.LeastTorque()
	c.values["T_h"] = c.of(strings.Replace(c.right(52, "T_h"), " ∑", "", 1))
	free, lifting := s.Couples(torque, 0)
	pin := (torque*8/78*0.95 - 1e-4) - c.values["T_h"]
	for _, m := range d.Meshes[1:] {
		if share := m.Efficiency; pin < 0 {
			pin /= share * m.Ratio()
		} else {
			pin *= share / m.Ratio()
		}
	}
	same(t, "T_l", pin, lifting, 1e-12)
	c.values["T_d"], c.values["T_l"] = free, lifting
	c.let(55, "q_1")
	c.let(55, "q_2")
	steady := s.Steady(torque)
	same(t, "u_0", c.let(55, "u_0"), steady.Least*steady.Least, 1e-9)
	c.values["T_c"], c.values["χ"] = free, (1-d.LiftShare)*s.Pitch()
	same(t, "u", c.let(53, "u"), steady.Greatest*steady.Greatest, 1e-9)
	c.values["T_d"], c.values["T_l"] = s.Couples(s.LeastFromRest(), 0)
	if u := c.let(57, "u_0"); !(math.Abs(u) < 1e-6*steady.Least*steady.Least) {
		t.Errorf("from rest the first blow is struck with %v left", u)
	}
	same(t, "t_f", c.let(35, "t_f"), s.BlowsPerTurn()/90*12*3600, 1e-12)
}
