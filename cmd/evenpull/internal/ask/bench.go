package ask

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evenpull/sim/scenario"
)

// bench are the questions of what was measured: weights train by train, then springs.
func (s *session) bench() (list []question) {
	for _, train := range s.trains() {
		list = append(list, s.weights(train)...)
	}
	const part = "The springs at the bench"
	labels := question{id: "springs", part: part, asks: "The label of each spring that was read with a torque meter; its width and thickness, where it is another than above",
		why: "each is compared with what is predicted of it", such: "A, B 36 x 0.40", parted: ",", spring: true,
		slots: []slot{{key: "label", words: "label of a spring", accepts: "a word of one's own", word: true},
			input("mainspring.width_mm").maybe("as above"), input("mainspring.thickness_mm").maybe("as above")},
		judge: differing, write: func(*page, [][]value) {}}
	labels.slots[0].without = "no torques are written"
	list = append(list, labels)
	for _, label := range s.labels() {
		for _, q := range s.spring(label) {
			q.id, q.part = "spring."+label+"."+q.id, "The spring "+label+" at the bench"
			list = append(list, q)
		}
	}
	return list
}

// labels are those of the springs that were read.
func (s *session) labels() (labels []string) {
	if a := s.given["springs"]; a != nil {
		for _, row := range a.rows {
			labels = append(labels, unquoted(row[0]))
		}
	}
	return labels
}

// differing refuses a label that stands there twice.
func differing(rows [][]value) error {
	for i, row := range rows {
		if slices.ContainsFunc(rows[:i], func(other []value) bool { return other[0].literal == row[0].literal }) {
			return fmt.Errorf("found %.60s again; want a label that no other spring has", row[0].literal)
		}
	}
	return nil
}

// weights are the questions of the weights that were hung on a train.
func (s *session) weights(train string) []question {
	part := "Weights on the " + train + " train"
	mass := slot{key: "mass_g", words: "weight", accepts: "a number of grams"}
	did := slot{key: "runs", words: "what the train did", accepts: "goes, stops or drags"}.or(
		option{word: "goes", key: "runs", literal: "true"}, option{word: "stops", key: "runs", literal: "false"}, option{word: "drags", key: "runs", literal: "false"})
	such, asks := "400 stops, 440 drags, 480 goes", "Each weight, and what the train did: goes, stops, or drags (which counts as not going)"
	if s.kind(train) == scenario.Striking {
		did = slot{key: "blow_interval_s", words: "what the train did", accepts: "the seconds from blow to blow"}.or(
			option{word: "twelve", key: "twelve_s"}, option{word: "stops", key: "runs", literal: "false"},
			option{word: "weak", key: "judged", literal: `"weak"`}, option{word: "drags", key: "judged", literal: `"weak"`},
			option{word: "liked", key: "judged", literal: `"liked"`}, option{word: "brisk", key: "judged", literal: `"brisk"`})
		such, asks = "320 stops, 340 2.56, 450 1.63", "Each weight, and the seconds from blow to blow; or: twelve and the seconds from the first blow to the last; or: stops; or by ear: weak, liked, brisk"
	}
	pulley := question{id: "weights." + train + ".pulley", part: part, table: "[[weights]]", asks: "Across the pulley on the winding square (or: radius and a number), and the thickness of the cord",
		why: "weight times radius is the torque; half the cord adds to it", such: "150 1", spring: true, group: "no weights are written for this train",
		slots: []slot{{key: "pulley_diameter_mm", words: "diameter of the pulley", accepts: "a number of millimetres", other: []option{{word: "radius", key: "pulley_radius_mm"}}},
			{key: "cord_thickness_mm", words: "thickness of the cord", accepts: "a number of millimetres", without: "0 stands for it"}},
		write: func(p *page, rows [][]value) {
			p.line("train = " + quoted(train))
			for _, v := range rows[0] {
				if v.key != "" {
					p.line(v.key + " = " + v.literal)
				}
			}
		}}
	if a := s.given[pulley.id]; a == nil || a.unknown {
		return []question{pulley}
	}
	return []question{pulley, {id: "weights." + train + ".trials", part: part, table: "[[weights]]", asks: asks, why: "they tell what the train needs, with all it has to do", such: such, parted: ",",
		slots: []slot{mass, did},
		write: func(p *page, rows [][]value) {
			p.line("trials = [")
			for _, row := range rows {
				p.line("  " + inline(row) + ",")
			}
			p.line("]")
		}}}
}

