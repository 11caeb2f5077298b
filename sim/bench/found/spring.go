package found

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/fit"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"github.com/golang/geo/r1"
	"gonum.org/v1/gonum/mat"
)

// Spring is a spring as it was measured and as its readings tell it.
type Spring struct {
	Label, Train string   // the train it was read in
	Number       int      // of that train in the scenario
	Told         []Told   // what the readings tell of its strip
	Apart        [][2]int // places in Told of what these readings cannot tell apart
	Misfit       float64  // residuals over what scatter explains, rms
	SolidBy      float64  // fusee turns from run down at which it goes solid by all of this; NaN where SolidAt is
	Turns        int      // at which it was read
	SolidAt      float64  // fusee turns from run down at which it went solid; NaN
	Counted      float64  // turns from rest to solid, where its length was not measured; NaN
	Why          error    // why its readings tell nothing; nil when they do

	read  *readings.Spring
	own   *book.Spring // what was measured of it; nil when nothing was
	alone bool         // no other was read in its train
	home  *explained   // in the barrel of the train it was read in
	away  *away        // in others
}

// away is a spring in other barrels, each worked out once.
type away struct {
	sync.Mutex
	in []*explained
}

// explained is a spring in a barrel, as its readings have it.
type explained struct {
	there  *scenario.Scenario // with the strip as it was measured, and the barrel
	inputs []vary.Input       // of the train there
	at     []float64          // places of their parts that explain the readings best
	errors *mat.SymDense      // covariance of these places
	root   *mat.TriDense      // whose square it is, lower
	lo, hi []float64          // between which places lie
}

// Told is an input of the strip: as it was measured or assumed, and as the readings have it
// beside that.
type Told struct {
	Key           string // below the train: mainspring.thickness_mm
	Words, Unit   string
	Measured      bool // on the spring; else the scenario's, or assumed
	Before        float64
	Value         float64
	StandardError float64
	Interval      r1.Interval // 95 %
	Narrowed      float64     // standard error over what it was before the readings
	Off           float64     // value less what was known before, in standard deviations of that
}

// How one reading and one run-down scatter where nothing tells it, as shares at one standard
// deviation (common practice, no source).
const (
	readingScatter = 0.006
	runScatter     = 0.004
	solidWithin    = 0.125 // fusee turns, of where it went solid
	countWithin    = 0.125 // turns of the spring, counted to solid
	goodEnough     = 1.5   // residuals over what scatter explains, of a fit that ends at a corner
)

// springOf explains the readings of a spring in the barrel of the train they were taken in.
func (c *Clock) springOf(ctx context.Context, b *book.Book, all []readings.Spring, i int) *Spring {
	read := &all[i]
	sp := &Spring{Label: read.Spring, Train: read.Train, Turns: len(read.Turns), SolidAt: nan, Counted: nan, read: read, alone: alone(all, i), away: new(away)}
	if sp.own = b.Spring(sp.Label); sp.own != nil {
		if sp.own.Train == sp.Train || sp.own.Train == "" {
			sp.SolidAt = sp.own.SolidAtTurn
		}
	}
	if sp.Number, sp.Why = c.Scenario.Train(sp.Train); sp.Why != nil {
		return sp
	}
	f, res, err := sp.explain(ctx, c.carved, &c.carved.Trains[sp.Number].Barrel)
	if sp.Why = err; err != nil {
		return sp
	}
	sp.home = f.explained
	sp.Misfit, sp.SolidBy = f.misfit(res.B), nan
	if r, err := f.drawer.Run(f.at, nil); err == nil && !math.IsNaN(f.solid) {
		sp.SolidBy = r.Turns - r.TurnsLost
	}
	for k := range f.parts {
		if strings.HasPrefix(f.parts[k].Quantity.Key, sp.Train+".mainspring.") {
			sp.Told = append(sp.Told, f.told(k))
		}
	}
	sp.Apart = f.apart(sp.Told, res)
	return sp
}

