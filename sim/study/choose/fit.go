package choose

import (
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/stock"
	"evenpull/sim/study/setup"
)

const (
	mm  = 1e-3
	mpa = 1e6
	gpa = 1e9
	// shortest is the least length (mm) of a strip in a scenario.
	shortest = 20
)

// Candidate is a spring of the stock in the train.
type Candidate struct {
	stock.Spring
	Own       bool       // it is the present spring, and none of the list: see All
	Rank      int        // from 1 among those of the list; 0 of the present spring
	Refused   Refusal    // why it cannot be fitted; the zero value where it can
	Spacers   float64    // mm, beside the spring in all; negative of one too wide
	CutTo     float64    // mm; NaN for the whole length
	Uncut     float64    // share of the draws that would suit without the cut; NaN where that is not what it is cut for
	Digest    sim.Digest // as it is fitted; the zero value of one that is refused
	Tolerance Tolerance  // of its thickness, as it is fitted; of the foremost MostDrawn alone
	Behind    rules.Rule // that put it behind the best; NoRule of the best and of its equals

	place int // in the list
	class int // of the share of its draws that suits
}

// Length is that at which the spring is fitted, in mm.
func (c *Candidate) Length() float64 {
	if math.IsNaN(c.CutTo) {
		return c.LengthMM
	}
	return c.CutTo
}

// Fits tells whether the spring can be fitted.
func (c *Candidate) Fits() bool { return c.Refused.Why == NotRefused }

// Run is the run-down with the spring; nil where it cannot be fitted.
func (c *Candidate) Run() *sim.Digest { return c.Digest.Where(c.Fits()) }

// Why a spring cannot be fitted.
type Why uint8

const (
	NotRefused  Why = iota // it can be fitted
	TooWide                // by Figure mm
	TooLong                // Figure mm go in, and it may not be cut
	TooThick               // only Figure mm go in
	TooFewTurns            // it has Figure turns, cut to CutTo where that is more than whole
	Unfit                  // as Err says
)

// Refusal tells why a spring cannot be fitted.
type Refusal struct {
	Why    Why
	Figure float64 // as Why tells
	CutTo  float64 // mm; NaN: whole
	Miss   float64 // by how much it cannot, as a share of what it would have to be; above 0
	Err    error   // of the drive, where that is why; else nil
}

// fitter tries springs one after the other. It is for one goroutine.
type fitter struct {
	*shop
	strip  mainspring.Strip // that is tried; its length changes
	train  sim.Train        // its spring and set-up are those tried last
	result sim.Result
	curve  []sim.Digest
}

func newFitter(s *shop) *fitter { return &fitter{shop: s, train: s.train} }

// run runs the train down with the strip at hand and a set-up in turns. The result
// holds until the next run.
func (f *fitter) run(setUp float64, o sim.Options) (*sim.Result, error) {
	f.train.Drive.Spring, f.train.Drive.Barrel.SetUp = f.strip, setUp
	return &f.result, f.train.RunInto(&f.result, o)
}

// turns are those that the strip has at a length in mm.
func (f *fitter) turns(length float64) float64 {
	s := f.strip
	s.Length = length * mm
	c, err := mainspring.New(s, f.train.Drive.Housing)
	if err != nil {
		return 0
	}
	return c.Turns()
}

// room are the turns for a set-up with the strip at a length in mm: those that leave the
// turns to spare and with which the fusee can be wound; negative where there are none.
func (f *fitter) room(length float64) float64 {
	s := f.strip
	s.Length = length * mm
	ideal := s.TurnsPacked(f.train.Drive.Housing, 1)
	return min(ideal-f.advice.TurnsToSpare, f.turns(length)) - f.takes
}

// fit fits a spring and runs the train down with it.
func (f *fitter) fit(sp stock.Spring) Candidate {
	c := Candidate{Spring: sp, Spacers: f.spacersFor(sp.WidthMM), CutTo: math.NaN(), Uncut: math.NaN(), Tolerance: noTolerance}
	f.strip = f.stripOf(&sp)
	length := sp.LengthMM
	goesIn := f.strip.LongestFor(f.train.Drive.Housing) / mm * rules.Fullest
	switch {
	case c.Spacers < 0:
		c.refuse(TooWide, -c.Spacers, -c.Spacers/f.height)
		return c
	case length > goesIn && !sp.MayBeCut:
		c.refuse(TooLong, math.Floor(goesIn), length/goesIn-1)
		return c
	case length > goesIn:
		if length = math.Floor(goesIn); length < shortest {
			c.refuse(TooThick, goesIn, shortest/goesIn-1)
			return c
		}
	}
	turns := f.turns(length)
	if sp.MayBeCut {
		length, turns = f.cut(length, turns)
	}
	if turns < f.takes {
		c.refuse(TooFewTurns, turns, f.takes/turns-1)
		if length != sp.LengthMM {
			c.Refused.CutTo = length
		}
		return c
	}
	if length != sp.LengthMM {
		c.CutTo = length
	}
	f.strip.Length = length * mm
	at, err := f.setUp()
	if err != nil {
		c.refuse(Unfit, math.NaN(), math.Inf(1))
		c.Refused.Err = err
		return c
	}
	c.Digest = *at
	return c
}

func (c *Candidate) refuse(why Why, figure, miss float64) {
	c.Refused = Refusal{Why: why, Figure: figure, CutTo: math.NaN(), Miss: miss}
}

// clicks is the number of set-ups worth trying with the strip at a length: those
// that leave the turns to spare; where none does, all with which the fusee can be
// wound.
func (f *fitter) clicks(length float64) int {
	if n := setup.Clicks(f.room(length), f.train.Clicks); n > 0 {
		return n
	}
	return setup.Clicks(f.turns(length)-f.takes, f.train.Clicks)
}

// setUp finds the set-up of the strip at hand as the search for a set-up would have
// it, and runs the train down with it. Arcs take most of the time and are left out of
// the search; where by them the escapement trips it is made again with them.
func (f *fitter) setUp() (*sim.Digest, error) {
	f.train.Drive.Spring = f.strip
	n := f.clicks(f.strip.Length / mm)
	for _, o := range [2]sim.Options{{TorqueOnly: true}, {}} {
		var err error
		if f.curve, err = setup.Curve(&f.train, n, o, &f.result, f.curve); err != nil {
			return nil, err
		}
		at := f.curve[setup.Fitted(f.curve, int(math.Round(f.present)))].Spring.SetUp
		if _, err := f.run(at, sim.Options{}); err != nil {
			return nil, err
		}
		if !f.result.Swing.Trips {
			break
		}
	}
	return &f.result.Digest, nil
}
