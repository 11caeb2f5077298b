package cut

import (
	"math"
	"slices"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

const mm = 1e-3

// Groove is the groove for the line (m): common practice, no source.
type Groove struct {
	Square bool    // for a chain; else round
	Width  float64 // across, at the lands
	Depth  float64 // of its bottom below the lands
	Land   float64 // left between two turns of the groove
}

// Blank is what the groove is cut into (m): the groove, and bare cone beyond it at each end.
type Blank struct {
	Margin float64 // bare, at each end
	Edge   float64 // from a face to the middle of the groove where it ends
	Height float64 // over all, from face to face
	Usual  bool    // the margin is what is usual (common practice, no source): none is stated
}

func blankOf(in *scenario.Fusee, c *fusee.Cone, g *Groove) Blank {
	b := Blank{Margin: in.EndMarginMM * mm}
	if b.Usual = !scenario.Given(in.EndMarginMM); b.Usual {
		b.Margin = scenario.UsualMarginMM * mm
	}
	b.Edge = b.Margin + g.Width/2
	b.Height = c.Turns*c.Pitch + 2*b.Edge
	return b
}

const (
	chain       = "chain" // as scenarios write it
	grooveRoom  = 0.1e-3  // m wider than a round line
	grooveDepth = 0.5     // of the line's thickness, as high as lands are taken to stand where nothing is said
	LeastLand   = 0.2e-3  // m, below which the groove breaks out (common practice, no source)
)

// grooveOf is the groove for the line of a train. Where diameters were measured over the
// lands, the lands stand as high as is said of them.
func grooveOf(in *scenario.Train, line *fusee.Line, pitch float64) Groove {
	g := Groove{Width: line.Width + grooveRoom, Depth: grooveDepth * line.Thickness}
	if in.Line.Kind == chain {
		g = Groove{Square: true, Width: line.Width, Depth: g.Depth}
	}
	if in.Fusee.Over == scenario.OverLands {
		g.Depth = in.Fusee.LandHeightMM * mm
	}
	g.Land = pitch - g.Width
	return g
}

// Row is the cone at one fusee turn. SI; NaN where something does not apply.
type Row struct {
	FuseeTurn    float64 // paid out
	Along        float64 // m from where the groove begins at the small end
	FromWheel    float64 // m from the face of the blank at the large end, which carries the great wheel
	Diameter     float64 // m over the groove bottoms, to cut
	OverLands    float64 // m over the lands, likewise
	Now          float64 // m, likewise as it is
	Remove       float64 // m of diameter; negative where metal is missing
	TorqueBefore float64 // N·m at the fusee
	Torque       float64 // N·m at the fusee, once cut
	Span         float64 // m of line between fusee and barrel, once cut
	Fleet        float64 // rad, once cut
}

// Sensitivity tells what a spring off its thickness does to the cone that was cut
// for it.
type Sensitivity struct {
	By               float64 // m
	Thinner, Thicker Off     // the spring thinner by that, and thicker
}

// Off is the train with the cone that was cut and a spring off its thickness.
type Off struct {
	sim.Digest
	Fault error // why it cannot be built
}

// offBy is how closely a spring's thickness is measured, mm (common practice, no
// source).
const offBy = 0.01

// sense runs the train with the cone to cut and the spring off its thickness.
func (k *worker) sense() error {
	m, err := vary.WithCone(k.s, k.number, k.cone, k.keys...)
	if err != nil {
		return err
	}
	setUp := k.st.After.Spring.SetUp
	k.st.Sensitivity = Sensitivity{By: offBy * mm, Thinner: off(m, -offBy, setUp), Thicker: off(m, offBy, setUp)}
	return nil
}

// off runs a model with other values, the thickness last of all, off by so much (mm).
func off(m *vary.Model, by float64, others ...float64) Off {
	r, err := m.Run(append(others, m.Nominal()[len(others)]+by))
	if err != nil {
		return Off{Fault: err}
	}
	return Off{Digest: r.Digest}
}

// figures fills in the rows and what goes with them.
func (k *worker) figures() error {
	st, in := k.st, &k.s.Trains[k.number]
	st.Cut = *st.Train
	d := &st.Cut.Drive
	d.Cone, d.Barrel.SetUp = k.cone, st.After.Spring.SetUp
	w, err := d.Wind()
	if err != nil {
		return sim.Blame(k.s, k.number, err)
	}
	st.Groove = grooveOf(in, &d.Line, d.Cone.Pitch)
	st.Blank = blankOf(&in.Fusee, &d.Cone, &st.Groove)
	st.Span = spanOf(&w, 0)
	st.Rows = st.rows(&k.wound, &w, st.Step)
	st.Between = in.Fusee.Profile == scenario.Measured && !measuredAt(&in.Fusee, st.After.DeepestAt)
	if st.Whole = math.NaN(); st.Refused == nil {
		st.Whole = wholeTurns(st.Cut)
	}
	return nil
}

// atTurn is how near to where a diameter was measured a place counts as measured, turns.
const atTurn = 0.02

// measuredAt tells whether a diameter was measured at a turn.
func measuredAt(in *scenario.Fusee, turn float64) bool {
	if len(in.Points) == 0 {
		return math.Abs(turn-math.Round(turn)) <= atTurn
	}
	return slices.ContainsFunc(in.Points, func(p scenario.Point) bool { return math.Abs(turn-p.Turn) <= atTurn })
}

// Removal is what comes off a cone. SI.
type Removal struct {
	Removed   float64 // m³; NaN of a new cone
	Touch     float64 // fusee turn at which nothing comes off; NaN where there is none
	Deepest   float64 // m of diameter that comes off at the most
	DeepestAt float64 // fusee turn
	Share     float64 // of the present diameter that comes off at the most
	Missing   float64 // m of diameter by which the present cone is too thin at the most
	MissingAt float64 // fusee turn
}

// removal compares a cone to cut with the present one.
func removal(now, cut *fusee.Cone) Removal {
	const steps = 512
	r := Removal{Removed: math.NaN(), Touch: math.NaN()}
	for i := range steps + 1 {
		theta := cut.Turns * float64(i) / steps
		is, _, _ := now.Profile.At(theta)
		be, _, _ := cut.Profile.At(theta)
		r.Share = math.Max(r.Share, (is-be)/is)
		if off := 2 * (is - be); off > r.Deepest {
			r.Deepest, r.DeepestAt = off, theta
		} else if -off > r.Missing {
			r.Missing, r.MissingAt = -off, theta
		}
	}
	return r
}

// LeastCount is what no gauge tells from nothing (m): a ten thousandth of a millimetre.
const LeastCount = 1e-7

// spanOf is the free line; NaN when the centre distance is not known.
func spanOf(w *fusee.Wound, theta float64) float64 {
	if v := w.FreeSpan(theta); v > 0 {
		return v
	}
	return math.NaN()
}

// Leave is the study with the cone left as it is, for whoever shows it.
func (st *Study) Leave() (*Study, error) {
	w, err := st.Train.Drive.Wind()
	if err != nil {
		return nil, err
	}
	is := *st
	is.Uncut, is.Nothing, is.Cut = true, true, *st.Train
	is.After = Way{Digest: st.Now, Removal: Removal{Touch: math.NaN()}}
	is.Rows = is.rows(&w, &w, st.Step)
	return &is, nil
}

// Fine are rows at so many even steps, as for a picture.
func (st *Study) Fine(steps int) ([]Row, error) {
	now, err := st.Train.Drive.Wind()
	if err != nil {
		return nil, err
	}
	cut, err := st.Cut.Drive.Wind()
	if err != nil {
		return nil, err
	}
	return st.rows(&now, &cut, cut.Turns()/float64(steps)), nil
}

// TorqueSetUp gives the torque on the present cone with another set-up (turns) at a fusee turn;
// no number where the fusee is not wound so far. It fails where it cannot be wound at all.
func (st *Study) TorqueSetUp(setUp float64) (func(theta float64) float64, error) {
	now, err := st.Train.Drive.Wind()
	if err != nil {
		return nil, err
	}
	drive := st.Train.Drive
	drive.Cone, drive.Barrel.SetUp = now.CutCone(), setUp
	then, err := drive.Wind()
	if err != nil {
		return nil, err
	}
	return func(theta float64) float64 {
		if theta < then.Start() {
			return math.NaN()
		}
		return then.At(theta).Torque
	}, nil
}

// rows are those at the multiples of a step and at the end.
func (st *Study) rows(now, cut *fusee.Wound, step float64) []Row {
	n := cut.Turns()
	list := make([]Row, int(math.Ceil(n/step-1e-6))+1)
	old, cone := &st.Train.Drive.Cone.Profile, &st.Cut.Drive.Cone
	for i := range list {
		theta := math.Min(float64(i)*step, n)
		if i == len(list)-1 {
			theta = n
		}
		is, _, _ := old.At(theta)
		be, _, _ := cone.Profile.At(theta)
		if over := be - is; !st.FromBlank && over > 0 && over < LeastCount {
			be = is // metal only comes off
		}
		after := cut.At(math.Max(theta, cut.Start()))
		if theta < cut.Start() {
			after.Torque = math.NaN()
		}
		before := now.At(math.Max(theta, now.Start())).Torque
		if theta < now.Start() {
			before = math.NaN() // the fusee is never wound so far
		}
		list[i] = Row{
			FuseeTurn: theta, Along: cone.Pitch * theta, FromWheel: st.Blank.Edge + cone.Pitch*(n-theta),
			Diameter: 2 * be, OverLands: 2 * (be + st.Groove.Depth), Now: 2 * is, Remove: 2 * (is - be),
			TorqueBefore: before, Torque: after.Torque, Span: spanOf(cut, theta), Fleet: math.Atan(after.Fleet),
		}
	}
	return list
}

// wholeTurns is the unevenness of a cone turned to the diameters at whole turns and
// joined smoothly in between.
func wholeTurns(t sim.Train) float64 {
	c := &t.Drive.Cone
	n := int(c.Turns)
	if float64(n) != c.Turns {
		return math.NaN()
	}
	radii := make([]float64, n+1)
	for i := range radii {
		radii[i], _, _ = c.Profile.At(float64(i))
	}
	var err error
	if c.Profile, err = fusee.Measured(radii); err != nil {
		return math.NaN()
	}
	var r sim.Result
	if err := t.RunInto(&r, sim.Options{TorqueOnly: true}); err != nil {
		return math.NaN()
	}
	return r.Torque.Unevenness
}
