package cut

import (
	"context"
	"fmt"
	"math"

	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/setup"
	"evenpull/sim/vary"
)

const (
	turnStep  = 0.25 // fusee turns between the cones that are tried
	leastTurn = 1.0  // fusee turns of the shortest
	fineness  = 48   // places of the spring in a turn that a cone may be wound to, about
	bin       = 0.01 // ratio of torques that count as one
	pitchStep = 0.05e-3
)

// searcher looks for a cone. An even one is told by three numbers: the turns of the spring
// when the fusee has run down and when it is wound, and the fusee turns between. The two
// former fix how its diameters stand to each other, and how uneven it is with another
// spring: the torque then goes as the couple of that spring over that of its own. All three
// give the torque, the work of the spring over the turns, and with it the diameters.
type searcher struct {
	s      *scenario.Scenario // with any even cone
	number int
	in     *scenario.Train // as it is wanted
	train  sim.Train
	bounds []Bound
	groove Groove
	pitch  [2]float64 // the usual one, and the least
	ends   float64    // m, what a blank is higher than the way of the groove's middle
	radius float64    // m, of the line's middle on the barrel
	half   float64    // m, of the line's thickness
	gain   float64    // torque at the fusee over that without losses
	hours  float64    // of a fusee turn

	clicks   int // places of the spring in a click
	place    float64
	couple   []float64 // at each place, N·m
	work     []float64 // up to it, N·m turns
	off      [2]offCurve
	setUps   [2]int         // least and greatest, places
	turns    [2]float64     // of the fusee, least and greatest
	stout    float64        // m, least radius of the groove bottom
	spare    float64        // turns reckoned with, of the spring
	need     float64        // N·m; NaN when it is not known
	standard rules.Standard // what the train is judged by
	slack    float64        // of a bound, where pivots make the sums differ from a run
	levels   map[level]candidate
	tried    int
	blocked  *Found
}

// offCurve is a spring off its thickness, at the same places.
type offCurve struct{ over, work []float64 } // couple over that of the spring; work

// candidate is a cone to try.
type candidate struct {
	from, to int     // places of the spring, run down and wound
	turns    float64 // of the fusee
	uneven   float64 // with the spring off its thickness
}

// level are the cones of as many turns that give about the same torque.
type level struct{ turns, torque int }

// newSearcher lays the limits out.
func newSearcher(s *scenario.Scenario, number int) (*searcher, error) {
	q := &searcher{s: s.Clone(), number: number, in: &s.Trains[number], levels: map[level]candidate{}}
	in := q.in
	q.half = in.Line.ThicknessMM * mm / 2
	q.radius = in.Barrel.OutsideDiameterMM*mm/2 + q.half
	q.put(&cone{turns: leastTurn, pitch: in.Line.WidthMM * mm, large: q.radius})
	var err error
	if q.train, err = sim.CompileTrain(q.s, number); err != nil {
		return nil, err
	}
	if q.hours = q.train.HoursPerTurn(); math.IsNaN(q.hours) && scenario.Given(in.Fusee.RuntimeAtLeastH) {
		return nil, &sim.Error{Fault: q.s.FaultAt(number, "fusee.runtime_at_least_h", "found a running time for a train whose pace is not known",
			"want escapement and pendulum, or the blows of a striking train; or fusee.turns in its place"), Err: ErrNoCone}
	}
	q.stout = q.train.Drive.LeastRadius()
	q.groove = grooveOf(&q.s.Trains[number], &q.train.Drive.Line, 0)
	q.ends = blankOf(&in.Fusee, &fusee.Cone{}, &q.groove).Height
	q.pitches()
	q.setBounds()
	if err := q.spring(); err != nil {
		return nil, err
	}
	return q, q.tryOne()
}

// pitches are that asked for or, left out, a groove with a land of a quarter of the line's
// width (common practice, no source), and the least.
func (q *searcher) pitches() {
	for i, land := range [2]float64{math.Max(q.train.Drive.Line.Width/4, LeastLand), LeastLand} {
		q.pitch[i] = math.Ceil((q.groove.Width+land)/pitchStep-1e-6) * pitchStep
	}
	if given := q.in.Fusee.PitchMM; scenario.Given(given) {
		q.pitch = [2]float64{given * mm, given * mm}
	}
}

// cone is an even cone; SI.
type cone struct{ turns, pitch, setUp, large float64 }

