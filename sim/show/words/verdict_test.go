package words

import (
	"math"
	"strings"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
	"github.com/golang/geo/s1"
)

var nan = math.NaN()

// bears wants the pieces in the text, in that order.
func bears(t *testing.T, text string, pieces ...string) {
	t.Helper()
	if strings.Contains(text, "%!") { // fmt's mark for a verb and its argument that do not go together
		t.Errorf("%q", text)
	}
	rest := text
	for _, p := range pieces {
		at := strings.Index(rest, p)
		if at < 0 {
			t.Errorf("no %q where it should stand in %q", p, text)
			return
		}
		rest = rest[at+len(p):]
	}
}

// digest is a run of sixteen turns of half a day, judged by a basis, of which nothing
// else is known.
func digest(code rules.Code, basis rules.Basis, least, mean float64) *sim.Digest {
	d := sim.Unknown()
	d.Name, d.Turns, d.TurnsLost, d.HoursPerTurn, d.Runtime = "going", 16, 0, 12, 192
	d.Verdict.Code, d.Torque.Min, d.Torque.MinAt, d.Torque.Mean = code, least, 14, mean
	d.Standard = rules.Standard{Need: 0.4, Bands: rules.DefaultBands(), Liked: r1.Interval{Lo: 0.4, Hi: 0.5}, Basis: basis}
	d.Need.Used, d.Need.Measured = 0.4, 0.4
	return &d
}

// reasons wants as many reasons as lists of pieces, each with the pieces of its list.
func reasons(t *testing.T, d *sim.Digest, want ...[]string) {
	t.Helper()
	got := Reasons(d)
	if len(got) != len(want) {
		t.Errorf("%v: %d reasons, want %d: %q", d.Verdict.Code, len(got), len(want), got)
		return
	}
	for i, pieces := range want {
		bears(t, got[i], pieces...)
	}
}

// By reserve: figures over 0.4 N·m, by hand. Turn 14 of half a day begins day 8.
func TestReasonsByReserve(t *testing.T) {
	by := func(code rules.Code, least, mean float64) *sim.Digest {
		return digest(code, rules.ByReserve, least, mean)
	}
	low := func(times string, more ...string) []string {
		return append([]string{"the least torque", "N·m at turn 14 of 16 (day 8)", times + " times the 0.400 N·m needed"}, more...)
	}
	high := func(times string, more ...string) []string {
		return append([]string{"the mean torque is " + times + " times the 0.400 N·m needed"}, more...)
	}
	reasons(t, by(rules.Thin, 0.42, 0.6), low("1.05", "below 1.15"))
	reasons(t, by(rules.Suits, 0.5, 0.6), high("1.50", "up to 1.60 suits"), []string{"the least, at turn 14 of 16 (day 8), is 1.25 times it", "1.15 is enough"})
	reasons(t, by(rules.Strong, 0.6, 0.7), high("1.75", "up to 1.60 suits", "up to 2.00 is strong"), []string{"Archard", "1.75 times as fast"})
	reasons(t, by(rules.Overdriven, 0.484, 0.9), high("2.25", "above 2.00", "overdriven"), []string{"2.25 times as fast"})
	reasons(t, by(rules.Strong, 0.48, 0.7), high("1.75"), []string{"1.75 times as fast"}, []string{"least torque, at turn 14 of 16 (day 8)", "only 1.20 times the need", "does not even"})

	stops := by(rules.Stops, 0.3, 0.6)
	stops.StopsAt = 13.5
	reasons(t, stops, low("0.750", "below 1.00 the train stops"), []string{"stops at turn 13.5 of 16 (day 7)"})
	stops.Escapes = true
	reasons(t, stops, low("0.750", "below 1.00"), []string{"stops at turn 13.5"})
	stops.StopsAt = 0
	reasons(t, stops, low("0.750"), []string{"would not even start"})
	// A need that is only predicted holds the margin, so that it may still just swing.
	stops.Need.Measured, stops.Margin = nan, s1.Angle(0.5*math.Pi/180)
	reasons(t, stops, low("0.750", "margin of 0.50°", "stops the clock"), []string{"from the start, fully wound"})
	stops.StopsAt = 13.5
	reasons(t, stops, low("0.750", "margin"), []string{"comes to that at turn 13.5 of 16 (day 7)"})
}