// spring are the questions of one spring that was read.
func (s *session) spring(label string) (list []question) {
	trains := s.trains()
	if len(trains) > 1 {
		list = append(list, question{id: "train", asks: "In which train was it read?", why: "its fusee and barrel belong to the readings", such: trains[0],
			slots: []slot{{key: "train", words: "train", accepts: "one of " + strings.Join(trains, ", "), word: true}}, write: func(*page, [][]value) {},
			judge: func(rows [][]value) error { return oneOf(unquoted(rows[0][0]), trains) }})
	}
	train := s.readIn(label)
	readings := question{id: "readings", table: "[[torque]]", asks: "Torque at the winding square at each whole turn paid out, fully wound first; each run-down after a semicolon, - for one that is missing",
		why: "three run-downs tell the scatter", such: "cN·m: 55 55 54 53; 55 54 54 52", parted: ";", spring: true, group: "this spring is left out",
		slots: []slot{{key: "running_down_nm", words: "torques", accepts: "numbers of newton metres", list: true, other: []option{{word: "-", key: "", literal: `"-"`}}}},
		judge: oneUnit,
		write: func(p *page, rows [][]value) { writeReadings(p, train, label, rows) }}
	list = append(list, readings)
	a := s.given["spring."+label+".readings"]
	if a != nil && a.unknown {
		return list
	}
	if a != nil && short(a.rows, s.number(train+".turns")) {
		list = append(list, question{id: "first", table: "[[torque]]", asks: "There are fewer readings than turns. How many turns were paid out at the first? Or: solid and the fusee turn, from run down, at which the spring went solid",
			why: "else nobody knows where they stand", such: "1, or solid 12",
			slots: []slot{{key: "first_turn", words: "turns paid out at the first reading", accepts: "a number of turns", other: []option{{word: "solid", key: solid}}}},
			write: func(p *page, rows [][]value) {
				if v := rows[0][0]; v.key != solid { // which stands with the spring
					p.line(v.key + " = " + v.literal)
				}
			}})
	}
	return append(list, question{id: "meter", table: "[[torque]]", asks: "How far the meter may be off, as a share or in percent, and its step", why: "they bound how well anything can be known", such: "1 % 0.005",
		slots: []slot{{key: "meter_relative", words: "bound of the meter's error", accepts: "a share or a percentage", share: true, without: "0 stands for it"},
			{key: "meter_resolution_nm", words: "step of the meter", accepts: "a number of newton metres", without: "the last digit that was written stands for it"}}})
}

// solid is the key of the turn at which a spring went solid.
const solid = "solid_at_turn"

// readIn is the train that a spring was read in.
func (s *session) readIn(label string) string {
	if a := s.given["spring."+label+".train"]; a != nil {
		return unquoted(a.rows[0][0])
	}
	if trains := s.trains(); len(trains) > 0 {
		return trains[0]
	}
	return ""
}

func oneOf(word string, words []string) error {
	for _, w := range words {
		if w == word {
			return nil
		}
	}
	want := "want one of " + strings.Join(words, ", ")
	if near := scenario.Nearest(word, words); near != "" {
		want = "did you mean " + near + "?"
	}
	return fmt.Errorf("found %.60q; %s", word, want)
}

// short tells whether there are fewer readings than turns of the fusee.
func short(rows [][]value, turns float64) bool {
	most := 0
	for _, row := range rows {
		most = max(most, len(row))
	}
	return float64(most) < math.Floor(turns)+1
}

// oneUnit asks for readings in one unit.
func oneUnit(rows [][]value) error {
	key := ""
	for _, row := range rows {
		for _, v := range row {
			if v.key != "" && key != "" && v.key != key {
				return fmt.Errorf("found readings in two units; want one unit, once before all, as in: cN·m: 55 54 53")
			}
			if v.key != "" {
				key = v.key
			}
		}
	}
	if key == "" {
		return fmt.Errorf("found no reading; want a number for each turn that was read")
	}
	return nil
}

func writeReadings(p *page, train, label string, rows [][]value) {
	p.line("train = " + quoted(train))
	p.line("spring = " + quoted(label))
	key := ""
	for _, row := range rows {
		for _, v := range row {
			if v.key != "" {
				key = v.key
			}
		}
	}
	if key == "running_down_nm" {
		key = "running_down"
	}
	p.line(key + " = [  # one list a run-down")
	for _, row := range rows {
		var all []string
		for _, v := range row {
			all = append(all, v.literal)
		}
		p.line("  [ " + strings.Join(all, ", ") + " ],")
	}
	p.line("]")
}
