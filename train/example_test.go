package train_test

import (
	"fmt"

	"evenpull/train"
)

// Three meshes of an invented going train: what arrives at the escape wheel.
func ExampleNew() {
	t, err := train.New([]train.Mesh{
		{Wheel: 96, Pinion: 8, Efficiency: 0.93},
		{Wheel: 84, Pinion: 7, Efficiency: 0.93},
		{Wheel: 78, Pinion: 7, Efficiency: 0.93, Drag: 20e-6},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f turns for one of the fusee\n", t.Speed(t.Last()))
	fmt.Printf("%.2g N·m from 0.4 N·m\n", t.Torque(t.Last(), 0.4))
	// Output:
	// 1605 turns for one of the fusee
	// 0.00018 N·m from 0.4 N·m
}

// An invented hour strike: how it goes, and what it would take to slow it.
func ExampleStrike() {
	s, err := train.NewStrike(train.StrikeDesign{
		Meshes:   []train.Mesh{{Wheel: 78, Pinion: 8, Efficiency: 0.93}, {Wheel: 64, Pinion: 8, Efficiency: 0.93}, {Wheel: 56, Pinion: 7, Efficiency: 0.93}, {Wheel: 48, Pinion: 6, Efficiency: 0.93}},
		PinArbor: 1, Pins: train.AllPins(8, train.Hammer{Mass: 0.04, Lift: 0.02, Spring: 0.6}),
		LiftShare: 0.35, TailEfficiency: 0.9,
		Fly:        train.Fly{Vanes: 2, Width: 0.024, Outer: 0.018, Thickness: 0.0006, Density: 8500, DragCoefficient: 1.2},
		AirDensity: 1.2, Gravity: 9.80665,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	const torque = 0.8 // N·m
	c, twelve, blow := s.Steady(torque), s.Twelve(torque), s.Power(torque)
	fmt.Printf("%v: %.2f s a blow, twelve from rest in %.1f s\n", c.Status, c.Interval, twelve.Seconds())
	fmt.Printf("hammers %.0f %%, fly %.0f %%, losses %.0f %%\n", 100*blow.Hammers/blow.Spring, 100*blow.Fly/blow.Spring, 100*blow.Losses()/blow.Spring)
	radius, err := s.OuterRadiusFor(torque, 1.25*c.Interval)
	fmt.Printf("a fly of %.1f mm radius slows it by a quarter (%v)\n", 1000*radius, err)
	// Output:
	// strikes: 1.42 s a blow, twelve from rest in 17.8 s
	// hammers 31 %, fly 47 %, losses 23 %
	// a fly of 20.1 mm radius slows it by a quarter (<nil>)
}
