package bench

import (
	strip "evenpull/fusee/mainspring/coils"
	"evenpull/sim/study/coils"
)

// Coils is a made-up strip, of which nothing was solved, at so many windings half a turn apart
// from half a turn on: its coils leave 0.95 of the couple at the first and, from there on, less
// by a thousandth each time; the closed form is 4 % above it at the first and 1 % elsewhere, of
// which a run takes 0.9.
func Coils(windings int) *coils.Result {
	r := &coils.Result{
		Train: "going", Options: coils.Options{Friction: 0.1, Nodes: 48}, ClosedSolid: float64(windings)/2 + 1.1, Stored: 20,
		Loop: &strip.Loop{Rest: 0.1, Solid: float64(windings)/2 + 1, Area: 2, Rubbed: 2.01},
	}
	for i := range windings {
		turns, off := float64(i+1)/2, 1.01
		if i == 0 {
			off = 1.04
		}
		free, leaves := 1+turns/10, 0.95-float64(i)/1000
		at := func(couple float64) *strip.Shape {
			return &strip.Shape{Turns: turns, Couple: couple, Left: 1e-9, Angle: []float64{0, 1}, Radius: []float64{0.008, 0.01}, Along: []float64{0, 0.009}, Inner: []float64{100, 50}, Wall: []float64{0, 20}}
		}
		r.Options.Turns = append(r.Options.Turns, turns)
		r.Closed = append(r.Closed, free*off)
		r.Used = append(r.Used, 0.9*free*off)
		r.Loop.Windings = append(r.Loop.Windings, strip.Winding{Free: at(free), Up: at(free / leaves), Down: at(free * leaves)})
	}
	return r
}
