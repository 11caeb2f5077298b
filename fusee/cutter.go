package fusee

import (
	"math"
	"slices"

	"evenpull/fusee/numeric"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/integrate"
)

// Points a fusee turn at which a cutter compares the cone with the profile: for a
// search over set-ups, and for the profile to be cut.
const (
	coarse = 2
	fine   = 12
)

// cutter looks for the greatest C whose even profile lies inside a cone.
type cutter struct {
	w         *Wound
	low, work float64   // couple past the coils (N·m) and energy (J) of the spring run down
	passage   *passage  // nil where what passes is the same all along
	step      float64   // turns between the places looked at
	at        []float64 // θ, the places looked at
	now       []float64 // m, radius of the line's middle on the cone there
	rho       []float64 // m, likewise on the profile
	c         float64   // C: every C that fits is at most this
	touch     float64
}

// cutterOf is a cutter for a set-up that has looked nowhere yet.
func cutterOf(w *Wound, setUp float64) *cutter {
	return &cutter{w: w, low: w.given(setUp), work: w.curve.Energy(setUp), passage: w.newPassage(setUp), touch: math.NaN()}
}

// mostEven is the C with which the spring has the turns to spare when the fusee is
// wound. What passes the pivots hangs on C only slightly: a few steps are enough.
func (k *cutter) mostEven(spare float64) float64 {
	c := &k.w.curve
	up := c.Energy(c.Turns() - spare)
	most := (up - k.work) / (2 * math.Pi * k.w.drive.Cone.Turns)
	if k.passage == nil {
		return most
	}
	most, _ = numeric.Root(0, most, 1e-14*most, func(c float64) float64 {
		k.along(c)
		return 2*math.Pi*k.w.drive.Cone.Turns*c - k.passage.work(k.w, k.work, up)
	})
	return most
}

// along sets the passage for the even profile of a C.
func (k *cutter) along(c float64) {
	if k.passage != nil && k.passage.c != c {
		k.passage.set(k.w, c)
	}
}

func newCutter(w *Wound, setUp, spare float64) *cutter {
	k := cutterOf(w, setUp)
	k.look(coarse)
	k.c = k.mostEven(spare) * (1 - 1e-12)
	if c := w.evenOf(k.low, k.now[len(k.now)-1]); c < k.c { // the large end fits
		k.c, k.touch = c, w.drive.Cone.Turns
	}
	return k
}

// look sets the places, so many a turn. A finer set has those of a coarser one.
func (k *cutter) look(perTurn int) {
	n := k.w.drive.Cone.Turns
	gaps := int(math.Ceil(n)) * perTurn
	k.step = n / float64(gaps)
	k.at, k.now, k.rho = make([]float64, gaps+1), make([]float64, gaps+1), make([]float64, gaps+1)
	for i := range k.at {
		k.at[i] = float64(i) * k.step
		k.now[i] = k.cone(k.at[i])
	}
}

// cone is the radius of the line's middle on the cone as it is.
func (k *cutter) cone(theta float64) float64 {
	r, _, _ := k.w.drive.Cone.Profile.At(theta)
	return r + k.w.half
}

// profile is the radius of the line's middle at θ on the even profile of a C.
func (k *cutter) profile(c, theta float64) float64 {
	k.along(c)
	turns, m := k.passage.woundBy(k.w, k.work, 2*math.Pi*c*(k.w.drive.Cone.Turns-theta))
	return k.w.evenRadius(c, m*k.w.coils(turns))
}

// fit lowers C until the profile lies inside the cone at every place, and leaves
// its radii there. Each place lowers C to the next value that fits there; none
// between fits everywhere, so the last is the greatest that does. Another pass is
// needed only where a smaller C makes a profile thicker, as it does with a spring
// nearly home, whose couple is steep.
func (k *cutter) fit() {
	for lowered := true; lowered; {
		lowered = false
		for i, theta := range slices.Backward(k.at) {
			k.rho[i] = k.profile(k.c, theta)
			if k.rho[i] > k.now[i]*(1+1e-9) {
				k.lower(theta, k.now[i])
				k.rho[i], k.touch, lowered = k.now[i], theta, true
			}
		}
	}
}

// lower takes C down to the greatest below it whose profile at θ has no more than
// the given radius. From 0 the radius grows with C to one peak: from a C on which
// it is too large there is one crossing below.
func (k *cutter) lower(theta, radius float64) {
	k.c, _ = numeric.Root(0, k.c, 1e-13*k.c, func(c float64) float64 { return k.profile(c, theta) - radius })
}

// touchUp looks between the places for where the profile comes nearest to the
// cone, and fits it there too.
func (k *cutter) touchUp() {
	if math.IsNaN(k.touch) {
		return
	}
	n := k.w.drive.Cone.Turns
	over := func(theta float64) float64 { return k.profile(k.c, theta) / k.cone(theta) }
	theta := numeric.Minimum(math.Max(k.touch-k.step, 0), math.Min(k.touch+k.step, n), 1e-7, func(theta float64) float64 { return -over(theta) })
	if over(theta) > 1 {
		k.lower(theta, k.cone(theta))
		k.touch = theta
	}
}

// kept is the volume (m³) of the largest even profile for a set-up inside the cone,
// looked at coarsely; one too thin to be cut keeps less the thinner it is.
func (w *Wound) kept(setUp, spare float64) float64 {
	k := newCutter(w, setUp, spare)
	k.fit()
	least := math.Max(leastRadius, w.drive.Line.Thickness)
	thinnest := floats.Min(k.rho) - w.half
	if thinnest < least {
		return thinnest - least
	}
	square := k.rho // the radii are not used again
	for i, rho := range k.rho {
		square[i] = (rho - w.half) * (rho - w.half)
	}
	return math.Pi * w.drive.Cone.Pitch * integrate.Trapezoidal(k.at, square)
}
