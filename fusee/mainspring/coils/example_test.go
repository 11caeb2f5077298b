package coils_test

import (
	"context"
	"fmt"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/mainspring/coils"
)

// A strip wound up and run down, and what friction leaves of its couple on the way.
func ExampleBarrel_Loop() {
	curve, err := mainspring.New(
		mainspring.Strip{Width: 0.030, Thickness: 0.0005, Length: 1.5, Modulus: 206e9, Form: mainspring.Set, Yield: 1600e6, Poisson: 0.3},
		mainspring.Housing{Arbor: 0.009, Inside: 0.025},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	barrel, err := coils.NewBarrel(coils.Of(&curve, mainspring.Braced, 0.1), curve.Angle(0), 24)
	if err != nil {
		fmt.Println(err)
		return
	}
	rest, solid, err := barrel.Ends(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	loop, err := barrel.Loop(context.Background(), rest, solid, []float64{5}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range loop.Windings {
		fmt.Printf("%.0f turns: %.2f N·m wound, %.2f running down, %.2f by the closed form\n", w.Up.Turns, w.Up.Couple, w.Down.Couple, curve.Couple(5))
	}
	fmt.Printf("of %.1f turns\n", solid-rest)
	// Output:
	// 5 turns: 2.66 N·m wound, 2.61 running down, 2.62 by the closed form
	// of 6.7 turns
}
