package words

import (
	"fmt"
	"math"

	"evenpull/sim"
)

// Cautions are what to mind before any spring of a clock is touched, with the
// energy of the strongest.
func Cautions(c *sim.Clock) []string {
	if len(c.Trains) == 0 {
		return []string{}
	}
	most, _ := c.MostStored()
	return []string{Caution(most)}
}

// Caution tells what to mind before a spring is let down, taken out, fitted or
// wound, with the energy (J) that is let loose when something slips; NaN when it
// is not known.
func Caution(stored float64) string {
	const rest = "Let it down fully with a proper let-down key before anything is loosened; use a mainspring winder to take it out or fit it; wear eye protection and gloves; never stand in line with a spring or a line under load. Local safety rules and a qualified clockmaker's judgement come before anything printed here."
	if math.IsNaN(stored) {
		return "A wound mainspring lets tens of joules go at once. " + rest
	}
	// Height to which that energy throws a weight of one kilogram.
	height := stored / 9.80665
	return fmt.Sprintf("Wound, this spring holds %s J: enough to throw 1 kg %s m high. %s", Figure(stored), Figure(height), rest)
}
