package scenario_test

import (
	"fmt"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/scenario"
)

// A sample is loaded, one of its quantities changed and the whole checked.
func Example() {
	s, err := scenarios.Load("eight-day")
	if err != nil {
		fmt.Println(err)
		return
	}
	const key = "going.mainspring.thickness_mm"
	if err := s.SetNumber(key, 0.40); err != nil {
		fmt.Println(err)
		return
	}
	if err := s.Check(); err != nil {
		fmt.Println(err)
		return
	}
	q, _ := s.Quantity(key)
	v, _ := s.Value(key)
	fmt.Printf("%s, %s: %g %s", q.Words, q.Symbol, *v, q.Unit)
	// Output: thickness of the going mainspring, h: 0.4 mm
}

func ExampleScenario_Train() {
	s, err := scenarios.Load("three-trains")
	if err != nil {
		fmt.Println(err)
		return
	}
	number, err := s.Train("striking")
	fmt.Println(number, err)
	_, err = s.Train("strking")
	fmt.Println(err)
	// Output:
	// 1 <nil>
	// the scenario has no train "strking"; did you mean striking?
}

func ExampleScenario_SetNumber() {
	s, err := scenarios.Load("eight-day")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.SetNumber("going.barrel.clicks", 12.5))
	fmt.Println(s.SetNumber("going.mainspring.thicknes_mm", 0.4))
	// Output:
	// --set going.barrel.clicks: found 12.5; want a whole number from 1 to 200
	// --set going.mainspring.thicknes_mm: unknown key; did you mean going.mainspring.thickness_mm?
}

func ExampleInput() {
	f, _ := scenario.Input("mainspring.thickness_mm")
	lo, hi := f.Usual.Around(0.40)
	fmt.Printf("the %s, read as 0.40 %s, lies between %.2f and %.2f %s", f.Words, f.Unit, lo, hi, f.Unit)
	// Output: the thickness of the mainspring, read as 0.40 mm, lies between 0.39 and 0.41 mm
}

// A scenario is read from any text; what is wrong in it is told all at once, each fault
// with its line.
func ExampleRead() {
	text, _ := scenarios.Text("eight-day")
	s, err := scenario.Read(strings.NewReader(text), "my-clock.toml") // a file: ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(s.Trains), "train:", s.Trains[0].Name)

	_, err = scenario.Read(strings.NewReader(strings.Replace(text, "turns   = 16.0", "turns   = -16.0", 1)), "my-clock.toml")
	fmt.Println(err)
	// Output:
	// 1 train: going
	// my-clock.toml:43: going.fusee.turns: found -16; want a number from 0.5 to 64 turns
}
