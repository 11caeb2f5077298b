package train

// Hammer is lifted by its tail and drops on the bell.
type Hammer struct {
	Mass   float64 // kg, at the head; 0 or more
	Lift   float64 // m, height that the head is lifted; 0 or more
	Spring float64 // N, of the hammer spring at the head, steady over the lift; 0 or more
}

// Work is what lifting the hammer takes (J), without the friction of the tail:
// (m g + F) h, for a gravity in m/s².
func (h Hammer) Work(gravity float64) float64 { return (h.Mass*gravity + h.Spring) * h.Lift }

// PinSet is a number of pins in succession, each of which lifts the same
// hammers all at once. A set without hammers is a gap in which nothing is
// struck, though it counts as a blow.
type PinSet struct {
	Hammers []Hammer // what each pin of the set lifts
	Count   int      // of the pins, 1 or more
}

// MostSets is the greatest number of pin sets on a pin wheel.
const MostSets = 64

// mostPins keeps a turn of the pin wheel a short loop.
const mostPins = 1 << 16

// AllPins is the plain pin wheel: every pin lifts every hammer.
func AllPins(count int, hammers ...Hammer) []PinSet {
	return []PinSet{{Hammers: hammers, Count: count}}
}

// pinSet is a PinSet compiled.
type pinSet struct {
	count  int
	work   float64 // J a blow, of the hammers
	tail   float64 // J a blow, lost at the tails
	couple float64 // N·m at the pin arbor while lifting
	decay  float64 // of the square of the speed over the set's blows
	series float64 // 1 + a + … over the set's blows, a the decay of one
}

// countPins is the number of pins of all sets; it fails with ErrPins or ErrMore.
func countPins(sets []PinSet) (int, error) {
	err := firstFault(ErrPins, bound{"pin sets", float64(len(sets)), 1, MostSets, "1 to 64"})
	total := 0
	for _, s := range sets {
		if err == nil {
			err = firstFault(ErrPins, bound{"pins of a set", float64(s.Count), 1, mostPins, "1 to 65536"})
			total += s.Count
		}
	}
	if err == nil {
		err = firstFault(ErrPins, bound{"pins", float64(total), 1, mostPins, "1 to 65536"})
	}
	for _, s := range sets {
		if err == nil {
			err = firstFault(ErrMore, bound{"hammers of a pin", float64(len(s.Hammers)), 0, float64(total), "at most as many as there are pins"})
		}
	}
	return total, err
}

// blowWork adds up the work (J) of the hammers of a set.
func blowWork(s PinSet, gravity float64) (float64, error) {
	sum := 0.0
	for _, h := range s.Hammers {
		if err := firstFault(ErrHammer,
			bound{"hammer mass", h.Mass, 0, 1e6, "kg, 0 or more"},
			bound{"hammer lift", h.Lift, 0, 1e3, "m, 0 or more"},
			bound{"hammer spring", h.Spring, 0, 1e9, "N, 0 or more"},
		); err != nil {
			return 0, err
		}
		sum += h.Work(gravity)
	}
	return sum, nil
}
