package ask

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/scenario"
)

// clock are the questions of the clock and its trains, in the order of the bench.
func (s *session) clock() []question {
	list := []question{
		{id: "title", part: "The clock", asks: "What clock is it, in a line?", why: "it stands above every result", such: "bracket clock, anchor escapement", line: true,
			write: func(p *page, rows [][]value) { p.line("title = " + quoted(rows[0][0].literal)) }},
		{id: "trains", part: "The clock", asks: "Which trains has it, by name?", why: "each has a spring of its own; results go by the names", such: "going, striking", parted: ",",
			slots: []slot{input("name")}, write: func(*page, [][]value) {}},
	}
	for _, name := range s.trains() {
		for _, q := range s.train(name) {
			q.id = name + "." + q.id
			q.part = strings.ReplaceAll(q.part, "{train}", name+" train")
			list = append(list, q)
		}
	}
	return list
}

// trains are the names of the trains.
func (s *session) trains() (names []string) {
	if a := s.given["trains"]; a != nil {
		for _, row := range a.rows {
			names = append(names, unquoted(row[0]))
		}
	}
	return names
}

func unquoted(v value) string {
	text, err := strconv.Unquote(v.literal)
	if err != nil {
		return v.literal
	}
	return text
}

// kind is what a train does: its name says so, or it is asked.
func (s *session) kind(train string) string {
	if train == scenario.Going || train == scenario.Striking {
		return train
	}
	if a := s.given[train+".kind"]; a != nil && !a.unknown {
		return unquoted(a.rows[0][0])
	}
	return ""
}

// train are the questions of one train.
func (s *session) train(name string) (list []question) {
	if name != scenario.Going && name != scenario.Striking {
		list = append(list, question{id: "kind", part: "The {train}", why: "a going train swings a pendulum, a striking one lifts hammers", such: "striking",
			slots: []slot{input("kind")}, write: func(*page, [][]value) {}})
	}
	list = append(list, s.fusee(name)...)
	list = append(list, barrel()...)
	list = append(list, spring()...)
	wheels := s.wheels(name)
	list = append(list, wheels)
	if a := s.given[name+"."+wheels.id]; a == nil || !a.unknown {
		work := escapement()
		if s.kind(name) == scenario.Striking {
			work = s.strike(name)
		}
		for _, q := range work {
			list = append(list, q)
			if a := s.given[name+"."+q.id]; a != nil && a.unknown && q.must() {
				break // the rest goes with it
			}
		}
	}
	return append(list, need(s.kind(name)))
}

func (s *session) fusee(train string) []question {
	const part, table = "The fusee of the {train}", "[train.fusee]"
	turn := slot{key: "turn", words: "turn from the small end", accepts: "a number of turns"}
	across := input("fusee.points").called("diameter of the groove's bottom there").maybe("")
	across.key, across.accepts = "diameter_mm", "a number of millimetres"
	return []question{
		{id: "turns", part: part, table: table, why: "so long it runs, and all is told turn by turn", such: "16", spring: true, slots: []slot{input("fusee.turns")}},
		{id: "diameters", part: part, table: table, asks: "Diameters of the cone, small end first: a turn and the diameter there, and so on",
			why: "the cone evens the spring's pull; three places or more, both ends among them", such: "0 13.0, 6 15.3, 11 18.5, 16 29.2", parted: ",",
			slots: []slot{turn, across},
			judge: func(rows [][]value) error { return bothEnds(rows, s.number(train+".turns")) },
			write: writeCone},
		{id: "pitch", part: part, table: table, why: "the line has to find room; with the distance the fleet angle is told", such: "2.2 58",
			slots: []slot{input("fusee.pitch_mm"), input("fusee.centre_distance_mm")}},
	}
}

// number is the only number that was answered; NaN when there is none.
func (s *session) number(id string) float64 {
	if a := s.given[id]; a != nil && !a.unknown {
		return a.rows[0][0].v
	}
	return math.NaN()
}

// bothEnds asks of a cone with one diameter or two that they stand at its ends.
func bothEnds(rows [][]value, turns float64) error {
	for i, row := range rows {
		if at := row[0].v; len(rows) < 3 && at != 0 && at != turns || len(rows) == 2 && (at != 0) != (i == 1) {
			return fmt.Errorf("found %d of the diameters, one at turn %v; want the small end at turn 0 and the large end at turn %v, or three places or more", len(rows), at, turns)
		}
	}
	return nil
}

// writeCone writes diameters: of one place as an even profile from that end, of two as a
// straight cone, of more as measured.
func writeCone(p *page, rows [][]value) {
	ends := func(row []value) string {
		end := "small"
		if row[0].v > 0 {
			end = "large"
		}
		return end + "_" + row[1].key + " = " + row[1].literal
	}
	switch len(rows) {
	case 1:
		p.line(`profile = "even"  # taken as cut for this very spring, from the one diameter known`)
		p.line(ends(rows[0]))
	case 2:
		p.line(`profile = "cone"  # taken as straight between the two ends; measure between them`)
		p.line(ends(rows[0]))
		p.line(ends(rows[1]))
	default:
		var points []string
		for _, row := range rows {
			points = append(points, "["+row[0].literal+", "+millimetres(row[1])+"]")
		}
		p.line(`profile = "measured"`)
		p.line("points = [" + strings.Join(points, ", ") + "]  # turn from the small end, and mm over the bottom of the groove")
	}
}

