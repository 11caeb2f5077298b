package measure

import "math"

// Efficiency is the share of the torque that passes from the spring to the
// square one way, from readings while winding and while running down at the same
// turn: what is lost in proportion to the torque is lost going up and again coming down,
// so that it is the square root of running down over winding up (common practice, no
// source). A constant drag is no such share.
type Efficiency struct {
	Turns []TurnEfficiency // those with both readings, in order
	Mean  float64          // over these turns; NaN when there are none
	SD    float64          // of one turn; NaN with fewer than two
	Above []float64        // fusee turns at which it is above 1, which cannot be
}

// TurnEfficiency is the efficiency at a fusee turn.
type TurnEfficiency struct {
	FuseeTurn float64 // paid out: 0 is fully wound
	Value     float64 // a share; above 1 where readings contradict each other
}

func efficiencyOf(down, up []Turn) Efficiency {
	e := Efficiency{Mean: math.NaN(), SD: math.NaN()}
	var values []float64
	for i, j := 0, 0; i < len(down) && j < len(up); {
		d, u := &down[i], &up[j]
		switch {
		case d.FuseeTurn < u.FuseeTurn:
			i++
		case d.FuseeTurn > u.FuseeTurn:
			j++
		default:
			i, j = i+1, j+1
			if u.Mean == 0 {
				continue // it winds itself; nothing follows from that
			}
			v := math.Sqrt(d.Mean / u.Mean)
			values = append(values, v)
			e.Turns = append(e.Turns, TurnEfficiency{d.FuseeTurn, v})
			if v > 1 {
				e.Above = append(e.Above, d.FuseeTurn)
			}
		}
	}
	if len(values) > 0 {
		e.Mean, e.SD = meanSD(values)
	}
	return e
}
