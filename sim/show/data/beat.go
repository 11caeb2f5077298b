package data

import (
	"io"
	"math"

	"evenpull/escapement"
	"evenpull/sim/study/beat"
)

// Beat is the document of a swing that was followed.
func Beat() Object[beat.Result] {
	return Object[beat.Result]{
		Text("train", "the train", func(r *beat.Result) string { return r.Train }),
		Number("fusee_turn", "fusee turn paid out", "turns", func(r *beat.Result) float64 { return r.FuseeTurn }),
		Number("escape_torque_nm", "torque at the escape wheel", "N·m", func(r *beat.Result) float64 { return r.Torque }),
		Number("start_deg", "semi-arc from which it started at rest", "°", func(r *beat.Result) float64 { return r.Start.Degrees() }),
		Sub("beats", "what the swing came to, beat by beat", settledSwing(), func(r *beat.Result) *escapement.Settled { return &r.Settled }),
		Sub("averaged", "by the averages of a run", averagedSwing(), func(r *beat.Result) *escapement.Going { return &r.Averaged }),
		Number("energy_gap", "energy that the beats do not account for, over what the train gave", "", func(r *beat.Result) float64 { return r.Gap }),
		List("approach", "the semi-arc as it settles", arcRow(), func(r *beat.Result) []beat.Arc { return r.Approach }),
	}
}

func settledSwing() Object[escapement.Settled] {
	moving := func(of func(*escapement.Settled) float64) func(*escapement.Settled) float64 {
		return func(s *escapement.Settled) float64 {
			if !(s.Period > 0) {
				return math.NaN()
			}
			return of(s)
		}
	}
	return Object[escapement.Settled]{
		Text("status", "how it ended", func(s *escapement.Settled) string { return s.Status.String() }),
		Number("amplitude_deg", "semi-arc", "°", func(s *escapement.Settled) float64 { return s.Amplitude.Degrees() }),
		Number("period_s", "period; null when it stands", "s", moving(func(s *escapement.Settled) float64 { return s.Period })),
		Number("rate_s_per_day", "rate against the pendulum's own beat, without circular error; null when it stands", "s/day", moving(func(s *escapement.Settled) float64 { return s.Rate * escapement.SecondsPerDay })),
		Whole("periods", "periods followed", func(s *escapement.Settled) int { return s.Periods }),
	}
}

func averagedSwing() Object[escapement.Going] {
	daily := func(of func(*escapement.Rate) float64) func(*escapement.Going) float64 {
		return func(g *escapement.Going) float64 {
			if !g.Status.Goes() {
				return math.NaN()
			}
			return of(&g.Rate) * escapement.SecondsPerDay
		}
	}
	return Object[escapement.Going]{
		Text("status", "how it goes", func(g *escapement.Going) string { return g.Status.String() }),
		Number("amplitude_deg", "semi-arc", "°", func(g *escapement.Going) float64 { return g.Amplitude.Degrees() }),
		Number("rate_s_per_day", "rate in all", "s/day", daily(func(r *escapement.Rate) float64 { return r.Total() })),
		Number("circular_s_per_day", "circular error", "s/day", daily(func(r *escapement.Rate) float64 { return r.Circular })),
		Number("escapement_s_per_day", "error of the escapement", "s/day", daily(func(r *escapement.Rate) float64 { return r.Escapement })),
		Number("damping_s_per_day", "error of the damping", "s/day", daily(func(r *escapement.Rate) float64 { return r.Damping })),
	}
}

func arcRow() Object[beat.Arc] {
	return Object[beat.Arc]{
		Number("period", "periods from the start", "periods", func(a *beat.Arc) float64 { return a.Period }),
		Number("amplitude_deg", "semi-arc", "°", func(a *beat.Arc) float64 { return a.Arc.Degrees() }),
	}
}

// BeatCSV writes the semi-arc as it settles.
func BeatCSV(w io.Writer, r *beat.Result) error { return arcRow().CSV(w, r.Approach) }
