package drawing

import (
	"image/color"
	"math"
	"slices"

	"evenpull/sim/show/words"
)

// lap is how far sheets of one drawing overlap, mm.
const lap = 12.0

// tiles is a view that goes over several sheets: so many columns and rows of windows into
// it, each as large as the room on a sheet.
type tiles struct {
	columns, rows int
	room          box
	first         int // number of the sheet at the upper left
}

func tilesOf(wide, high float64, room box) tiles {
	count := func(long, part float64) int { return max(int(math.Ceil((long-lap)/(part-lap)-1e-9)), 1) }
	return tiles{count(wide, room.wide), count(high, room.high), room, 0}
}

// sheet is the number of the sheet with a window, 0 where there is none.
func (t *tiles) sheet(column, row int) int {
	if column < 0 || column >= t.columns || row < 0 || row >= t.rows {
		return 0
	}
	return t.first + row*t.columns + column
}

// corner is the lower left of a window in the view; rows go down from its top.
func (t *tiles) corner(column, row int, high float64) spot {
	return spot{float64(column) * (t.room.wide - lap), high - t.room.high - float64(row)*(t.room.high-lap)}
}

// part draws a window of the view, with the crosses that it shares with its neighbours.
func (t *tiles) part(s *sheet, d *coneDrawing, column, row int) {
	wide, high := d.viewSize()
	corner := t.corner(column, row, high)
	view := box{t.room.left - corner.x, t.room.low - corner.y, wide, high}
	(&sheet{s.on, s.scale, &t.room}).view(view, d)
	s.blind(t.room, d.paper)
	s.frame(t.room)
	for i, at := range t.crosses(high) {
		x, y := view.left+at.x, view.low+at.y
		if cross := (spot{x, y}); t.room.has(cross) {
			s.cross(cross, letters(i))
		}
	}
	s.words(spot{t.room.left, t.room.low - 4}, 1, normal, words.Joins(t.sheet(column-1, row), t.sheet(column+1, row), t.sheet(column, row-1), t.sheet(column, row+1)))
}

// crosses are the places, in the view, of the registration marks: two in the middle of each
// lap of two sheets.
func (t *tiles) crosses(high float64) (list []spot) {
	for row := range t.rows {
		for column := range t.columns {
			at := t.corner(column, row, high)
			if column+1 < t.columns {
				x := at.x + t.room.wide - lap/2
				list = append(list, spot{x, at.y + 2*lap}, spot{x, at.y + t.room.high - 2*lap})
			}
			if row+1 < t.rows {
				y := at.y + lap/2
				list = append(list, spot{at.x + 2*lap, y}, spot{at.x + t.room.wide - 2*lap, y})
			}
		}
	}
	return list
}

// letters name the crosses: A to Z, then AA and so on.
func letters(i int) string {
	name := []byte{}
	for i++; i > 0; i = (i - 1) / 26 {
		name = append(name, 'A'+byte((i-1)%26))
	}
	slices.Reverse(name)
	return string(name)
}

func (s *sheet) cross(at spot, name string) {
	const arm = 4.0
	s.exact(thin, spot{at.x - arm, at.y}, spot{at.x + arm, at.y})
	s.exact(thin, spot{at.x, at.y - arm}, spot{at.x, at.y + arm})
	s.circle(at, arm/2, nil, thin)
	s.fill(color.White, []spot{{at.x + 2.4, at.y + 1.2}, {at.x + 3 + 2*float64(len(name)), at.y + 1.2}, {at.x + 3 + 2*float64(len(name)), at.y + 4}, {at.x + 2.4, at.y + 4}})
	s.words(spot{at.x + 2.6, at.y + 2.6}, 1, tiny, name)
}

// blind whitens all of a sheet beyond a box, and a little over its edges.
func (s *sheet) blind(in box, p Paper) {
	wide, high := p.width+2, p.height+2
	for _, b := range []box{
		{-1, -1, wide, in.low + 1}, {-1, in.top(), wide, p.height - in.top() + 1},
		{-1, -1, in.left + 1, high}, {in.right(), -1, p.width - in.right() + 1, high},
	} {
		s.fill(color.White, []spot{{b.left, b.low}, {b.right(), b.low}, {b.right(), b.top()}, {b.left, b.top()}})
	}
}

func (s *sheet) frame(in box) {
	s.line(thin, spot{in.left, in.low}, spot{in.right(), in.low}, spot{in.right(), in.top()}, spot{in.left, in.top()}, spot{in.left, in.low})
}
