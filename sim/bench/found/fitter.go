package found

import (
	"math"
	"strings"

	"evenpull/sim/bench/fit"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// How one reading and one run-down scatter where nothing tells it, as shares at one standard
// deviation (common practice, no source).
const (
	readingScatter = 0.006
	runScatter     = 0.004
	solidWithin    = 0.125 // fusee turns, of where it went solid
	countWithin    = 0.125 // turns of the spring, counted to solid
	hopeless       = 20.0  // residuals over what scatter explains, that no strip has
	goodEnough     = 1.5   // residuals over what scatter explains, of a fit that ends at a corner
)

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
		if math.Abs(p.FuseeTurn-f.solid) < 0.5 {
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
		s := w.At(max(p.FuseeTurn, w.Start())) // wound home it gives what it gives there
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
