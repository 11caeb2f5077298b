package drawing

import (
	"math"
	"slices"
	"strings"
)

// Paper is a sheet of paper, lying.
type Paper struct {
	Name          string
	width, height float64 // mm
}

// Papers are those that a working drawing is made for: ISO 216, and letter of 11 by 8½
// inches.
func Papers() []Paper {
	return []Paper{{"A4", 297, 210}, {"A3", 420, 297}, {"letter", 11 * 25.4, 8.5 * 25.4}}
}

// PaperOf is the paper of a name, in letters of any case; false where there is none.
func PaperOf(name string) (Paper, bool) {
	all := Papers()
	i := slices.IndexFunc(all, func(p Paper) bool { return strings.EqualFold(p.Name, name) })
	if i < 0 {
		return Paper{}, false
	}
	return all[i], true
}

// box is a part of a sheet, mm.
type box struct{ left, low, wide, high float64 }

func (b box) right() float64  { return b.left + b.wide }
func (b box) top() float64    { return b.low + b.high }
func (b box) centre() float64 { return b.left + b.wide/2 }

// holds tells whether something of a size fits into it.
func (b box) holds(wide, high float64) bool { return wide <= b.wide && high <= b.high }

// has tells whether a spot lies in it.
func (b box) has(p spot) bool {
	return p.x >= b.left && p.x <= b.right() && p.y >= b.low && p.y <= b.top()
}

// into is how far another box has to move to lie within, a little off the edges.
func (b box) into(other box) spot {
	const off = 1.0 // mm
	move := func(from, to, low, high float64) float64 {
		return math.Max(low+off-from, 0) - math.Max(to-high+off, 0)
	}
	return spot{move(other.left, other.right(), b.left, b.right()), move(other.low, other.top(), b.low, b.top())}
}

// leftOf is what is left of the box beside so much of it.
func (b box) leftOf(wide float64) box { b.wide -= wide; return b }
