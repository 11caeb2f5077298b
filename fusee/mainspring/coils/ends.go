package coils

import (
	"cmp"
	"context"
	"math"

	"evenpull/fusee/numeric"
)

// Home is how many times the couple of the innermost coil bent to the arbor a strip gives
// when it counts as solid. There its couple rises tenfold within a twentieth of a turn.
const Home = 1.5

// Ends are the turns at which the strip, without friction, gives no couple, and those at which
// its coils are home: good to 1e-3 of a turn. A strip that presses on the wall also when it is
// let down has no rest: then it is the least at which a shape is found. It fails as Free does, or
// with the error of ctx.
func (b *Barrel) Ends(ctx context.Context) (rest, solid float64, err error) {
	if rest, err = b.rest(ctx); err != nil {
		return math.NaN(), math.NaN(), err
	}
	home := 1/b.strip.inner - b.strip.natural(0).curvature
	limit := Home * home * b.spring.Stiffness / b.spring.Inside
	least, most := b.packed(0), b.packed(b.strip.h)
	near, err := b.Free(least, nil)
	for ; err == nil && near.Couple > limit; near, err = b.Free(least, near) {
		least -= 0.25
	}
	if err = cmp.Or(err, ctx.Err()); err != nil {
		return math.NaN(), math.NaN(), err
	}
	_, solid = numeric.Root(least, most, 1e-3, func(turns float64) float64 {
		switch {
		case ctx.Err() != nil:
			return 0
		case turns == most: // which is more than there is room for
			return 1
		}
		s, err := b.free(turns, near, false)
		if err != nil { // no room left
			return 1
		}
		near = s
		return 1 - limit/s.Couple
	})
	if _, err = b.Free(near.Turns, near); err != nil {
		return math.NaN(), math.NaN(), err
	}
	return rest, solid, ctx.Err()
}

// rest goes down from where there is a couple until there is none, or energy rises against it:
// a strip jammed further back gives a couple again, but no way leads there.
func (b *Barrel) rest(ctx context.Context) (float64, error) {
	by := 0.15
	above, err := b.Free(by, nil)
	for at := 2 * by; err == nil && above.Couple <= 0 && at < 3; at += by {
		above, err = b.Free(at, above)
	}
	if err != nil {
		return math.NaN(), err
	}
	for range 40 {
		if ctx.Err() != nil {
			return math.NaN(), ctx.Err()
		}
		below, failed := b.Free(above.Turns-by, above)
		switch {
		case failed == nil && below.Couple > 0 && below.Energy < above.Energy:
			above = below
			continue
		case failed != nil || below.Couple > 0: // packed on the wall, or past rest
			if by /= 2; by < 0.01 {
				return above.Turns, nil
			}
			continue
		}
		_, rest := numeric.Root(below.Turns, above.Turns, 1e-3, func(turns float64) float64 {
			switch turns {
			case below.Turns:
				return below.Couple
			case above.Turns:
				return above.Couple
			}
			s, failed := b.free(turns, above, false)
			if failed != nil {
				err = failed
				return 0
			}
			return s.Couple
		})
		return rest, err
	}
	return above.Turns, nil
}

// packed is the turns of a strip with its coils packed on the arbor and a straight line from
// them to the hook: each coil, over its turn, less by a step than a spiral. A spiral of the
// whole strip takes up more room than can be had, one with all of the step less than is needed.
func (b *Barrel) packed(step float64) float64 {
	s := &b.strip
	rise := s.h / (2 * math.Pi)
	inner := s.inner - step/2
	line := func(angle float64) (long, turned float64) { // leaving along its tangent
		r := inner + rise*angle
		lean := math.Atan(rise / r)
		foot := r * math.Cos(lean)
		return math.Sqrt(max(s.outer*s.outer-foot*foot, 0)) - r*math.Sin(lean), math.Acos(min(foot/s.outer, 1)) - lean
	}
	most := (s.outer - inner) / rise
	_, angle := numeric.Root(0, most, 1e-12*most, func(angle float64) float64 {
		long, _ := line(angle)
		return archimedean(inner, rise, angle) + long - s.length
	})
	_, turned := line(angle)
	return (angle + turned - b.origin) / (2 * math.Pi)
}

// archimedean is the length of r = inner + rise φ up to an angle.
func archimedean(inner, rise, angle float64) float64 {
	upTo := func(u float64) float64 { return rise / 2 * (u*math.Sqrt(1+u*u) + math.Asinh(u)) }
	return upTo(inner/rise+angle) - upTo(inner/rise)
}
