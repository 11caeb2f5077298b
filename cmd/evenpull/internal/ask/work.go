package ask

import (
	"fmt"
	"strings"
)

// escapement are the questions of escapement and pendulum: all of them, or none.
func escapement() []question {
	const part, table, group = "The escapement of the {train}", "[train.escapement]", "escapement and pendulum are left out: no arc, no rate, no predicted need"
	const swing, bob = "The pendulum of the {train}", "[train.pendulum]"
	quality := input("pendulum.decay.from_deg").or(option{word: "Q", key: "quality"})
	periods := input("pendulum.decay.periods").maybe("")
	return []question{
		{id: "escapement", part: part, table: table, group: group, why: "it meters the drive", such: "recoil 30",
			slots: []slot{input("escapement.kind"), input("escapement.teeth")}},
		{id: "arc", part: part, table: table, group: group, why: "the pendulum has to swing so far at least", such: "5", slots: []slot{input("escapement.escaping_arc_deg")}},
		{id: "beat", part: swing, table: bob, group: group, asks: "Its length, or its beats a minute", why: "the trains' hours follow from the beat", such: "200.1, or 133.7 beats",
			slots: []slot{input("pendulum.length_mm").maybe("").or(option{word: "beats", key: "beats_per_minute"})}},
		{id: "mass", part: swing, table: bob, group: group, why: "a heavy bob takes more to keep going", such: "240", slots: []slot{input("pendulum.mass_g")}},
		{id: "decay", part: swing, table: bob, group: group, spring: true, asks: "With the spring let down and the pallets out of action swing it, and count whole periods (or the time) from one semi-arc to another",
			why: "so well it keeps its swing, so little it needs", such: "4 2 40, or 4 2 24 s, or Q 181",
			slots: []slot{quality, input("pendulum.decay.to_deg").maybe("it is left out where Q is given"), periods.maybe("it is left out where Q is given").or(option{word: "s", key: "lasts_s"}, option{word: "min", key: "lasts_min"})},
			judge: wholeDecay,
			write: func(p *page, rows [][]value) {
				if rows[0][0].key == "quality" {
					p.line("quality = " + rows[0][0].literal)
					return
				}
				p.line("decay = " + inline(rows[0]))
			}},
	}
}

// wholeDecay asks for Q alone or for all three of a swing that dies down.
func wholeDecay(rows [][]value) error {
	given := 0
	for _, v := range rows[0] {
		if v.key != "" {
			given++
		}
	}
	if given == 1 && rows[0][0].key == "quality" || given == 3 && rows[0][0].key != "quality" {
		return nil
	}
	return fmt.Errorf("found %d of the values; want the first semi-arc, the last and the periods or the time between, such as 4 2 40, or Q 181", given)
}

// strike are the questions of hammers and fly: all of them, or none.
func (s *session) strike(train string) []question {
	const part, table, group = "The hammers of the {train}", "[train.strike]", "hammers and fly are left out: no cadence is told"
	hammer := []slot{input("strike.hammers.mass_g"), input("strike.hammers.lift_mm"), input("strike.hammers.spring_n")}
	pins := input("strike.pin_arbor")
	if a := s.given[train+".wheels"]; a != nil {
		var arbors []string
		for i := range a.rows {
			arbors = append(arbors, arbor(a.rows, i, "fly"))
		}
		pins.accepts = "one of " + strings.Join(arbors, ", ") + ", or fusee"
	}
	return []question{
		{id: "pins", part: part, table: table, group: group, why: "so many blows the fusee's turns make", such: "second 8 78",
			slots: []slot{pins, input("strike.pins"), input("strike.blows_per_12h")}},
		{id: "lift", part: part, table: table, group: group, why: "the rest of the way the train gathers speed", such: "0.35", slots: []slot{input("strike.lift_share")}},
		{id: "hammers", part: part, table: table, group: group, asks: "Each hammer; all are lifted by one pin", why: "a blow takes this work", such: "30 16 0.4", parted: ",", slots: hammer,
			write: func(p *page, rows [][]value) {
				var all []string
				for _, row := range rows {
					all = append(all, inline(row))
				}
				p.line("hammers = [ " + strings.Join(all, ", ") + " ]")
			}},
		{id: "fly", part: "The fly of the {train}", table: "[train.fly]", group: group, why: "it brakes the train", such: "2 24 0 15 0.6",
			slots: []slot{input("fly.vanes"), input("fly.width_mm"), input("fly.inner_radius_mm"), input("fly.outer_radius_mm"), input("fly.thickness_mm")}},
	}
}
