// Package chart draws quantities: the pictures of a run and of each study, as SVG, PNG or PDF.
//
// A function such as Sweep takes a Look and a study and gives Files, each of which writes one
// file to an io.Writer; Usual makes it a picture of one page in the usual look. Axes are in the
// units of package outcome, with the quantity in words, its symbol and its unit.
//
// Every picture is a value: a stack of panels, each of them layers over two axes (panel.go),
// and one hand lays them out for the width of the page (frame.go) and draws them (draw.go); a
// file a study declares what its panels are. An axis is made in axis.go, and what a line or a
// mark looks like, and means, stands in marks.go. Lines differ in dash and bands in lightness
// or hatching and by a name, so that a chart reads without colour.
package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// stack draws panels one below the other: on one page as high as they are, or on as many of a
// size as they take, where those that go with a panel that has a sentence or a name stay on
// its page if they can.
func stack(look Look, panels ...*panel) (Files, error) {
	l := look.layout()
	pages := l.pages(l.frames(panels))
	high := l.Height
	if high == 0 {
		high = 2 * l.margin
		for _, f := range pages[0] {
			high += f.tall()
		}
	}
	fills := make([]func(draw.Canvas), len(pages))
	for i, page := range pages {
		fills[i] = func(on draw.Canvas) {
			on.SetColor(paper)
			on.Fill(on.Path())
			top := high - l.margin
			for _, f := range page {
				f.draw(draw.Crop(on, l.margin, -l.margin, top-f.tall(), top-high))
				top -= f.tall()
			}
		}
	}
	return look.Files(l.width, high, fills...), nil
}

// pages deals frames to pages.
func (l *layout) pages(all []*frame) (pages [][]*frame) {
	if l.Height == 0 {
		return [][]*frame{all}
	}
	room := l.Height - 2*l.margin
	left := vg.Length(-1)
	for i, f := range all {
		f.fit(room)
		together := f.tall()
		if len(f.titles) > 0 { // with those that follow it, where a page has room for them all
			for _, next := range all[i+1:] {
				if len(next.titles) > 0 || together+next.tall() > room {
					break
				}
				together += next.tall()
			}
		}
		if together > left {
			pages, left = append(pages, nil), room
		}
		pages[len(pages)-1] = append(pages[len(pages)-1], f)
		left -= f.tall()
	}
	return pages
}
