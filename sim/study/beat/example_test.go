package beat_test

import (
	"context"
	"fmt"

	"evenpull/escapement"
	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/study/beat"
)

// The pendulum of the sample beat by beat, on the first day, beside what the
// averages of a run-down say.
func ExampleFollow() {
	s, err := scenarios.Load("eight-day") // or scenario.ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	trains, err := sim.Compile(s, "going")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := beat.Follow(context.Background(), &trains[0], beat.Options{FuseeTurn: 2, Periods: 5000, Start: escapement.SemiDegrees(5)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("it %v, at %.2f° to a side; in the average %.2f°\n", r.Settled.Status, r.Settled.Amplitude.Degrees(), r.Averaged.Amplitude.Degrees())
	// Output: it runs, at 3.25° to a side; in the average 3.26°
}
