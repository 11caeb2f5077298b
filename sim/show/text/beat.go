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
	var g Grid
	g.Row("", "beat by beat", "averaged")
	g.Row("  semi-arc", fmt.Sprintf("%.3f°", s.Amplitude.Degrees()), fmt.Sprintf("%.3f°", a.Amplitude.Degrees()))
	g.Row("  period", orStands(swings, "%.6f s", s.Period), "")
	g.Row("  rate, no circular error", dailyRate(swings, s.Rate), dailyRate(goes, a.Rate.Linear()))
	g.Row("  circular error", "left out", dailyRate(goes, a.Rate.Circular))
	g.Row("  rate in all", "", dailyRate(goes, a.Rate.Total()))
	g.Right(1, 2)
	g.Write(p)
	p.Line("")
	p.list("  ", words.BeatSays(r))
	return p.Flush()
}

func orStands(moves bool, format string, v float64) string {
	if !moves {
		return "stands"
	}
	return fmt.Sprintf(format, v)
}

func dailyRate(moves bool, rate float64) string {
	return words.Minus(orStands(moves, "%+.2f s/d", rate*escapement.SecondsPerDay))
}
