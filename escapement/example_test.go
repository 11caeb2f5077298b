package escapement_test

import (
	"fmt"

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

// portrait prints a few points of each leg, as a plot of the speed over the
// angle would take them.
type portrait struct{}

func (portrait) Leg(l escapement.Leg) {
	for i := range 3 {
		x, v := l.At(l.Seconds * float64(i) / 3)
		fmt.Printf("(%.4f, %.3f) ", x, v)
	}
	if l.Drop {
		fmt.Print("drop ")
	}
}

func (portrait) Beat(b escapement.Beat) {
	fmt.Printf("→ %.3f° in %.4f s\n", b.Arc.Degrees(), b.Seconds)
}

func ExampleBeats_Watch() {
	c := invented()
	b, err := c.Beats(1.5*c.LeastTorque(), escapement.SemiDegrees(4))
	if err != nil {
		fmt.Println(err)
	}
	b.Watch(portrait{})
	b.Step()
	b.Step()
	// Output:
	// (-0.0698, 0.000) (-0.0511, 0.334) (-0.0051, 0.489) drop (0.0436, 0.383) (0.0577, 0.275) (0.0666, 0.144) → 3.992° in 0.4467 s
	// (0.0697, -0.000) (0.0510, -0.333) (0.0050, -0.488) drop (-0.0436, -0.382) (-0.0576, -0.275) (-0.0665, -0.143) → 3.984° in 0.4467 s
}
