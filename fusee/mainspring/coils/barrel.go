package coils

import (
	"fmt"
	"math"
)

// Fewest and MostNodes are the bounds of the nodes to a turn, Usual what is usual.
const (
	Fewest    = 24
	Usual     = 48
	MostNodes = 192
)

// Barrel is a spring that is wound. It is a value that nothing changes: shapes may be found
// in it from many goroutines at once.
type Barrel struct {
	spring Spring
	strip  strip
	nodes  int
	origin float64 // rad, from arbor to hook at which turns are 0
}

// NewBarrel is a spring of which turns count from origin, an angle (rad) from the inner end of
// the strip to the outer one, with so many nodes to a turn. It fails with ErrSpring or ErrFew.
func NewBarrel(s Spring, origin float64, nodes int) (*Barrel, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	if !(nodes >= Fewest && nodes <= MostNodes) {
		return nil, fmt.Errorf("%d nodes to a turn: want %d to %d", nodes, Fewest, MostNodes)
	}
	if !(origin >= 6*math.Pi && origin < 1e4) {
		return nil, ErrFew
	}
	return &Barrel{s, s.scaled(), nodes, origin}, nil
}

// Shape is how the coils lie at a winding, with the forces in them.
type Shape struct {
	Turns  float64 // wound
	Couple float64 // N·m, at the arbor
	Energy float64 // J, of bending
	Rubbed float64 // J, taken by friction since the shape before; 0 without friction
	// Of each node, from the arbor to the wall.
	Angle  []float64 // rad, from the inner end
	Radius []float64 // m, of the middle of the strip
	Along  []float64 // m, the place along the strip
	Inner  []float64 // N/m along the strip, what presses from inside: arbor or coil
	Wall   []float64 // N/m along the strip, what presses from the wall

	Left    float64 // the most that is left of any equation, over that of a strip bent to the inside radius
	Overlap float64 // m, the deepest overlap; 0 where there is none
	Steps   int     // of Newton's method

	state *state
}

// Free finds the shape without friction: from one that is near, or from nothing where near is
// nil. It fails with ErrDiverged or ErrEnergy.
func (b *Barrel) Free(turns float64, near *Shape) (*Shape, error) {
	return b.free(turns, near, true)
}

// free is Free. Between two shapes that are sure to be the least it need not be made sure of.
func (b *Barrel) free(turns float64, near *Shape, sure bool) (*Shape, error) {
	bare := b.strip
	bare.friction = 0
	p, err := b.problem(&bare, turns)
	if err != nil {
		return nil, err
	}
	var x *state
	if near != nil {
		x, err = p.least(p.carried(near.state), warm)
	}
	if near == nil || err != nil {
		x, err = p.least(p.spiral(few), start)
	}
	if err == nil && sure {
		err = p.sure(x)
	}
	return b.shape(p, x, turns, err)
}

// Slide finds the shape with friction after it lay in another: what slides, slides from there.
// Between the two should lie half a turn at most: the more, the less exact. It fails with
// ErrDiverged.
func (b *Barrel) Slide(turns float64, before *Shape) (*Shape, error) {
	if b.strip.friction == 0 {
		return b.Free(turns, before)
	}
	if turns == before.Turns { // nothing slides
		same := *before
		same.Rubbed = 0
		return &same, nil
	}
	p, err := b.problem(&b.strip, turns)
	if err != nil {
		return nil, err
	}
	way := math.Abs(p.whole() - before.state.whole())
	p.after(before.state, creep*way)
	x, err := p.stay(p.carried(before.state), warm)
	if err != nil {
		x, err = p.approach(before.state)
	}
	if err != nil {
		p.after(before.state, soft*way)
		x, err = p.approach(before.state)
	}
	return b.shape(p, x, turns, err)
}

// creep is the slide within which friction builds up, over the inside radius, of an angle
// (rad) that is wound; soft where no shape is found with that.
const creep, soft = 3e-4, 1e-2

func (b *Barrel) problem(s *strip, turns float64) (*problem, error) {
	angle := b.origin + 2*math.Pi*turns
	if !(angle >= 4*math.Pi && angle < 1e4) {
		return nil, fmt.Errorf("%w: %.6g turns", ErrFew, turns)
	}
	return newProblem(s, newGrid(b.nodes, angle)), nil
}

// shape tells of a state in SI.
func (b *Barrel) shape(p *problem, x *state, turns float64, err error) (*Shape, error) {
	if err != nil {
		return nil, fmt.Errorf("at %.4g turns: %w", turns, err)
	}
	unit, pull := b.spring.Inside, b.spring.Stiffness/b.spring.Inside
	energy := p.assemble(x)
	p.addFriction(x)
	forces, lengths, _ := p.left(x, 0)
	s := &Shape{
		Turns: turns, Couple: p.couple(x) * pull, Energy: energy * pull, Rubbed: p.rubbed(x) * pull,
		Left: max(forces, lengths), Steps: x.steps, state: x,
	}
	for i := range x.contacts {
		s.Overlap = max(s.Overlap, -unit*x.contacts[i].room(x.r))
	}
	inner, wall := x.byNode(x.press)
	for i, r := range x.r {
		s.Angle = append(s.Angle, p.angle(i))
		s.Radius = append(s.Radius, unit*r)
		s.Along = append(s.Along, unit*x.s[i])
		each := pull / unit / (unit * r * p.cell(min(i, p.last-1)))
		s.Inner, s.Wall = append(s.Inner, inner[i]*each), append(s.Wall, wall[i]*each)
	}
	return s, nil
}
