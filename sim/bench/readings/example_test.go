package readings_test

import (
	"context"
	"fmt"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
)

// Torques were read at the winding square. Which thickness explains them?
func ExampleExplain() {
	s, err := scenarios.Load("three-trains") // or scenario.ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	text, _ := scenarios.BenchText("mixed-barrels")
	b, err := book.Read(strings.NewReader(text), "mixed-barrels", nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	st := readings.Of(b, s)
	e, err := readings.Explain(context.Background(), st.Springs[0], s, []string{"going.mainspring.thickness_mm"})
	if err != nil {
		fmt.Println(err)
		return
	}
	h := e.Inputs[0]
	fmt.Printf("%s: %.2f mm in the scenario,\n", h.Words, h.Before)
	fmt.Printf("%.3f ± %.3f mm by the readings of spring %s\n", h.Value, h.Interval.Length()/2, e.Spring)
	// Output:
	// thickness of the going mainspring: 0.38 mm in the scenario,
	// 0.417 ± 0.002 mm by the readings of spring A
}