// explain explains the readings of a spring by its strip and by all else in the train they
// were taken in, with a barrel in its place, each within its reading error: weighted least
// squares on the readings and, as if they were readings too, on what was measured before
// (Bayes' rule for normal errors). What all readings have in common, the meter's bound and
// how run-downs differ as wholes, is one more unknown.
func (sp *Spring) explain(ctx context.Context, s *scenario.Scenario, barrel *scenario.Barrel) (*fitter, *fit.Result, error) {
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	if sp.Turns < rules.LeastTurnsRead {
		return nil, nil, fmt.Errorf("%w: %d, want at least %d", ErrFew, sp.Turns, rules.LeastTurnsRead)
	}
	f := &fitter{explained: new(explained), solid: nan}
	var err error
	if f.there, f.given, err = stripIn(s, sp, barrel); err != nil {
		return nil, nil, err
	}
	if f.inputs, err = inputsOf(f.there, sp.Number, f.given); err != nil {
		return nil, nil, err
	}
	if err := f.begin(sp); err != nil {
		return nil, nil, err
	}
	res, err := f.solve()
	if err != nil {
		return nil, nil, err
	}
	f.take(res)
	return f, res, nil
}

// solve finds the places that explain the readings. From far off it goes nearer by readings
// that are taken to be rough first.
func (f *fitter) solve() (*fit.Result, error) {
	res, err := fit.Solve(f.problem())
	if err == nil && !f.ended(&res) {
		p := f.problem()
		for _, rough := range []float64{0.1, 0.02, 0} {
			p.SD = slices.Clone(f.sd)
			for i := range f.points {
				p.SD[i] = max(p.SD[i], rough*f.y[i])
			}
			if res, err = fit.Solve(p); err != nil {
				return nil, err
			}
			p.Start = res.B
		}
	}
	switch {
	case err != nil:
		return nil, err
	case !f.ended(&res):
		return nil, fmt.Errorf("no strip like the one that was measured gives these readings (%s)", res.Status)
	}
	return &res, nil
}

// ended tells whether a fit is at a least sum of squares. Where the fusee begins to be wound
// no further the torque has a corner, at which a fit may end: it is as good as its residuals.
func (f *fitter) ended(res *fit.Result) bool {
	switch res.Status {
	case fit.Converged, fit.AtBound:
		return true
	case fit.NotConverged:
		return f.misfit(res.B) < goodEnough
	}
	return false
}

// take keeps what a fit found.
func (f *fitter) take(res *fit.Result) {
	n := len(f.parts)
	misfit := f.misfit(res.B)
	widen := max(1, misfit*misfit) // by what the strip does not explain (R. T. Birge's ratio)
	f.at, f.errors = res.B[:n], mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			if c := res.Covariance.At(i, j); !math.IsNaN(c) { // on its bound it is held there
				f.errors.SetSym(i, j, c*widen)
			}
		}
	}
	f.root = rootOf(f.errors)
}

// rootOf is the lower triangle whose square a covariance is. What is held on its bound has
// no variance, and takes no part.
func rootOf(c *mat.SymDense) *mat.TriDense {
	n := c.SymmetricDim()
	root := mat.NewTriDense(n, mat.Lower, nil)
	for j := range n {
		rest := c.At(j, j)
		for k := range j {
			rest -= root.At(j, k) * root.At(j, k)
		}
		if !(rest > 1e-12*c.At(j, j)) {
			continue
		}
		diagonal := math.Sqrt(rest)
		root.SetTri(j, j, diagonal)
		for i := j + 1; i < n; i++ {
			sum := c.At(i, j)
			for k := range j {
				sum -= root.At(i, k) * root.At(j, k)
			}
			root.SetTri(i, j, sum/diagonal)
		}
	}
	return root
}

// misfit is the residuals over what scatter explains, rms.
func (f *fitter) misfit(b []float64) float64 {
	squares := 0.0
	for i, v := range f.fitted(b)[:len(f.points)] {
		d := (f.y[i] - v) / f.sd[i]
		squares += d * d
	}
	return math.Sqrt(squares / float64(len(f.points)))
}

