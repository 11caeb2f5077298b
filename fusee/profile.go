package fusee

import (
	"errors"
	"math"

	"evenpull/fusee/numeric"
)

// Profile is the radius of the groove bottoms against the turns paid out, as a
// cubic on each of its intervals. The zero Profile is empty.
type Profile struct {
	turns  float64
	per    float64 // intervals a turn; 0 where they are not of one width
	gap    int     // intervals between two radii that were given; 0: one
	pieces []piece
}

// Given are the turns at which the radii were given, rising: between them they are joined.
func (p *Profile) Given() (turns []float64) {
	for i := 0; i < len(p.pieces); i += max(p.gap, 1) {
		turns = append(turns, p.pieces[i].at)
	}
	return append(turns, p.turns)
}

// piece is one interval: where it starts, r + dr x + c2 x² + c3 x³ from there, and the
// integral of the radius from θ = 0 to there.
type piece struct{ at, r, dr, c2, c3, area float64 }

// knot is a radius and its slope.
type knot struct{ r, dr float64 }

// Most is the number of measured radii up to which a profile is made without garbage but
// for itself: a cone that varies is made anew in every run.
const Most = 40

// ErrProfile tells that a profile has no two positive, finite radii.
var ErrProfile = errors.New("a profile needs at least two radii, all positive and finite")

// Measured is the profile through radii (m) at each whole turn, small end
// first, joined by the monotone cubic of F. N. Fritsch and J. Butland (SIAM J. Sci.
// Stat. Comput. 5, 1984), so that it has no bumps that were not measured.
func Measured(radii []float64) (Profile, error) { return (*Room)(nil).Measured(radii) }

// Measured is the function of that name in the room.
func (r *Room) Measured(radii []float64) (Profile, error) {
	at := make([]float64, 0, Most)
	for i := range radii {
		at = append(at, float64(i))
	}
	knots, err := monotone(at, radii, make([]knot, 0, Most))
	if err != nil {
		return Profile{}, err
	}
	p := r.join(at, knots)
	p.per = 1
	return p, nil
}

// monotone adds to a list the knots of the monotone cubic through radii at rising turns.
// Their slopes are those of gonum's interp, which takes several times as long for what it
// keeps beside them.
func monotone(at, radii []float64, knots []knot) ([]knot, error) {
	if len(radii) < 2 {
		return nil, ErrProfile
	}
	for _, r := range radii {
		if !(r > 0) || math.IsInf(r, 1) {
			return nil, ErrProfile
		}
	}
	last := len(radii) - 1
	chord := func(i int) float64 { return (radii[i+1] - radii[i]) / (at[i+1] - at[i]) }
	for i, r := range radii {
		knots = append(knots, knot{r: r})
		switch {
		case last == 1:
			knots[i].dr = chord(0)
		case i == 0:
			knots[i].dr = endSlope(at[1]-at[0], chord(0), at[2]-at[1], chord(1))
		case i == last:
			knots[i].dr = endSlope(at[i]-at[i-1], chord(i-1), at[i-1]-at[i-2], chord(i-2))
		default:
			if a, b := chord(i-1), chord(i); a*b > 0 {
				w, next := at[i]-at[i-1], at[i+1]-at[i]
				knots[i].dr = 3 * (w + next) / ((2*next+w)/a + (next+2*w)/b)
			}
		}
	}
	return knots, nil
}

// endSlope is the slope at an end, from the widths of the two gaps next to it and the
// slopes of the chords over them.
func endSlope(width, chord, next, nextChord float64) float64 {
	g := ((2*width+next)*chord - width*nextChord) / (width + next)
	switch {
	case g*chord <= 0:
		return 0
	case chord*nextChord <= 0 && math.Abs(g) > 3*math.Abs(chord):
		return 3 * chord
	}
	return g
}

// Straight is the profile of a straight cone from the small to the large
// radius (m) in the given turns.
func Straight(small, large, turns float64) (Profile, error) {
	if !(small > 0 && large > 0 && turns > 0) || math.IsInf(small+large+turns, 1) {
		return Profile{}, ErrProfile
	}
	slope := (large - small) / turns
	return newProfile(turns, []knot{{r: small, dr: slope}, {r: large, dr: slope}}), nil
}

// newProfile joins knots that stand the same width apart.
func newProfile(width float64, knots []knot) Profile {
	at := make([]float64, len(knots))
	for i := range at {
		at[i] = float64(i) * width
	}
	p := newPieces(at, knots)
	p.per = 1 / width
	return p
}

// newPieces joins knots at rising turns from 0.
func newPieces(at []float64, knots []knot) Profile { return (*Room)(nil).join(at, knots) }

// join is newPieces in the room.
func (r *Room) join(at []float64, knots []knot) Profile {
	pieces := r.take(len(knots) - 1)
	area := 0.0
	for i := range pieces {
		a, b := knots[i], knots[i+1]
		width := at[i+1] - at[i]
		d := (b.r - a.r) / width
		pieces[i] = piece{
			at: at[i], r: a.r, dr: a.dr, area: area,
			c2: (3*d - 2*a.dr - b.dr) / width,
			c3: (a.dr + b.dr - 2*d) / (width * width),
		}
		area += width*(a.r+b.r)/2 + width*width*(a.dr-b.dr)/12
	}
	return Profile{turns: at[len(pieces)], pieces: pieces}
}

// Turns is the length of the profile in fusee turns.
func (p *Profile) Turns() float64 { return p.turns }

// At gives radius (m), slope (m a turn) and the integral of the radius from
// θ = 0 (m·turn). Beyond its ends the profile stays at their values; an empty one
// is 0 everywhere.
func (p *Profile) At(theta float64) (r, dr, area float64) {
	i := int(theta * p.per)
	if p.per == 0 {
		i = p.find(theta)
	}
	if i >= len(p.pieces) {
		i = len(p.pieces) - 1
	}
	if i < 0 { // NaN comes here too
		if len(p.pieces) == 0 {
			return 0, 0, 0
		}
		i = 0
	}
	q := &p.pieces[i]
	x := theta - q.at
	if x < 0 {
		x = 0
	} else if theta > p.turns {
		x = p.turns - q.at
	}
	r = q.r + x*(q.dr+x*(q.c2+x*q.c3))
	dr = q.dr + x*(2*q.c2+x*3*q.c3)
	area = q.area + x*(q.r+x*(q.dr/2+x*(q.c2*(1.0/3)+x*q.c3/4)))
	return r, dr, area
}

// find is the piece that θ is in, of pieces that are not of one width.
func (p *Profile) find(theta float64) int {
	lo, hi := 0, len(p.pieces)
	for lo+1 < hi {
		if mid := (lo + hi) / 2; theta < p.pieces[mid].at {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

// over is ∫f dθ by a rule on each piece.
func (p *Profile) over(rule numeric.Gauss, f func(theta float64) float64) float64 {
	sum := 0.0
	for i := range p.pieces {
		sum += rule.Over(p.pieces[i].at, p.end(i), f)
	}
	return sum
}

// end is where a piece ends, and the one after it starts.
func (p *Profile) end(piece int) float64 {
	if piece+1 < len(p.pieces) {
		return p.pieces[piece+1].at
	}
	return p.turns
}
