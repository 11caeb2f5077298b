package cut_test

import (
	"context"
	"fmt"
	"math"

	"evenpull/scenarios"
	"evenpull/sim/study/cut"
)

// A new cone of 30 mm at its large end for the spring of the sample.
func ExampleRun() {
	s, err := scenarios.Load("eight-day") // or scenario.ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	o := cut.Options{FromBlank: true, Large: 0.015, Small: math.NaN(), Step: 4}
	st, err := cut.Run(context.Background(), s, 0, o)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range st.Rows {
		fmt.Printf("turn %2.0f: %.1f mm over the groove bottom, %.2f N·m\n", r.FuseeTurn, 1000*r.Diameter, r.Torque)
	}
	// Output:
	// turn  0: 13.1 mm over the groove bottom, 0.43 N·m
	// turn  4: 14.6 mm over the groove bottom, 0.43 N·m
	// turn  8: 16.5 mm over the groove bottom, 0.43 N·m
	// turn 12: 19.4 mm over the groove bottom, 0.43 N·m
	// turn 16: 30.0 mm over the groove bottom, 0.43 N·m
}
