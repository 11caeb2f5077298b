package choose

import (
	"fmt"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
)

const (
	mm  = 1e-3
	mpa = 1e6
	gpa = 1e9
)

const (
	// spare are the turns that a spring is to have beyond those taken by fusee and
	// set-up, since coils do not pack perfectly (common practice, no source).
	spare = 0.5
	// fullest is the share of the barrel that a strip may fill: the rest goes to coils
	// that do not pack perfectly, and to the hooks (common practice, no source).
	fullest = 0.95
	// shortest is the least length (mm) of a strip in a scenario.
	shortest = 20
)

// shop is the train that springs are tried in.
type shop struct {
	train  sim.Train        // whole, its cone cut; its spring and set-up are those tried last
	base   mainspring.Strip // the scenario's own spring
	setUp  float64          // turns, the scenario's own
	steel  mainspring.Strip // form and yield stress of a spring whose own is not known
	takes  float64          // turns of the spring that the fusee takes
	height float64          // mm, of the barrel inside
	shake  float64          // mm
}

func shopOf(train *sim.Train, in *scenario.Train, shake float64) shop {
	s := shop{train: *train, base: train.Drive.Spring, setUp: train.Drive.Barrel.SetUp, height: in.Barrel.InsideHeightMM, shake: shake, steel: steelOf(train)}
	d := &train.Drive
	_, _, area := d.Cone.Profile.At(d.Cone.Turns)
	s.takes = (area + d.Cone.Turns*d.Line.Thickness/2) / (d.Barrel.Radius + d.Line.Thickness/2)
	return s
}

// steelOf is the steel of the scenario's own spring. Coils that it shows lying free
// tell the stress at which it set.
func steelOf(train *sim.Train) mainspring.Strip {
	own := &train.Drive.Spring
	switch own.Form {
	case mainspring.Set:
		return mainspring.Strip{Form: mainspring.Set, Yield: own.Yield}
	case mainspring.Coils:
		yield, err := mainspring.YieldForCoils(*own, train.Drive.Housing, own.FreeCoils)
		if err == nil && !math.IsInf(yield, 0) {
			return mainspring.Strip{Form: mainspring.Set, Yield: yield}
		}
	}
	return mainspring.Strip{Form: mainspring.Straight}
}

// fitter tries springs one after the other. It is for one goroutine.
type fitter struct {
	shop
	drive  sim.Train // without what hangs on the wheels: for torques alone, several times as fast
	result sim.Result

	strip   mainspring.Strip // of the candidate; its length and set-up change
	longest float64          // mm, that it can have
	lo, hi  int              // whole mm, of the lengths that cover the turns
	spare   float64          // turns that are kept
	fill    float64          // share of the barrel that strips to be made fill
}

func newFitter(s shop) *fitter {
	f := &fitter{shop: s, drive: s.train, fill: s.base.Fill(s.train.Drive.Housing)}
	f.drive.Escapes, f.drive.Strikes = false, false
	return f
}

// stripOf is the strip as it is sold, of its own steel or else of the scenario's.
func (s *shop) stripOf(sp *stock.Spring) mainspring.Strip {
	strip := s.base
	strip.Width, strip.Thickness, strip.Length = sp.WidthMM*mm, sp.ThicknessMM*mm, sp.LengthMM*mm
	strip.Form, strip.Yield, strip.FreeCoils = s.steel.Form, s.steel.Yield, 0
	if scenario.Given(sp.YieldMPa) {
		strip.Form, strip.Yield = mainspring.Set, sp.YieldMPa*mpa
	}
	if scenario.Given(sp.ModulusGPa) {
		strip.Modulus = sp.ModulusGPa * gpa
	}
	return strip
}

// spacersFor is what lies beside a spring of a width in the barrel (mm), to the
// millionth of a millimetre; negative when the spring is too wide.
func (s *shop) spacersFor(width float64) float64 { return micro(s.height - width - s.shake) }

