package drawing

import (
	"cmp"
	"image/color"
	"io"
	"math"
	"slices"
	"time"

	strip "evenpull/fusee/mainspring/coils"

	"evenpull/sim/show/canvas"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	mostPoses  = 24 // each way, in a film
	filmWidth  = 130 * vg.Millimeter
	frameTime  = 300 * time.Millisecond
	turnsRound = 4 // as long as other frames are those shown at which it turns round
	smallCell  = 23.0
	barThick   = 4.0 // mm
)

// Animation draws the barrel while its mainspring is wound up and runs down: as SVG one that
// moves, in other formats as a sheet of its frames.
func Animation(look chart.Look, r *coils.Result) (chart.Files, error) {
	if look.Format != "svg" {
		return filmSheet(look, r)
	}
	f := coilFilm{Result: r, wide: float64(cmp.Or(look.Width, filmWidth) / vg.Millimeter)}
	f.measure(look.Bare)
	return chart.Files{func(w io.Writer) error {
		return look.Film(w, length(f.wide), length(f.high), f.film(poses(r, mostPoses)))
	}}, nil
}

// poses are strips on the way up and down, up to so many each way.
func poses(r *coils.Result, most int) []posed {
	var list []posed
	for _, w := range thinned(r.Loop.Windings, most) {
		list = append(list, posed{w.Up, true})
	}
	for _, w := range slices.Backward(thinned(r.Loop.Windings, most)) {
		list = append(list, posed{w.Down, false})
	}
	return list
}

// thinned are so many of a list at most, evenly, the first and the last among them.
func thinned(list []strip.Winding, most int) []strip.Winding {
	n := min(most, len(list))
	if n == 1 {
		return list[len(list)-1:]
	}
	some := make([]strip.Winding, n)
	for i := range some {
		some[i] = list[(i*(len(list)-1)+(n-1)/2)/(n-1)]
	}
	return some
}

// filmSheet draws the frames beside one another, those running down on rows of their own.
func filmSheet(look chart.Look, r *coils.Result) (chart.Files, error) {
	const abreast = 6
	c := newCoilSheet(look, r, smallCell, abreast, nil)
	list := poses(r, 3*c.columns)
	up := list[:len(list)/2]
	c.shown = slices.Concat(up, make([]posed, (c.columns-len(up)%c.columns)%c.columns), list[len(up):])
	return c.files(look)
}

// coilFilm is a film of a barrel.
type coilFilm struct {
	*coils.Result
	wide, high float64 // mm
	head       paragraphs
	barrel     float64 // mm, the room for it
	at         spot    // its middle
	bar        box     // of the couple
	most       float64 // N·m, that it holds
}

func (f *coilFilm) measure(bare bool) {
	inner := f.wide - 2*coilsEdge
	f.head = coilHead(f.Result, inner, bare)
	f.head.add(inner, normal, words.CoilsMoves)
	f.barrel = math.Min(inner, 200)
	f.high = 2*coilsEdge + f.head.height() + 3 + f.barrel + 6 + tall(large) + barThick + 2*tall(normal) + footHigh(keyRows(inner))
	f.at = spot{f.wide / 2, f.high - coilsEdge - f.head.height() - 3 - f.barrel/2}
	f.bar = box{coilsEdge, f.at.y - f.barrel/2 - 5 - tall(large) - barThick, inner, barThick}
	for _, w := range f.Loop.Windings {
		f.most = math.Max(f.most, math.Max(w.Up.Couple, w.Down.Couple))
	}
}

func (f *coilFilm) film(list []posed) canvas.Film {
	m := canvas.Film{Each: frameTime, Rest: len(list)/2 - 1}
	m.Ground = func(on draw.Canvas) { f.ground(f.sheet(on)) }
	for i, p := range list {
		frame := canvas.Frame{Draw: func(on draw.Canvas) { f.frame(f.sheet(on), p) }}
		if i == m.Rest || i == len(list)-1 {
			frame.For = turnsRound
		}
		m.Frames = append(m.Frames, frame)
	}
	return m
}

func (f *coilFilm) sheet(on draw.Canvas) *sheet {
	return &sheet{on: on, scale: scaleOf(f.Result, f.barrel)}
}

// ground draws what does not move.
func (f *coilFilm) ground(s *sheet) {
	s.fill(color.White, []spot{{0, 0}, {f.wide, 0}, {f.wide, f.high}, {0, f.high}})
	s.paragraphs(spot{coilsEdge, f.high - coilsEdge}, f.head)
	(&coilDrawing{f.Result, f.at}).house(s)
	b := f.bar
	s.line(thin, spot{b.left, b.low}, spot{b.right(), b.low}, spot{b.right(), b.top()}, spot{b.left, b.top()}, spot{b.left, b.low})
	s.words(spot{b.left, b.low - tall(normal)*0.6}, 1, normal, "0")
	s.words(spot{b.centre(), b.low - tall(normal)*0.6}, 0, normal, words.CoilsGives)
	s.words(spot{b.right(), b.low - tall(normal)*0.6}, -1, normal, words.Two(f.most)+" N·m")
	top := b.low - 1.5*tall(normal)
	s.pressureKey(spot{coilsEdge, top}, b.wide, f.Spring.Thickness)
	s.lengthBar(spot{coilsEdge, top - footHigh(keyRows(b.wide)) + 2.5}, f.Housing.Inside)
}

// frame draws what does.
func (f *coilFilm) frame(s *sheet, p posed) {
	(&coilDrawing{f.Result, f.at}).spring(s, p.Shape)
	b := f.bar
	right := b.left + b.wide*math.Max(p.Couple, 0)/f.most
	s.fill(grey, []spot{{b.left, b.low}, {right, b.low}, {right, b.top()}, {b.left, b.top()}})
	y := b.top() + 0.6*tall(large)
	s.words(spot{b.left, y}, 1, large, words.CoilsGoing(p.Shape, p.winding))
	s.words(spot{b.right(), y}, -1, large, words.CoilsCouple(p.Shape))
}