// put puts one into the scenario.
func (q *searcher) put(c *cone) {
	t := &q.s.Trains[q.number]
	f := &t.Fusee
	none := math.NaN()
	f.Profile, f.Turns, f.PitchMM, f.LargeDiameterMM, t.Barrel.SetUpTurns = scenario.Even, c.turns, tidy(c.pitch/mm), tidy(2*c.large/mm), c.setUp
	f.Over, f.LandHeightMM = scenario.OverGroove, none
	f.RuntimeAtLeastH, f.HeightAtMostMM, f.DiameterAtMostMM, f.DiameterAtLeastMM, f.ReserveWanted = none, none, none, none, none
}

// tidy rounds millimetres to what a maker works to: hundredths.
func tidy(mm float64) float64 { return math.Round(mm*100) / 100 }

// setBounds gathers the limits of the scenario.
func (q *searcher) setBounds() {
	f := &q.in.Fusee
	for _, b := range []Bound{
		{RuntimeAtLeast, f.RuntimeAtLeastH}, {HeightAtMost, f.HeightAtMostMM * mm}, {DiameterAtMost, f.DiameterAtMostMM * mm},
		{DiameterAtLeast, f.DiameterAtLeastMM * mm}, {SpareAtLeast, q.train.Advice.TurnsToSpare},
	} {
		if b.Value > 0 {
			q.bounds = append(q.bounds, b)
		}
	}
	q.turns = [2]float64{leastTurn, scenario.MaxTurns}
	if scenario.Given(f.Turns) {
		q.turns = [2]float64{f.Turns, f.Turns}
	}
}

// boundReserve bounds the mean reserve by that wanted or, of a train that is judged by its
// reserve, by what is thin. Without a need there is none: then the need at the most is told.
func (q *searcher) boundReserve() {
	least, thin := q.in.Fusee.ReserveWanted, q.standard.Bands.Thin
	if q.standard.Basis == rules.ByReserve && !(least > thin) {
		least = thin
	}
	if least > 0 && !math.IsNaN(q.need) {
		q.bounds = append(q.bounds, Bound{ReserveAtLeast, least})
	}
}

// spring tabulates the spring.
func (q *searcher) spring() error {
	d := &q.train.Drive
	curve, err := mainspring.New(d.Spring, d.Housing)
	if err != nil {
		return sim.Blame(q.s, q.number, err)
	}
	has := curve.Turns()
	if q.spare = curve.Counted(); !q.train.Counted {
		q.spare = d.Spring.TurnsPacked(d.Housing, 1)
	}
	q.clicks = int(math.Ceil(fineness / q.train.Clicks))
	q.place = 1 / (q.train.Clicks * float64(q.clicks))
	n := int((has - leastSpare) / q.place)
	q.couple, q.work = q.tabulate(d, &curve, n)
	least := int(math.Ceil(fusee.LeastSetUp*q.train.Clicks-1e-9)) * q.clicks
	q.setUps = [2]int{least, min(n-1, int(setup.MostTurns/q.place))}
	if given := q.in.Barrel.SetUpTurns; scenario.Given(given) {
		at := int(math.Round(given / q.place))
		q.setUps = [2]int{at, at}
	}
	if q.setUps[0] >= n || q.setUps[0] < 1 {
		return &sim.Error{Fault: q.s.FaultAt(q.number, "barrel.set_up_turns", fmt.Sprintf("found no room for a set-up and a run: the spring has %.3g turns", has), "want a spring with more turns, or another set-up"), Err: ErrNoCone}
	}
	return nil
}

// tryOne runs a train with some cone, to learn what it needs and what of the torque reaches
// the fusee, and tabulates the springs off their thickness.
func (q *searcher) tryOne() error {
	from, to := q.setUps[0], (q.setUps[0]+len(q.couple)-1)/2+1
	work := q.work[to] - q.work[from]
	large := q.radius / 2
	turns := math.Min(math.Max(work*q.radius/(q.couple[from]*large), leastTurn), scenario.MaxTurns)
	q.put(&cone{turns, q.pitch[0], float64(from) * q.place, large - q.half})
	m, err := vary.Drive(q.s, q.number, q.in.Name+".mainspring.thickness_mm")
	if err != nil {
		return err
	}
	_, own := m.Own()
	q.need, q.standard = own.Need.Used, own.Standard
	q.boundReserve()
	q.gain = own.Torque.Mean / (q.couple[from] * large / q.radius)
	if scenario.Given(q.in.Barrel.ArborPivotMM) || scenario.Given(q.in.Fusee.PivotMM) || q.train.Drive.Efficiency == 0 {
		q.slack = 0.03
	}
	for i, by := range [2]float64{-offBy, offBy} {
		r, err := m.Run([]float64{m.Nominal()[0] + by})
		if err != nil {
			return err
		}
		d := &r.Train.Drive
		other, err := mainspring.New(d.Spring, d.Housing)
		if err != nil {
			return err
		}
		q.off[i].over, q.off[i].work = q.tabulate(d, &other, len(q.couple)-1)
		for j := range q.off[i].over {
			q.off[i].over[j] /= q.couple[j]
		}
	}
	return nil
}

