package fit

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

const (
	// differenceStep, of the typical change, balances the error of a central
	// difference, h²/6 of the third derivative, against that of the model.
	differenceStep = 1.4e-4
	wideStep       = 1e-2 // likewise of one over five points, h⁴/30 of the fifth derivative
	leastStep      = 1e-8 // of the parameter itself, that it changes at all
	stepTries      = 4    // steps, each an eighth of the one before
)

// differentiate fills the derivatives at the parameters reached.
func (s *solver) differentiate() bool {
	if s.p.Jacobian != nil {
		if err := s.p.Jacobian(s.b, s.jacobian); err != nil {
			s.blame(err)
			return false
		}
		return true
	}
	copy(s.probe, s.b)
	for k := range s.b {
		if !s.column(k) {
			return false
		}
	}
	return true
}

// column takes differences over one parameter: to both sides or, beside a bound or
// where the model cannot be evaluated, to one, of the same order.
func (s *solver) column(k int) bool {
	if s.wide && s.five(k, s.typical(k)*wideStep) {
		return true
	}
	h := max(s.typical(k)*differenceStep, math.Abs(s.b[k])*leastStep)
	h = min(h, s.hi[k]/4-s.lo[k]/4) // so that there is room for it on one side
	s.fault = nil
	for range stepTries {
		if s.central(k, h) || s.sided(k, h) || s.sided(k, -h) {
			return true
		}
		h /= 8
	}
	if s.fault == nil {
		s.blame(fmt.Errorf("parameter %d cannot be changed from %.6g within its bounds: %w", k+1, s.b[k], ErrBounds))
	}
	return false
}

func (s *solver) central(k int, h float64) bool {
	if !s.moved(k, h, s.up) || !s.moved(k, -h, s.up2) {
		return false
	}
	over := (s.b[k] + h) - (s.b[k] - h) // as rounded
	for i := range s.f {
		s.jacobian.Set(i, k, (s.up[i]-s.up2[i])/over)
	}
	return over != 0
}

// five takes the difference over five points, those about the one reached.
func (s *solver) five(k int, h float64) bool {
	for i, weight := range [2]float64{8, -1} {
		by := h * float64(i+1)
		if !s.moved(k, by, s.up) || !s.moved(k, -by, s.up2) {
			return false
		}
		for n := range s.f {
			d := weight * (s.up[n] - s.up2[n]) / (12 * h)
			if i > 0 {
				d += s.jacobian.At(n, k)
			}
			s.jacobian.Set(n, k, d)
		}
	}
	return true
}

func (s *solver) sided(k int, h float64) bool {
	if !s.moved(k, 2*h, s.up2) || !s.moved(k, h, s.up) {
		return false
	}
	h1, h2 := (s.b[k]+h)-s.b[k], (s.b[k]+2*h)-s.b[k]
	for i, f := range s.f {
		near, far := (s.up[i]-f)/h1, (s.up2[i]-f)/h2
		s.jacobian.Set(i, k, near+(near-far)*h1/(h2-h1))
	}
	return h1 != 0 && h2 != h1
}

// moved predicts with one parameter changed, if that is within its bounds.
func (s *solver) moved(k int, by float64, f []float64) bool {
	x := s.b[k] + by
	if x < s.lo[k] || x > s.hi[k] {
		return false
	}
	s.probe[k] = x
	rss := s.evaluate(s.probe, f)
	s.probe[k] = s.b[k]
	return !math.IsInf(rss, 1)
}

// linearise factorizes the model around the parameters reached, each column of
// its derivatives brought to length 1 so that no unit matters, and finds the
// bounds that the gradient presses on.
func (s *solver) linearise() bool {
	if !s.differentiate() {
		return false
	}
	for k := range s.b {
		if !s.shorten(k) {
			return false
		}
	}
	for i := range s.f {
		s.system.Set(i, len(s.b), s.residual(i, s.f))
	}
	s.qr.Factorize(s.system)
	s.qr.RTo(s.factor)
	s.press()
	return true
}

// shorten weights a column of derivatives and brings it to length 1.
func (s *solver) shorten(k int) bool {
	column := s.up
	for i, root := range s.root {
		column[i] = s.jacobian.At(i, k) * root
	}
	length := floats.Norm(column, 2)
	if !finite(length) {
		s.blame(fmt.Errorf("the derivatives by parameter %d have the length %.6g: %w", k+1, length, ErrNumber))
		return false
	}
	if length == 0 { // the parameter does nothing
		length = 1
	}
	for i, d := range column {
		s.system.Set(i, k, d/length)
	}
	s.norm[k] = length
	s.memory[k] = max(length, s.memory[k]/2)
	return true
}
