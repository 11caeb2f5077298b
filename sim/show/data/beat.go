package data

import (
	"evenpull/escapement"
	"evenpull/sim/study/beat"
)

// Beat is the document of a swing that was followed; its rows are the semi-arc as it
// settles.
func Beat() Document[beat.Result] {
	arcs := Object[beat.Arc]{
		Number("period", "periods from the start", "periods", func(a *beat.Arc) float64 { return a.Period }),
		Number("amplitude_deg", "semi-arc", "°", func(a *beat.Arc) float64 { return a.Arc.Degrees() }),
	}
	approach := func(r *beat.Result) []beat.Arc { return r.Approach }
	return Document[beat.Result]{Object[beat.Result]{
		Text("train", "the train", func(r *beat.Result) string { return r.Train }),
		Number("fusee_turn", "fusee turn paid out", "turns", func(r *beat.Result) float64 { return r.FuseeTurn }),
		Number("escape_torque_nm", "torque at the escape wheel", "N·m", func(r *beat.Result) float64 { return r.Torque }),
		Number("start_deg", "semi-arc from which it started at rest", "°", func(r *beat.Result) float64 { return r.Start.Degrees() }),
		Sub("beats", "what the swing came to, beat by beat", settledSwing(), func(r *beat.Result) *escapement.Settled { return &r.Settled }),
		Sub("averaged", "by the averages of a run", averagedSwing(), func(r *beat.Result) *escapement.Going { return &r.Averaged }),
		Number("energy_gap", "energy that the beats do not account for, over what the train gave", "", func(r *beat.Result) float64 { return r.Gap }),
		List("approach", "the semi-arc as it settles", arcs, approach),
	}, rows(arcs, approach)}
}

func settledSwing() Object[escapement.Settled] {
	moves := Within(Object[escapement.Settled]{
		Number("amplitude_deg", "semi-arc; null when it stands or trips", "°", func(s *escapement.Settled) float64 { return s.Amplitude.Degrees() }),
		Number("period_s", "period; null when it stands", "s", func(s *escapement.Settled) float64 { return s.Period }),
		Number("rate_s_per_day", "rate against the pendulum's own beat, without circular error; null when it stands", "s/day", func(s *escapement.Settled) float64 { return s.Rate * escapement.SecondsPerDay }),
	}, func(s *escapement.Settled) *escapement.Settled { return only(s.Period > 0, s) })
	return append(append(Object[escapement.Settled]{Text("status", "how it ended", func(s *escapement.Settled) string { return s.Status.String() })}, moves...), Whole("periods", "periods followed", func(s *escapement.Settled) int { return s.Periods }))
}

func averagedSwing() Object[escapement.Going] {
	daily := func(name, words string, of func(*escapement.Rate) float64) Member[escapement.Going] {
		return Number(name, words, "s/day", func(g *escapement.Going) float64 { return of(&g.Rate) * escapement.SecondsPerDay })
	}
	return append(Object[escapement.Going]{Text("status", "how it goes", func(g *escapement.Going) string { return g.Status.String() })}, Within(Object[escapement.Going]{
		Number("amplitude_deg", "semi-arc; null when it stands or trips", "°", func(g *escapement.Going) float64 { return g.Amplitude.Degrees() }),
		daily("rate_s_per_day", "rate in all", func(r *escapement.Rate) float64 { return r.Total() }),
		daily("circular_s_per_day", "circular error", func(r *escapement.Rate) float64 { return r.Circular }),
		daily("escapement_s_per_day", "error of the escapement", func(r *escapement.Rate) float64 { return r.Escapement }),
		daily("damping_s_per_day", "error of the damping", func(r *escapement.Rate) float64 { return r.Damping }),
	}, func(g *escapement.Going) *escapement.Going { return only(g.Status.Goes(), g) })...)
}