// tabulate is a spring of a drive at each place, past its coils where their friction tells what
// they let through.
func (q *searcher) tabulate(d *fusee.Drive, c *mainspring.Curve, n int) (couple, work []float64) {
	couple, work = make([]float64, max(n, 0)+1), make([]float64, max(n, 0)+1)
	for j := range couple {
		phi := float64(j) * q.place
		couple[j], work[j] = c.Couple(phi), c.Energy(phi)/(2*math.Pi)
	}
	if d.Efficiency > 0 {
		return couple, work
	}
	passes, before := d.Evenly(c), 0.0
	for j := range couple {
		phi, all := float64(j)*q.place, work[j]
		couple[j] *= passes(phi)
		if j > 0 {
			work[j] = work[j-1] + (all-before)*passes(phi-q.place/2)
		}
		before = all
	}
	return couple, work
}

// grid looks at every cone and keeps, for each number of fusee turns and each torque, the
// one that a spring off its thickness leaves least uneven.
func (q *searcher) grid(ctx context.Context) error {
	return q.each(ctx, func(c candidate) {
		q.tried++
		if q.worst(&c) > q.slack {
			return
		}
		at := level{int(math.Round(c.turns / turnStep)), int(math.Floor(math.Log(q.torque(&c)) / bin))}
		if old, known := q.levels[at]; !known || c.uneven < old.uneven {
			q.levels[at] = c
		}
	})
}

// each calls do for every cone there is, whatever its limits.
func (q *searcher) each(ctx context.Context, do func(c candidate)) error {
	for from := q.setUps[0]; from <= q.setUps[1]; from += q.clicks {
		if err := ctx.Err(); err != nil {
			return err
		}
		var lo, hi [2]float64
		for i := range q.off {
			lo[i], hi[i] = math.Inf(1), math.Inf(-1)
		}
		for to := from; to < len(q.couple); to++ {
			c := candidate{from: from, to: to}
			work := q.work[to] - q.work[from]
			for i := range q.off {
				o := &q.off[i]
				lo[i], hi[i] = math.Min(lo[i], o.over[to]), math.Max(hi[i], o.over[to])
				c.uneven = math.Max(c.uneven, (hi[i]-lo[i])*work/(o.work[to]-o.work[from]))
			}
			if to == from {
				continue
			}
			for c.turns = q.turns[0]; c.turns <= q.turns[1]; c.turns += turnStep {
				if q.possible(&c) {
					do(c)
				}
			}
		}
	}
	return nil
}

// plain is the torque along a cone without losses, N·m: level, since the cone is even.
func (q *searcher) plain(c *candidate) float64 {
	return (q.work[c.to] - q.work[c.from]) / c.turns
}

func (q *searcher) torque(c *candidate) float64 { return q.gain * q.plain(c) }

// bottom is the radius (m) of the groove where the spring stands at a place.
func (q *searcher) bottom(c *candidate, place int) float64 {
	return q.plain(c)*q.radius/q.couple[place] - q.half
}

// possible tells whether a cone can be made at all: stout enough, and clear of the barrel.
func (q *searcher) possible(c *candidate) bool {
	centre := q.train.Drive.Cone.Centre
	return q.bottom(c, c.to) >= q.stout && (centre == 0 || q.bottom(c, c.from)+q.half+q.radius < centre)
}

// pitchOf is the greatest pitch of a cone, up to the usual one, with which it keeps within
// its height, or the least.
func (q *searcher) pitchOf(c *candidate) float64 {
	most := q.pitch[0]
	for _, b := range q.bounds {
		if b.Limit == HeightAtMost {
			most = math.Floor((b.Value-q.ends)/c.turns/pitchStep+1e-6) * pitchStep
		}
	}
	return math.Min(math.Max(most, q.pitch[1]), q.pitch[0])
}

// figures are those of the limits, by the sums.
func (q *searcher) figures(c *candidate) figures {
	return figures{
		c.turns * q.hours, q.pitchOf(c)*c.turns + q.ends, 2 * (q.bottom(c, c.from) + q.groove.Depth), 2 * q.bottom(c, c.to),
		q.torque(c) / q.need, q.spare - float64(c.to)*q.place,
	}
}

// worst is by how much a cone misses the bound that it misses most.
func (q *searcher) worst(c *candidate) float64 {
	f := q.figures(c)
	worst := math.Inf(-1)
	for i := range q.bounds {
		worst = math.Max(worst, q.bounds[i].beyond(f[q.bounds[i].Limit]))
	}
	return worst
}