// By the torques liked, 0.4 to 0.5 N·m: a quarter above them it is overdriven.
func TestReasonsByBand(t *testing.T) {
	const least, liked = "the least torque, ", "the 0.400 to 0.500 N·m liked"
	by := func(code rules.Code, least, mean float64) *sim.Digest {
		return digest(code, rules.ByBand, least, mean)
	}
	reasons(t, by(rules.Thin, 0.35, 0.45), []string{least + "0.350 N·m", "below " + liked})
	reasons(t, by(rules.Suits, 0.42, 0.45), []string{"the mean torque is within " + liked}, []string{least + "0.420 N·m", "not below"})
	reasons(t, by(rules.Strong, 0.42, 0.6), []string{"the mean torque, 0.600 N·m", "1.20 times the upper end", liked, "up to 0.625 N·m is strong"})
	reasons(t, by(rules.Overdriven, 0.42, 0.7), []string{"the mean torque, 0.700 N·m", "1.40 times", liked, "above 0.625 N·m it is overdriven"})
	stops := by(rules.Stops, 0.3, 0.45)
	stops.StopsAt = 13.5
	reasons(t, stops, []string{least + "0.300 N·m", "0.750 times the 0.400 N·m found to be needed"}, []string{"stops at turn 13.5"})
	stops.Need.Measured = nan
	reasons(t, stops, []string{"0.750 times the 0.400 N·m", "strikes from rest"}, []string{"stops at turn 13.5"})
}

// By the cadence: every 1.5 to 2 s wanted, which take 0.5 and 0.4 N·m.
func TestReasonsByCadence(t *testing.T) {
	by := func(code rules.Code, least, mean float64) *sim.Digest {
		d := digest(code, rules.ByCadence, least, mean)
		d.Wanted, d.StrikesFrom, d.StopsAt = r1.Interval{Lo: 1.5, Hi: 2}, 0.3, 15
		return d
	}
	reasons(t, by(rules.Thin, 0.35, 0.45), []string{"the least torque, 0.350 N·m", "more slowly than every 2.00 s", "takes 0.400 N·m"})
	reasons(t, by(rules.Suits, 0.42, 0.45), []string{"the mean torque, 0.450 N·m", "is less than the 0.500 N·m on which it would strike every 1.50 s"})
	strong := []string{"the mean torque, 0.600 N·m", "1.20 times the 0.500 N·m on which it would strike every 1.50 s", "up to 1.25 times is strong"}
	reasons(t, by(rules.Strong, 0.42, 0.6), strong)
	d := by(rules.Overdriven, 0.42, 0.7)
	d.Hurries, d.Strikes = true, true
	hurries := []string{"from the 0.300 N·m", "faster than every 1.50 s", "the mean torque, 0.700 N·m", "1.40 times", "up to 1.25 times"}
	reasons(t, d, hurries, []string{"stalls at every turn"})
	d.Cadence.Interval = sim.Spread{Mean: 1.3, Min: 1.2, Max: 1.4}
	whole := []string{"it strikes every 1.20 to 1.40 s; you want 1.50 to 2.00 s"}
	reasons(t, d, hurries, whole)
	d.StrikesFrom = 0.42
	reasons(t, d, []string{"from the 0.420 N·m"}, whole)
	d.StrikesFrom = 0.43
	reasons(t, d, []string{"from the 0.430 N·m"}, []string{"1.40 s, where it strikes; you want"})
	stops := by(rules.Stops, 0.3, 0.45)
	reasons(t, stops, []string{"0.750 times", "found to be needed"}, []string{"stops at turn 15"})
	suits := by(rules.Suits, 0.42, 0.45)
	suits.Hurries = true
	if n := len(Reasons(suits)); n != 1 {
		t.Errorf("%d reasons", n)
	}
}

// Without a need it is told which would do; a striking train may be liked, too.
func TestReasonsWithoutNeed(t *testing.T) {
	d := digest(rules.Unjudged, rules.ByNothing, 0.4, 0.5)
	reasons(t, d, []string{"no need is known", "demand.least_torque_nm", "runs", "escapement and pendulum"})
	d.Kind = sim.Striking
	reasons(t, d, []string{"no need is known", "demand.torque_band_nm", "demand.least_torque_nm", "strikes"})
}