// fitter fits the readings of one spring.
type fitter struct {
	*explained
	given   map[string]bool // keys of the strip that were measured; nil: as the scenario says
	drawer  *vary.Drawer
	parts   []*vary.Part
	even    []bool // of each part: anything in its range is as likely
	points  []readings.Point
	common  float64   // standard deviation of what all readings share
	y, sd   []float64 // readings, where it went solid, and what was known before
	height  float64   // mm, inside the barrel
	solid   float64   // θ at which it went solid; NaN
	counted float64   // turns from rest to solid; NaN
	out     []float64
	from    []float64 // places to begin with: those in another barrel; nil: as it was measured
}

// begin makes the model and gathers what it is fitted to.
func (f *fitter) begin(sp *Spring) error {
	for i := range f.inputs {
		in := &f.inputs[i]
		for k := range in.Parts {
			f.parts, f.even = append(f.parts, &in.Parts[k]), append(f.even, in.Parts[k].Error.Even())
		}
	}
	m, err := vary.Draws(f.there, sp.Number, vary.Length, nil, f.inputs)
	if err != nil {
		return err
	}
	m.DriveOnly()
	f.drawer = vary.NewDrawer(m, f.inputs, 0)
	t := &f.there.Trains[sp.Number]
	f.height = t.Barrel.InsideHeightMM
	if scenario.Given(sp.SolidAt) {
		f.solid = t.Fusee.Turns - sp.SolidAt
	}
	f.counted = sp.Counted
	if sp.home != nil {
		f.from = sp.home.at
	}
	f.share(sp.read)
	f.read(sp.read)
	return nil
}

// share is what all readings have in common.
func (f *fitter) share(read *readings.Spring) {
	between, runs := read.Mean.Between, float64(max(1, read.Down.N))
	if math.IsNaN(between) {
		between = runScatter
	} else { // few run-downs tell it badly
		between *= measure.HalfWidth(1, read.Mean.Freedom, 0) / 1.96
	}
	f.common = math.Hypot(between/math.Sqrt(runs), read.MeterRelative/math.Sqrt(3))
}

// read gathers the readings. Next to where the strip went solid its couple rises within a
// quarter of a turn by more than any reading tells: these are left out.
func (f *fitter) read(read *readings.Spring) {
	for _, p := range readings.PointsOf(*read) {
		if math.Abs(float64(p.FuseeTurn)-f.solid) < 0.5 {
			continue
		}
		if math.IsNaN(p.SD) {
			p.SD = readingScatter * p.Measured
		}
		f.points = append(f.points, p)
		f.y, f.sd = append(f.y, p.Measured), append(f.sd, p.SD)
	}
	if !math.IsNaN(f.solid) {
		f.y, f.sd = append(f.y, 0), append(f.sd, solidWithin)
	}
	if !math.IsNaN(f.counted) {
		f.y, f.sd = append(f.y, f.counted), append(f.sd, countWithin)
	}
	for k := range f.parts {
		sd := 1.0
		if f.even[k] {
			sd = 1 / math.Sqrt(3)
		}
		f.y, f.sd = append(f.y, 0), append(f.sd, sd)
	}
	f.y, f.sd = append(f.y, 0), append(f.sd, 1)
	f.out = make([]float64, len(f.y))
}

// far is how many standard deviations from what was known before anything is looked for.
const far = 5

func (f *fitter) problem() fit.Problem {
	n := len(f.parts) + 1
	p := fit.Problem{Predict: f.predict, Y: f.y, SD: f.sd, Start: make([]float64, n), Lo: make([]float64, n), Hi: make([]float64, n), Scale: make([]float64, n)}
	for k := range n {
		p.Lo[k], p.Hi[k], p.Scale[k] = -far, far, 1
		if k < n-1 && f.even[k] {
			p.Lo[k], p.Hi[k] = -1, 1
		}
	}
	copy(p.Start, f.from)
	for k, part := range f.parts { // a strip that was in the barrel went into it
		if by := part.Error.At(part.Value, 1) - part.Value; strings.HasSuffix(part.Quantity.Key, ".mainspring.width_mm") {
			p.Hi[k] = min(far, max((f.height-part.Value)/by, 0)*(1-1e-9))
		}
		p.Start[k] = min(max(p.Start[k], p.Lo[k]), p.Hi[k])
	}
	f.lo, f.hi = p.Lo, p.Hi
	return p
}

