package vary_test

import (
	"context"
	"fmt"
	"math"

	"evenpull/scenarios"
	"evenpull/sim/vary"
)

// Runs of one's own choice, on every core: here other set-ups of the sample.
func ExampleModel_Each() {
	s, err := scenarios.Load("eight-day") // or scenario.ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := vary.New(s, 0, vary.Length, "going.barrel.set_up_turns") // train 0
	if err != nil {
		fmt.Println(err)
		return
	}
	turns := []float64{0.5, 1, 1.5, 2}
	uneven := make([]float64, len(turns))
	err = m.Each(context.Background(), len(turns), func(m *vary.Model, i int) {
		r, err := m.Run(turns[i : i+1])
		if err != nil {
			uneven[i] = math.NaN()
			return
		}
		uneven[i] = r.Torque.Unevenness // r holds until the next run of m
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i := range turns {
		fmt.Printf("set up by %v turns: %.0f %% uneven\n", turns[i], 100*uneven[i])
	}
	// Output:
	// set up by 0.5 turns: 41 % uneven
	// set up by 1 turns: 11 % uneven
	// set up by 1.5 turns: 6 % uneven
	// set up by 2 turns: 16 % uneven
}
