package report

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/show/text"
	"evenpull/train"
)

// strikeJSON is what a striking train does with the torque. Torques are at the
// fusee arbor; the work of a blow is that at the mean torque.
type strikeJSON struct {
	Least       number    `json:"least_torque_nm"` // from which on it strikes from rest
	Slow        number    `json:"slow_torque_nm"`  // for the slow end of the interval wanted
	Fast        number    `json:"fast_torque_nm"`  // for its fast end
	BlowsPer    number    `json:"blows_per_fusee_turn"`
	BlowsInRun  int       `json:"blows_in_run"`
	FlyRadius   number    `json:"fly_radius_mm"`        // that the fly has
	MiddleFly   number    `json:"fly_radius_middle_mm"` // that would strike in the middle of the interval wanted
	WorkOfABlow blowJSON  `json:"work_of_a_blow_j"`     // null where it does not strike
	Kinetic     [2]number `json:"fly_energy_j"`         // least and most within a blow
}

type blowJSON struct {
	Spring  number `json:"spring"`
	Hammers number `json:"hammers"`
	Tails   number `json:"tails"`
	Fly     number `json:"fly"`
	Wheels  number `json:"wheels"`
	Loads   number `json:"loads"`
}

func strikeOf(r *sim.Result) *strikeJSON {
	if !r.Train.Strikes {
		return nil
	}
	k := &r.Train.Striker
	w, c := k.Power(r.Torque.Mean), k.Steady(r.Torque.Mean)
	blow, kinetic := blowJSON{text.Null, text.Null, text.Null, text.Null, text.Null, text.Null}, [2]number{text.Null, text.Null}
	if c.Status == train.Strikes {
		blow = blowJSON{number(w.Spring), number(w.Hammers), number(w.Tails), number(w.Fly), number(w.Wheels), number(w.Loads)}
		kinetic = [2]number{number(c.KineticLeast), number(c.KineticMost)}
	}
	return &strikeJSON{
		Least: number(k.Least), Slow: number(k.Slow), Fast: number(k.Fast),
		BlowsPer: number(k.BlowsPerTurn()), BlowsInRun: k.BlowsInRun(r.StruckTurns()),
		FlyRadius: number(r.Train.FlyRadius * 1e3), MiddleFly: number(middleFly(r) * 1e3),
		WorkOfABlow: blow, Kinetic: kinetic,
	}
}

// middleFly is the outer radius (m) of the fly that would strike in the middle
// of the interval wanted; NaN when there is none.
func middleFly(r *sim.Result) float64 {
	if r.Train.Striker.Interval.IsEmpty() {
		return math.NaN()
	}
	radius, err := r.FlyRadius()
	if err != nil {
		return math.NaN()
	}
	return radius
}

// counted is a number of blows in 12 hours, with what is usually counted so.
func counted(blows float64) string {
	text := fmt.Sprintf("%g blows in 12 h", blows)
	switch blows {
	case float64(train.StrikesIn12Hours(false)):
		return text + " (the hours by count)"
	case float64(train.StrikesIn12Hours(true)):
		return text + " (the hours by count and one at each half)"
	case float64(train.QuartersIn12Hours()):
		return text + " (the quarters by count)"
	}
	return text
}

// workLine tells where the work of a blow goes at the mean torque.
func workLine(r *sim.Result) string {
	w, c := r.Train.Striker.Power(r.Torque.Mean), r.Train.Striker.Steady(r.Torque.Mean)
	if c.Status != train.Strikes {
		return "on the mean torque it stalls"
	}
	text := fmt.Sprintf("a blow takes %s mJ at the mean torque", sim.Figure(w.Spring*1e3))
	for i, part := range []struct {
		name string
		work float64
	}{{"hammers", w.Hammers}, {"fly", w.Fly}, {"wheels", w.Wheels}, {"tails", w.Tails}, {"loads", w.Loads}} {
		if share := 100 * part.work / w.Spring; share > 0.05 {
			text += fmt.Sprintf("%s %s %.1f %%", map[bool]string{true: ":", false: ","}[i == 0], part.name, share)
		}
	}
	return text + fmt.Sprintf("; the fly holds %s to %s mJ", sim.Figure(c.KineticLeast*1e3), sim.Figure(c.KineticMost*1e3))
}

// strikeLines are the lines of the summary about striking.
func strikeLines(g *text.Grid, r *sim.Result) {
	k, c, f := &r.Train.Striker, r.Cadence, sim.Figure
	if math.IsNaN(c.Interval.Mean) {
		g.Row("  striking", fmt.Sprintf("stalls at every turn; from rest it takes %s N·m", f(k.Least)))
		return
	}
	text := fmt.Sprintf("a blow every %s to %s s, mean %s; fly %s to %s turns a second",
		f(c.Interval.Min), f(c.Interval.Max), f(c.Interval.Mean), f(c.Fly.Min), f(c.Fly.Max))
	if !math.IsNaN(c.Twelve.Mean) {
		text += fmt.Sprintf("; twelve from rest in %s to %s s", f(c.Twelve.Min), f(c.Twelve.Max))
	}
	g.Row("  striking", text)
	g.Row("", fmt.Sprintf("%s; %s; %d blows in the run", workLine(r), counted(r.Train.BlowsPer12H), k.BlowsInRun(r.StruckTurns())))
	if radius := middleFly(r); !math.IsNaN(radius) && r.Verdict.Code != sim.Stops {
		i := k.Interval
		g.Row("", fmt.Sprintf("a fly of %.1f mm outer radius in place of %.1f would strike every %s s, the middle of the %s to %s s wanted; at the slow end it takes %s N·m, from rest %s",
			radius*1e3, r.Train.FlyRadius*1e3, f(i.Center()), f(i.Lo), f(i.Hi), f(k.Slow), f(k.Least)))
	}
}
