package mainspring_test

import (
	"fmt"

	"evenpull/fusee/mainspring"
)

// A strip of 32 × 0.38 mm that set when it was first wound home.
func ExampleNew() {
	strip := mainspring.Strip{Width: 0.032, Thickness: 0.38e-3, Length: 1.65,
		Modulus: 206e9, Poisson: 0.29, Form: mainspring.Set, Yield: 1.62e9, Packing: 1.065}
	c, err := mainspring.New(strip, mainspring.Housing{Arbor: 0.0075, Inside: 0.0225})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f turns, %.0f J when wound\n", c.Turns(), c.Energy(c.Turns()))
	for _, turns := range []float64{1, 4, 8} {
		fmt.Printf("%v turns: %.2f N·m\n", turns, c.Couple(turns))
	}
	// Output:
	// 8.6 turns, 69 J when wound
	// 1 turns: 0.71 N·m
	// 4 turns: 1.30 N·m
	// 8 turns: 1.81 N·m
}
