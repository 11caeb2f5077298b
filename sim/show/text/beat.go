package text

import (
	"fmt"
	"io"

	"evenpull/escapement"
	"evenpull/sim/show/words"
	"evenpull/sim/study/beat"
)

// Beat writes what a swing came to, then the figures of beats and averages side by
// side.
func Beat(w io.Writer, r *beat.Result, o Options) error {
	p := o.page(w)
	p.Wrap("", words.BeatHead(r))
	p.Line("")
	s, a := &r.Settled, &r.Averaged
	swings, goes := s.Period > 0, a.Status.Goes()
	degrees := func(moves bool, s escapement.Status, a escapement.SemiArc) string {
		return words.Either(s == escapement.Trips, "trips", orStands(moves, "%.3f°", a.Degrees()))
	}
	p.table(Grid{Right: map[int]bool{1: true, 2: true}, Rows: [][]string{
		{"", "beat by beat", "averaged"},
		{"  semi-arc", degrees(swings, s.Status, s.Amplitude), degrees(goes, a.Status, a.Amplitude)},
		{"  period", orStands(swings, "%.6f s", s.Period), ""},
		{"  rate, no circular error", dailyRate(swings, s.Rate), dailyRate(goes, a.Rate.Linear())},
		{"  circular error", "left out", dailyRate(goes, a.Rate.Circular)},
		{"  rate in all", "", dailyRate(goes, a.Rate.Total())},
	}})
	p.Line("")
	p.list("  ", words.BeatSays(r))
	return p.out.Flush()
}

func orStands(moves bool, format string, v float64) string {
	return words.Either(moves, fmt.Sprintf(format, v), "stands")
}

func dailyRate(moves bool, rate float64) string {
	return words.Minus(orStands(moves, "%+.2f s/d", rate*escapement.SecondsPerDay))
}
