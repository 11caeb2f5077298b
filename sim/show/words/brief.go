package words

import (
	"math"
	"slices"
	"strings"

	"evenpull/sim"
)

// Brief is a run in a few lines: torque, time, pendulum or blows, mainspring; beside other
// trains in two.
func Brief(r *sim.Result, alone bool) (list []Line) {
	t, s := r.Torque, r.Spring
	does := Line{"pendulum", where(r.Escapes, "%s", swings(r))}
	if r.Strikes {
		does = Line{"strikes", blows(r)}
	}
	if !alone {
		list = []Line{{"torque", say("mean %v, least %v N·m; unevenness %s; goes %s", t.Mean, t.Min, Percent(t.Unevenness), hours(&r.Digest, false))}, does}
	} else {
		list = []Line{
			{"torque", say("mean %v, least %v, greatest %v N·m; unevenness %s", t.Mean, t.Min, t.Max, Percent(t.Unevenness))},
			{"goes", hours(&r.Digest, true) + where(!math.IsNaN(r.HoursPerTurn), ": %s fusee turns of %v h", Turns(r.Turns-r.TurnsLost), r.HoursPerTurn)},
			does,
			{"spring", say("%v turns; set-up %s and the run %v take %v, %v are left", s.Available, Turns(s.SetUp), s.Used, s.SetUp+s.Used, r.Left()) +
				where(!r.Counted && !r.Faults.Has(sim.Binds), "; to spare, were its coils ideally packed: %v", r.Spare())},
		}
	}
	return slices.DeleteFunc(list, func(l Line) bool { return l[1] == "" })
}

// hours tells how long a train goes, in days too where wanted.
func hours(d *sim.Digest, days bool) string {
	if math.IsNaN(d.Runtime) {
		return Turns(d.Turns-d.TurnsLost) + " fusee turns, hours not known"
	}
	h := d.HoursGoing()
	return Either(h <= 0, say("for none of %v h", d.Runtime),
		say("%v h", h)+where(days, ", %v days", h/24)+where(h < d.Runtime*(1-1e-9), ", then stops, of %v h", d.Runtime))
}

func swings(r *sim.Result) string {
	s, a := r.Swing, r.Swing.Amplitude
	if math.IsNaN(s.Rate.Mean) {
		return swingLine(r)
	}
	moves := rateMoves(&r.Digest)
	return say("semi-arc %.2f° to %.2f°", Degrees(a.Min), Degrees(a.Max)) + where(moves != "", "; %s", moves)
}

func blows(r *sim.Result) string {
	every, twelve := r.Cadence.Interval, r.Cadence.Twelve
	if math.IsNaN(every.Mean) {
		return "stalls at every turn"
	}
	return say("a blow every %s s", span(every.Min, every.Max)) +
		where(!math.IsNaN(twelve.Mean), ", twelve in %s s", span(twelve.Min, twelve.Max)) + spreadOfUntimed(&r.Digest)
}

// span is a range of figures, or the one that both ends are.
func span(from, to float64) string {
	lo, hi := Figure(from), Figure(to)
	return Either(lo == hi, lo, lo+" to "+hi)
}

// AssumedMost are the values that were assumed and move the verdicts most: two of the one
// train, or one of each.
func AssumedMost(c *sim.Clock) string {
	var most []string
	for i := range c.Trains {
		d := &c.Trains[i].Digest
		list, of := d.Verdict.Sureness.Assumed[:2], d.Name
		if len(c.Trains) > 1 {
			list, of = list[:1], ""
		}
		for _, a := range list {
			if a.Words != "" {
				most = append(most, united(say("%s %.4g", Input(a.Words, of), a.Value), a.Unit))
			}
		}
	}
	return Count(len(c.Assumed), "value") + where(len(most) > 0, ", above all %s", listed(most))
}

// DownFirst tells which trains stop or have run down first, where they do not all last as
// long; "" where they do, or where there is one.
func DownFirst(c *sim.Clock) string {
	list := c.DownFirst()
	if len(list) < 2 || list[len(list)-1].HoursGoing()-list[0].HoursGoing() < 0.05 {
		return ""
	}
	var parts []string
	for i := range list {
		parts = append(parts, say("%s after %v h", list[i].Name, list[i].HoursGoing()))
	}
	return "first to stop: " + strings.Join(parts, ", ")
}
