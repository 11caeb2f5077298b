package report

import (
	"encoding/csv"
	"io"

	"evenpull/sim/show/text"
)

// csvHeader names the columns as the JSON does its keys.
var csvHeader = []string{"train", "fusee_turn", "hours", "spring_turns", "spring_torque_nm", "line_tension_n", "fusee_torque_nm",
	"escape_torque_nm", "amplitude_deg", "rate_s_per_day", "fly_rev_per_s", "blow_interval_s", "strike_twelve_s",
	"winding_torque_nm", "fleet_angle_deg", "reserve"}

// CSV writes the rows of every train, one below the other, comma-separated
// with a header (RFC 4180). What does not apply is empty.
func CSV(w io.Writer, r *Run) error {
	out := csv.NewWriter(w)
	if err := out.Write(csvHeader); err != nil {
		return err
	}
	for i := range r.Trains {
		res := &r.Trains[i]
		for k := range res.Rows {
			t := turnOf(res, &res.Rows[k])
			line := []string{res.Train.Name}
			for _, n := range []number{t.FuseeTurn, t.Hours, t.SpringTurns, t.SpringTorque, t.LineTension, t.FuseeTorque,
				t.EscapeTorque, t.Amplitude, t.Rate, t.FlySpeed, t.BlowInterval, t.StrikeTwelve, t.WindingTorque, t.FleetAngle, t.Reserve} {
				line = append(line, text.Cell(float64(n)))
			}
			if err := out.Write(line); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}
