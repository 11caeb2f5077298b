package sweep_test

import (
	"context"
	"fmt"

	"evenpull/scenarios"
	"evenpull/sim/study/sweep"
)

// Which thickness of the mainspring suits? The points run on every core; the answer is the
// same on any number of them.
func ExampleRun() {
	s, err := scenarios.Load("eight-day") // or scenario.ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	over := sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.34, To: 0.42, Steps: 41}
	st, err := sweep.Run(context.Background(), s, 0, sweep.Options{Over: over}) // train 0
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range st.Changes {
		fmt.Printf("%v below %.3f mm, %v above\n", c.Below, c.At, c.Above)
	}
	fmt.Printf("the mean torque grows with the thickness to the power %.1f\n", st.Exponent.Value)
	// Output:
	// stops below 0.346 mm, thin above
	// thin below 0.365 mm, suits above
	// suits below 0.414 mm, strong above
	// the mean torque grows with the thickness to the power 2.6
}

// A map over two inputs.
func ExampleRun_map() {
	s, err := scenarios.Load("eight-day")
	if err != nil {
		fmt.Println(err)
		return
	}
	st, err := sweep.Run(context.Background(), s, 0, sweep.Options{
		Over:    sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.35, To: 0.41, Steps: 3},
		Against: &sweep.Axis{Key: "going.barrel.set_up_turns", From: 1, To: 2, Steps: 2},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range st.Points {
		if p.Built() {
			fmt.Printf("%.2f mm, set-up %.0f: %v\n", p.Value, p.Value2, p.Run().Verdict.Code)
		}
	}
	// Output:
	// 0.35 mm, set-up 1: stops
	// 0.38 mm, set-up 1: thin
	// 0.41 mm, set-up 1: suits
	// 0.35 mm, set-up 2: thin
	// 0.38 mm, set-up 2: suits
	// 0.41 mm, set-up 2: strong
}
