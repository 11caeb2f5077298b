package chart_test

import (
	"bytes"
	"fmt"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/chart"
)

// The torque of a run-down as an SVG. A picture is one file, or one for each page where
// the format has no pages.
func ExampleWrite() {
	s, err := scenarios.Load("eight-day") // or scenario.ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	clock, err := sim.RunClock(s, sim.Options{Step: 0.25})
	if err != nil {
		fmt.Println(err)
		return
	}
	files, err := chart.Write(chart.Look{Form: canvas.Form{Format: "svg"}}, clock.Trains)
	if err != nil {
		fmt.Println(err)
		return
	}
	var picture bytes.Buffer // or an os.File
	if err := files[0](&picture); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(files), bytes.HasPrefix(picture.Bytes(), []byte("<?xml")))
	// Output: 1 true
}
