package sim_test

import (
	"fmt"

	"evenpull/scenarios"
	"evenpull/sim"
)

// A sample with a thicker spring.
func Example() {
	s, err := scenarios.Load("eight-day")
	if err != nil {
		panic(err)
	}
	if err := s.SetNumber("going.mainspring.thickness_mm", 0.40); err != nil {
		panic(err)
	}
	clock, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		panic(err)
	}
	going := &clock.Trains[0]
	fmt.Printf("it %v: mean %.3f N·m at the fusee, unevenness %.1f %%\n", going.Verdict.Code, going.Torque.Mean, 100*going.Torque.Unevenness)
	// Output: it suits: mean 0.483 N·m at the fusee, unevenness 3.4 %
}

// All that a run-down depends on is a field of the compiled train: a what-if is a
// copy with a field changed. What follows from the field follows.
func ExampleTrain_Run() {
	s, err := scenarios.Load("eight-day")
	if err != nil {
		panic(err)
	}
	trains, err := sim.Compile(s, "going")
	if err != nil {
		panic(err)
	}
	short := trains[0]
	short.Pendulum.Length /= 4 // which beats twice as fast
	a, err := trains[0].Run(sim.Options{})
	if err != nil {
		panic(err)
	}
	b, err := short.Run(sim.Options{})
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.0f h, and %.0f h\n", a.Runtime, b.Runtime)
	// Output: 192 h, and 96 h
}
