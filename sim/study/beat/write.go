package beat

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"

	"evenpull/escapement"
	"evenpull/sim/show/words"
)

const perDay = escapement.SecondsPerDay

// Writers are the forms a result can be written in, by their names.
func Writers() map[string]func(io.Writer, *Result) error {
	return map[string]func(io.Writer, *Result) error{"text": Text, "json": JSON, "csv": CSV}
}

// Text writes a result for people: what the swing came to, then the figures of
// beats and averages side by side.
func Text(w io.Writer, r *Result) error {
	s, g := r.Settled, r.Averaged
	_, err := fmt.Fprintf(w, `%s train at fusee turn %s: %s

                                beat by beat   averaged
  semi-arc                %20s %10s
  period                  %20s
  rate, no circular error %20s %10s
  circular error          %20s %10s
  rate in all             %20s %10s

  torque at the escape wheel %s mN·m; started from rest at %.2f°
  energy not accounted for: %.1g of what the train gave
`, r.Train.Name, words.Turns(r.FuseeTurn), r.Headline(),
		deg(s.Amplitude.Degrees()), deg(g.Amplitude.Degrees()),
		seconds(s.Period),
		daily(s.Rate, s.Period > 0), daily(g.Rate.Linear(), g.Status.Goes()),
		"left out", daily(g.Rate.Circular, g.Status.Goes()),
		"", daily(g.Rate.Total(), g.Status.Goes()),
		words.Figure(r.Torque*1e3), r.Start.Degrees(), r.Gap)
	return err
}

func deg(v float64) string { return fmt.Sprintf("%.3f°", v) }

func seconds(v float64) string {
	if v == 0 {
		return "stands"
	}
	return fmt.Sprintf("%.6f s", v)
}

func daily(rate float64, goes bool) string {
	if !goes {
		return "stands"
	}
	return fmt.Sprintf("%+.2f s/d", rate*perDay)
}

type arcJSON struct {
	Period    float64 `json:"period"`
	Amplitude float64 `json:"amplitude_deg"`
}

type swingJSON struct {
	Status    string   `json:"status"`
	Amplitude float64  `json:"amplitude_deg"`
	Period    *float64 `json:"period_s"`
	Rate      *float64 `json:"rate_s_per_day"`
	Periods   int      `json:"periods"`
}

type averagedJSON struct {
	Status     string   `json:"status"`
	Amplitude  float64  `json:"amplitude_deg"`
	Rate       *float64 `json:"rate_s_per_day"`
	Circular   *float64 `json:"circular_s_per_day"`
	Escapement *float64 `json:"escapement_s_per_day"`
	Damping    *float64 `json:"damping_s_per_day"`
}

// JSON writes the machine-readable result. What does not apply is null.
func JSON(w io.Writer, r *Result) error {
	s, g := r.Settled, r.Averaged
	doc := struct {
		Train    string       `json:"train"`
		Turn     float64      `json:"fusee_turn"`
		Torque   float64      `json:"escape_torque_nm"`
		Start    float64      `json:"start_deg"`
		Beats    swingJSON    `json:"beats"`
		Averaged averagedJSON `json:"averaged"`
		Gap      float64      `json:"energy_gap"`
		Approach []arcJSON    `json:"approach"`
	}{
		Train: r.Train.Name, Turn: r.FuseeTurn, Torque: r.Torque, Start: r.Start.Degrees(),
		Beats: swingJSON{Status: s.Status.String(), Amplitude: s.Amplitude.Degrees(), Periods: s.Periods,
			Period: when(s.Period > 0, s.Period), Rate: when(s.Period > 0, s.Rate*perDay)},
		Averaged: averagedJSON{Status: g.Status.String(), Amplitude: g.Amplitude.Degrees(),
			Rate: when(g.Status.Goes(), g.Rate.PerDay()), Circular: when(g.Status.Goes(), g.Rate.Circular*perDay),
			Escapement: when(g.Status.Goes(), g.Rate.Escapement*perDay), Damping: when(g.Status.Goes(), g.Rate.Damping*perDay)},
		Gap: r.Gap, Approach: []arcJSON{},
	}
	for _, a := range r.Approach {
		doc.Approach = append(doc.Approach, arcJSON{a.Period, a.Arc.Degrees()})
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(doc)
}

func when(applies bool, v float64) *float64 {
	if !applies || math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// CSV writes the approach: the semi-arc after each period kept.
func CSV(w io.Writer, r *Result) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"period", "amplitude_deg"}}
	for _, a := range r.Approach {
		rows = append(rows, []string{strconv.FormatFloat(a.Period, 'g', -1, 64), strconv.FormatFloat(a.Arc.Degrees(), 'g', -1, 64)})
	}
	return out.WriteAll(rows)
}
