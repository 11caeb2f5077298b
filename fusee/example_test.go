package fusee_test

import (
	"fmt"

	"evenpull/fusee"
	"evenpull/fusee/mainspring"
)

// The cone that makes the pull even, and what it comes to with a thicker spring.
func ExampleDrive_Wind() {
	d := fusee.Drive{
		Spring: mainspring.Strip{Width: 0.032, Thickness: 0.38e-3, Length: 1.65,
			Modulus: 206e9, Poisson: 0.29, Form: mainspring.Set, Yield: 1.62e9, Packing: 1.065},
		Housing:    mainspring.Housing{Arbor: 0.0075, Inside: 0.0225},
		Efficiency: 0.9,
		Barrel:     fusee.Barrel{Radius: 0.0245, Length: 0.039, Height: 0.0332, SetUp: 1.25},
		Line:       fusee.Line{Thickness: 1.6e-3, Width: 1.6e-3, Efficiency: 0.95},
		Cone:       fusee.Cone{Turns: 16, Shape: fusee.EvenByLarge, End: 0.0146, Pitch: 2.2e-3},
	}
	even, err := d.Wind()
	if err != nil {
		fmt.Println(err)
		return
	}
	d.Cone = even.CutCone() // it is cut, and stays
	d.Spring.Thickness = 0.40e-3
	other, err := d.Wind()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, theta := range []float64{0, 8, 16} {
		fmt.Printf("turn %2.0f: %.3f N·m, then %.3f N·m\n", theta, even.At(theta).Torque, other.At(theta).Torque)
	}
	// Output:
	// turn  0: 0.418 N·m, then 0.479 N·m
	// turn  8: 0.418 N·m, then 0.478 N·m
	// turn 16: 0.418 N·m, then 0.472 N·m
}