// micro takes the rounding of binary fractions off a length in mm.
func micro(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// fit fits a spring and runs the train down with it.
func (f *fitter) fit(sp stock.Spring) Candidate {
	c := Candidate{Spring: sp, Spacers: f.spacersFor(sp.WidthMM), CutTo: math.NaN(), SetUp: math.NaN()}
	f.strip = f.stripOf(&sp)
	f.longest = sp.LengthMM
	goesIn := f.strip.LongestFor(f.train.Drive.Housing) / mm * fullest
	switch {
	case c.Spacers < 0:
		c.Miss = -c.Spacers / f.height
		c.Refused = fmt.Sprintf("too wide by %s mm: the barrel is %s mm high inside, less %s mm of end shake", words.Figure(-c.Spacers), plain(f.height), plain(f.shake))
		return c
	case sp.LengthMM > goesIn && !sp.MayBeCut:
		c.Miss = sp.LengthMM/goesIn - 1
		c.Refused = fmt.Sprintf("too long by %s mm, and it may not be cut: the barrel takes %.0f mm of it when it is %.0f %% full", words.Figure(sp.LengthMM-goesIn), math.Floor(goesIn), 100*fullest)
		return c
	case sp.LengthMM > goesIn:
		f.longest = math.Floor(goesIn)
	}
	if f.longest < shortest {
		c.Miss, c.Refused = shortest/f.longest-1, fmt.Sprintf("too thick: the barrel takes only %s mm of it", words.Figure(f.longest))
		return c
	}
	f.cover(sp.MayBeCut)
	at, turns := f.hi, f.turns(f.hi)
	if turns < f.takes {
		c.SetUp = min(f.setUp, math.Floor(turns*stepsPerTurn/2)/stepsPerTurn)
		c.Miss = f.takes/turns - 1
		c.Refused = f.tooFew(&c, turns, f.lengthAt(at))
		f.run(&c, f.lengthAt(at), c.SetUp)
		return c
	}
	best := f.search()
	f.run(&c, f.lengthAt(best.length), float64(best.setUp)/stepsPerTurn)
	return c
}

// tooFew says that the spring cannot drive the turns.
func (f *fitter) tooFew(c *Candidate, turns, length float64) string {
	at := "at its length, which may not be cut"
	if c.MayBeCut {
		at = fmt.Sprintf("at the most, %.0f mm long", length)
	}
	return fmt.Sprintf("too few turns: it has %s %s, and the fusee takes %s without any set-up", words.Figure(turns), at, words.Figure(f.takes))
}

// run runs the whole train down with the spring at a length (mm) and set-up.
func (f *fitter) run(c *Candidate, length, setUp float64) {
	d := &f.train.Drive
	d.Spring = f.strip
	d.Spring.Length, d.Barrel.SetUp = length*mm, setUp
	err := f.train.Run(sim.Options{}, &f.result)
	if err != nil {
		if c.Refused == "" {
			c.Refused, c.Miss = err.Error(), math.MaxFloat64
		}
		return
	}
	r := &f.result
	c.Fitted, c.CutTo, c.SetUp = true, length, setUp
	c.Verdict, c.Reasons, c.Faults = r.Verdict.Code, words.Reasons(&r.Digest), words.Faults(&r.Digest)
	c.Mean, c.Least, c.Unevenness = r.Torque.Mean, r.Torque.Min, r.Torque.Unevenness
	c.Reserve = sim.Spread{Mean: r.Reserve(r.Torque.Mean), Min: r.Reserve(r.Torque.Min), Max: r.Reserve(r.Torque.Max)}
	c.Available, c.Left = r.Spring.Available, r.Spring.Available-r.Spring.Used-setUp
	c.Lost, c.Stored = r.TurnsLost, r.Spring.Stored
	if c.Refused == "" && f.spare < spare {
		c.Faults = append(c.Faults, fewLeft(c.Left))
	}
}

// fewLeft is the fault of having fewer turns left than are wanted.
func fewLeft(left float64) string {
	return fmt.Sprintf("only %s turns are left when the fusee is wound, and coils that do not pack perfectly take about %s (common practice, no source)", words.Figure(left), plain(spare))
}