// The day of a turn counts from 1, and the end of the run is still its last day.
func TestTurnOf(t *testing.T) {
	d := digest(rules.Suits, rules.ByReserve, 0.4, 0.5)
	for turn, want := range map[float64]string{0: "turn 0 of 16 (day 1)", 1.99: "turn 1.99 of 16 (day 1)", 2: "turn 2 of 16 (day 2)", 16: "turn 16 of 16 (day 8)"} {
		if got := turnOf(d, turn); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	d.Runtime = 192.2 // minutes over eight days are no ninth
	bears(t, turnOf(d, 16.01), "(day 8)")
	d.Runtime = 193
	bears(t, turnOf(d, 16.05), "(day 9)")
	d.Runtime, d.HoursPerTurn = 5, 5.0/16 // less than a day
	bears(t, turnOf(d, 16), "(day 1)")
	d.TurnsLost, d.HoursPerTurn, d.Runtime = 2, 12, 168
	bears(t, turnOf(d, 4), "(day 2)")
	d.HoursPerTurn, d.Turns = nan, nan
	if got := turnOf(d, 4); got != "turn 4" {
		t.Error(got)
	}
}

// A fault bears its figures, in the units that people read.
func TestFaultFigures(t *testing.T) {
	d := digest(rules.Suits, rules.ByReserve, 0.4, 0.5)
	d.Spring.Available, d.Spring.SetUp, d.TurnsLost, d.Spring.EndFloat, d.Spring.FreeCoils, d.Spring.PeakStress = 7.5, 1.25, 2.5, 0.4e-3, 6.9, 2500e6
	d.Line.Room, d.Line.Spread, d.BarrelRoom, d.Line.MaxWindingTension, d.Breaking = 42e-3, 43e-3, 39e-3, 175, 350
	d.Line.MaxFleet, d.FleetMax, d.ArborRatio, d.TripsAt = 3*s1.Degree, 2.5*s1.Degree, 20, 4.5*s1.Degree
	tell := func(f sim.Fault, pieces ...string) { t.Helper(); bears(t, Fault(d, f), pieces...) }
	tell(sim.Binds, "it has 7.50 turns, 1.25 of them", "2.5 of the 16 fusee turns are lost")
	tell(sim.NoSetUp, "no set-up", "slack")
	tell(sim.NoRoom, "needs 42.0 mm", "has 39.0")
	tell(sim.Askew, "lies over 43.0 mm", "has 39.0")
	tell(sim.NearBreak, "with 175 N, 50 % of the 350 N")
	tell(sim.FleetAngle, "up to 3.0°", "more than 2.5°")
	tell(sim.SharpArbor, "20.0 times as thick", "strained 5.0 %")
	tell(sim.NoFloat, "0.40 mm of end float")
	tell(sim.Trips, "swing to the 4.50° at which")
	d.TripsAt, d.Breaking, d.Allows = 0, 175, 10*s1.Degree
	tell(sim.Trips, "past 10.0°, more than the pallets allow")
	tell(sim.NearBreak, "with 175 N and it breaks at 175")

	d.Form = mainspring.Straight
	tell(sim.PastSteel, "a strip that never set would bear 2500 MPa", "mainspring.yield_mpa")
	d.Form = mainspring.Even
	tell(sim.PastSteel, "a strip made in 6.90 even coils would bear 2500 MPa", "set and show more coils")
	d.Form, d.Yield = mainspring.Set, rules.SoftStrip
	if got := Fault(d, sim.PastSteel); got != "" {
		t.Errorf("a stress that steel has: %q", got)
	}
	d.Yield, d.ByCoils = 500e6, true
	tell(sim.PastSteel, "free coils, 6.90, tell of a steel that flows at 500 MPa already")
	d.Yield = 3500e6
	tell(sim.PastSteel, "free coils, 6.90, tell of a steel that flows at 3500 MPa only, and no hardened strip", "another barrel")
	d.ByCoils = false
	tell(sim.PastSteel, "a strip that flows at 3500 MPa only: no hardened strip")
}

// A note speaks where there is something to tell, and bears its figure.
func TestNotesBearFigures(t *testing.T) {
	none := func() *sim.Digest {
		d := digest(rules.Suits, rules.ByReserve, 0.6, 0.7)
		d.Advice, d.Spring.Ideal, d.Spring.Used, d.Spring.SetUp, d.Need.Predicted = rules.Advice{TurnsToSpare: 1}, 9, 6, 1, 0.4
		return d
	}
	for name, c := range map[string]struct {
		change func(*sim.Digest)
		want   []string // pieces of the one note; nil for none
	}{
		"nothing":            {func(*sim.Digest) {}, nil},
		"few turns":          {func(d *sim.Digest) { d.Spring.Used = 7.5 }, []string{"only 0.500 turns", "1.00 are wanted"}},
		"few turns, binding": {func(d *sim.Digest) { d.Spring.Used, d.Faults = 7.5, 1<<sim.Binds }, nil},
		"less than loads":    {func(d *sim.Digest) { d.Need.Loads, d.Need.Measured = 0.45, 0.2 }, []string{"0.200 N·m, is less than the 0.450 N·m"}},
		"as much as loads":   {func(d *sim.Digest) { d.Need.Loads, d.Need.Measured = 0.4, 0.4 }, nil},
		"slowing":            {func(d *sim.Digest) { d.Slowing = [2]string{"centre", "great"} }, []string{`"centre" turns more slowly than "great"`}},
		"needs more":         {func(d *sim.Digest) { d.Need.Measured = 1 }, []string{"1.00 N·m, is 2.50 times the 0.400 N·m predicted", "worn or dry pivots", "worn pallets"}},
		"needs less":         {func(d *sim.Digest) { d.Need.Measured = 0.1 }, []string{"0.100 N·m, is 0.250 times the 0.400 N·m predicted", "decay"}},
		"strikes on more":    {func(d *sim.Digest) { d.Need.Measured, d.Strikes = 1, true }, []string{"2.50 times", "stiff hammer tails"}},
		"strikes on less":    {func(d *sim.Digest) { d.Need.Measured, d.Strikes = 0.1, true }, []string{"0.250 times", "already going"}},
		"loads off":          {func(d *sim.Digest) { d.Need.LoadsOff, d.Verdict.LoadsOff = 0.3, rules.Strong }, []string{"take 0.100 N·m", "least reserve would be 2.00 and the verdict: strong"}},
		"loads off, alike":   {func(d *sim.Digest) { d.Need.LoadsOff, d.Verdict.LoadsOff = 0.3, rules.Suits }, []string{"the verdict the same"}},
		"loads are all":      {func(d *sim.Digest) { d.Need.LoadsOff, d.Verdict.LoadsOff = 0, rules.Suits }, nil},
		"let off, stands":    {func(d *sim.Digest) { d.Swing.LetOff = 0 }, []string{"does not keep the pendulum going"}},
		"let off":            {func(d *sim.Digest) { d.Swing.LetOff, d.Swing.Amplitude.Min = math.Pi/90, math.Pi/60 }, []string{"2.00° instead of 3.00°"}},
		"rate": {func(d *sim.Digest) {
			d.Swing.Rate, d.Swing.Wander = sim.Spread{Min: -1.0 / 86400, Max: 2.0 / 86400}, 4.5
		}, []string{"by about 3 s a day", "about 5 s wrong"}},
		"rough":          {func(d *sim.Digest) { d.Escapes, d.Quality = true, rules.RoughQuality-1 }, []string{"Q of " + Figure(rules.RoughQuality-1), "evenpull beat"}},
		"just not rough": {func(d *sim.Digest) { d.Escapes, d.Quality = true, rules.RoughQuality }, nil},
		"computed":       {func(d *sim.Digest) { d.Computed = true }, []string{"the cone is computed"}},
	} {
		d := none()
		c.change(d)
		notes := Notes(d)
		if len(notes) != min(len(c.want), 1) {
			t.Errorf("%s: %q", name, notes)
		} else if c.want != nil {
			bears(t, notes[0], c.want...)
		}
	}
	d := none()
	d.Swing.LetOff, d.Swing.Amplitude.Min = math.Pi/90, math.Pi/90
	if notes := Notes(d); len(notes) != 1 || strings.Contains(notes[0], "instead") {
		t.Errorf("%q", notes)
	}
}
