package main

import (
	"fmt"
	"io"
	"strings"
	"time"
)

// progress tells on a terminal how far a long work is and how long the rest may take,
// and nothing elsewhere. It gives the function that is told what is done, one call at a
// time, and the one that takes the line away.
func progress(w io.Writer, total int, what string) (moved func(done int), finished func()) {
	if !isTerminal(w) {
		return nil, func() {}
	}
	m := meter{w: w, total: total, what: what, now: time.Now}
	m.begun = m.now()
	return m.moved, func() { m.write("") }
}

// seeking tells on a terminal how far the shapes are: first that rest and solid are sought,
// which tell how many there will be. It gives the functions of progress.
func seeking(s streams) (told func(done, of int), finished func()) {
	if !isTerminal(s.err) {
		return nil, func() {}
	}
	m := meter{w: s.err, what: "shapes", now: time.Now}
	m.write("seeking where the strip rests and where it is solid")
	return m.found, func() { m.write("") }
}

// meter is a line that is written over itself.
type meter struct {
	w           io.Writer
	total       int
	what        string
	now         func() time.Time
	begun, last time.Time
	width       int // of what stands there
}

// moved tells how much is done, ten times a second at most.
func (m *meter) moved(done int) {
	now := m.now()
	if done < 1 || now.Sub(m.last) < 100*time.Millisecond {
		return
	}
	m.last = now
	left := now.Sub(m.begun) / time.Duration(done) * time.Duration(m.total-done)
	m.write(fmt.Sprintf("%d of %d %s (%d %%), %v left", done, m.total, m.what, 100*done/m.total, left.Round(time.Second)))
}

// found tells how much is done of what is known only once some is: time is reckoned from there.
func (m *meter) found(done, of int) {
	if m.total == 0 {
		m.total, m.begun = of, m.now()
		m.last = m.begun
	}
	m.moved(done)
}

// write puts a text in place of what stands there. The line is no part of the result:
// what goes wrong with it is let go.
func (m *meter) write(text string) {
	if blank := m.width - len(text); blank > 0 {
		fmt.Fprint(m.w, "\r", text, strings.Repeat(" ", blank))
	}
	fmt.Fprint(m.w, "\r", text)
	m.width = len(text)
}
