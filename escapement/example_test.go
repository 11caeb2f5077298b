package escapement_test

import (
	"fmt"
	"math"

	"evenpull/escapement"
)

// An invented bracket clock with an anchor escapement.
func invented() escapement.Clock {
	c, err := escapement.New(
		escapement.Escapement{Kind: escapement.Recoil{}, Teeth: 30, Arc: escapement.WholeDegrees(5),
			Drop: 0.15, Efficiency: 0.8, Margin: escapement.SemiDegrees(0.5)},
		escapement.Pendulum{Length: 0.2, Mass: 0.5, Gravity: 9.80665, Quality: 120})
	if err != nil {
		fmt.Println(err)
	}
	return c
}

// With half as much again as the least torque.
func ExampleClock_Going() {
	c := invented()
	g := c.Going(1.5 * c.LeastTorque())
	fmt.Printf("%v at %.2f° to a side\n", g.Status, g.Amplitude.Degrees())
	fmt.Printf("circular %.1f, escapement %.1f, damping %.1f: %.1f s a day\n",
		86400*g.Rate.Circular, 86400*g.Rate.Escapement, 86400*g.Rate.Damping, g.Rate.PerDay())
	// Output:
	// runs at 3.67° to a side
	// circular -22.2, escapement 387.7, damping -0.8: 364.8 s a day
}

// portrait prints where each leg begins and how long it lasts.
type portrait struct{}

func (portrait) Leg(l escapement.Leg) {
	fmt.Printf("from %.1f° for %.2f s, ", l.Angle*180/math.Pi, l.Seconds)
	if l.Drop {
		fmt.Print("drop, ")
	}
}

func (portrait) Beat(b escapement.Beat) {
	fmt.Printf("turns at %.2f°\n", b.Arc.Degrees())
}

// A pendulum that is let go at 4° to the left, and what becomes of its swing.
func ExampleBeats_Watch() {
	c := invented()
	b, err := c.Beats(1.5*c.LeastTorque(), escapement.SemiDegrees(4))
	if err != nil {
		fmt.Println(err)
		return
	}
	b.Watch(portrait{})
	b.Step()
	b.Step()
	b.Watch(nil)
	end := b.Settle(1000)
	fmt.Printf("it %v, at %.2f°\n", end.Status, end.Amplitude.Degrees())
	// Output:
	// from -4.0° for 0.32 s, drop, from 2.5° for 0.13 s, turns at 3.99°
	// from 4.0° for 0.32 s, drop, from -2.5° for 0.13 s, turns at 3.98°
	// it runs, at 3.67°
}