// predict foretells readings and what was known before from the places of the parts and of
// what the readings share.
func (f *fitter) predict(b, out []float64) error {
	n := len(f.parts)
	r, err := f.drawer.Run(b[:n], nil)
	if err != nil {
		return err
	}
	w, err := r.Train.Drive.Wind()
	if err != nil {
		return err
	}
	whole := 1 + f.common*b[n]
	for i := range f.points {
		p := &f.points[i]
		s := w.At(max(float64(p.FuseeTurn), w.Start())) // wound home it gives what it gives there
		out[i] = s.Torque * whole
		if p.Winding {
			out[i] = s.Winding * whole
		}
	}
	at := len(f.points)
	if !math.IsNaN(f.solid) {
		s := w.At(f.solid)
		out[at] = (s.SpringTurns - r.Spring.Available) / (s.Radius / w.BarrelRadius())
		at++
	}
	if !math.IsNaN(f.counted) {
		out[at] = r.Spring.Available
		at++
	}
	copy(out[at:], b)
	return nil
}

// fitted is what the model foretells; what it did at the places of a fit.
func (f *fitter) fitted(b []float64) []float64 {
	if err := f.predict(b, f.out); err != nil {
		for i := range f.out {
			f.out[i] = nan
		}
	}
	return f.out
}

// told is what became of a part of the strip.
func (f *fitter) told(k int) Told {
	p := f.parts[k]
	t := Told{Words: p.Quantity.Words, Unit: p.Quantity.Unit, Before: p.Value}
	_, t.Key, _ = strings.Cut(p.Quantity.Key, ".")
	t.Measured = f.given == nil && p.Quantity.Given || f.given[strings.TrimPrefix(t.Key, "mainspring.")]
	sd := math.Sqrt(f.errors.At(k, k))
	at := slices.Clone(f.at)
	value := func(place float64) float64 {
		at[k] = place
		return f.drawer.At(at)[k]
	}
	t.Value = value(f.at[k])
	lo, hi := value(f.at[k]-1.96*sd), value(f.at[k]+1.96*sd)
	t.Interval = r1.Interval{Lo: min(lo, hi), Hi: max(lo, hi)}
	t.StandardError = (t.Interval.Hi - t.Interval.Lo) / (2 * 1.96)
	t.Narrowed, t.Off = sd, f.at[k]
	if f.even[k] {
		t.Narrowed *= math.Sqrt(3)
	}
	return t
}

// alikeFrom is the correlation from which on two inputs cannot be told apart.
const alikeFrom = 0.95

// apart finds the parts of the strip that were not measured, and of which the readings see
// the same effect.
func (f *fitter) apart(told []Told, res *fit.Result) (pairs [][2]int) {
	n := len(f.points)
	column := func(k int) []float64 {
		b, d := slices.Clone(res.B), make([]float64, n)
		const step = 1e-3
		b[k] = res.B[k] + step
		up := slices.Clone(f.fitted(b)[:n])
		b[k] = res.B[k] - step
		down := f.fitted(b)
		for i := range d {
			d[i] = (up[i] - down[i]) / f.sd[i]
		}
		return d
	}
	var open []int
	var columns []*mat.VecDense
	for k := range told { // the strip's are the first of all
		switch told[k].Key {
		case "mainspring.thickness_mm", "mainspring.yield_mpa", "mainspring.free_coils", "mainspring.efficiency", "mainspring.friction_coefficient", "mainspring.length_mm":
			if !told[k].Measured {
				open, columns = append(open, k), append(columns, mat.NewVecDense(n, column(k)))
			}
		}
	}
	for i := range open {
		for j := range i {
			a, b := columns[j], columns[i]
			if c := mat.Dot(a, b) / (mat.Norm(a, 2) * mat.Norm(b, 2)); math.Abs(c) >= alikeFrom {
				pairs = append(pairs, [2]int{open[j], open[i]})
			}
		}
	}
	return pairs
}