// millimetres is a length as it was typed, or else in millimetres.
func millimetres(v value) string {
	if strings.HasSuffix(v.key, "_mm") {
		return v.literal
	}
	return literal(v.v)
}

func barrel() []question {
	const part, table = "The barrel of the {train}", "[train.barrel]"
	return []question{
		{id: "barrel", part: part, table: table, why: "the room tells how many turns the spring has", such: "45 33.2 15", spring: true,
			slots: []slot{input("barrel.inside_diameter_mm"), input("barrel.inside_height_mm"), input("barrel.arbor_diameter_mm")}},
		{id: "outside", part: part, table: table, why: "the line pulls on this radius, and needs room on it", such: "49 39",
			slots: []slot{input("barrel.outside_diameter_mm"), input("barrel.outside_length_mm")}},
		{id: "setup", part: part, table: table, why: "it lifts the weak end of the run", such: "1.25", spring: true, slots: []slot{input("barrel.set_up_turns")}},
		{id: "line", part: part, table: "[train.line]", asks: "The line, and how thick it is; of a chain its height and width", why: "it pulls at its middle", such: "gut 1.6",
			slots: []slot{input("line.kind"), input("line.thickness_mm"), input("line.width_mm")}},
	}
}

func spring() []question {
	const part, table = "The mainspring of the {train}", "[train.mainspring]"
	one := func(id, why, such string, slots ...slot) question {
		return question{id: id, part: part, table: table, why: why, such: such, spring: true, slots: slots}
	}
	return []question{
		one("strip", "the torque goes with more than the square of the thickness: to 0.01 mm, at several places", "32 x 0.38", input("mainspring.width_mm"), input("mainspring.thickness_mm")),
		one("length", "with the thickness it tells the turns", "1650", input("mainspring.length_mm")),
		one("coils", "they tell how hard its steel is: lay it free and count", "6.9", input("mainspring.free_coils")),
		one("solid", "the turns from rest until it stops, by hand in the barrel: how loosely it packs", "8.4", input("mainspring.solid_turns")),
	}
}

func (s *session) wheels(train string) question {
	last := "escape"
	if s.kind(train) == scenario.Striking {
		last = "fly"
	}
	return question{id: "wheels", part: "The wheels of the {train}", asks: "Every wheel and the pinion it drives, from the great wheel on; the arbor's name if you like",
		why: "they tell hours and the torque at the far end", such: "96/8, 84/7, 78/7", parted: ",", group: "the drive alone is computed, without hours",
		slots: []slot{input("mesh.wheel"), input("mesh.pinion"), input("mesh.drives").maybe("named by its place")},
		write: func(p *page, rows [][]value) {
			for i, row := range rows {
				p.line("")
				p.line("[[train.mesh]]")
				p.line("wheel = " + row[0].literal)
				p.line("pinion = " + row[1].literal)
				p.line("drives = " + quoted(arbor(rows, i, last)))
			}
		}}
}

// arbor is the name of a driven arbor: as answered, or else by its place in the train.
func arbor(rows [][]value, i int, last string) string {
	switch ordinals := []string{"second", "third", "fourth", "fifth", "sixth", "seventh"}; {
	case rows[i][2].key != "":
		return unquoted(rows[i][2])
	case i == len(rows)-1:
		return last
	case i < len(ordinals):
		return ordinals[i]
	}
	return "arbor-" + strconv.Itoa(i+2)
}

func need(kind string) question {
	q := question{id: "need", part: "What the {train} needs", table: "[train.demand]", asks: "If you know it already; weights come later",
		why: "it takes the place of the predicted need", such: "0.33", slots: []slot{input("demand.least_torque_nm")}}
	if kind == scenario.Striking {
		s := input("demand.blow_interval_s")
		s.list = true
		s.accepts, _, _ = strings.Cut(s.accepts, ", such as") // as a file has them
		q.asks, q.why, q.such, q.slots = "From blow to blow as you like it, the fastest and the slowest", "the striking is judged by it", "0.9 1.6", []slot{s}
		q.judge = func(rows [][]value) error {
			if n := len(rows[0]); n != 2 || rows[0][0].key != rows[0][1].key {
				return fmt.Errorf("found %d of the values; want two in one unit, the fastest first", n)
			}
			return nil
		}
		q.write = func(p *page, rows [][]value) {
			p.line(fmt.Sprintf("%s = [ %s, %s ]  # wanted from blow to blow", rows[0][0].key, rows[0][0].literal, rows[0][1].literal))
		}
	}
	return q
}
