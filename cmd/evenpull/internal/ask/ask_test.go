package ask

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/scenario"
)

// all are answers to every question of a clock with one going train, numbers invented.
const all = `Clock (invented)
going
16
0 13.0, 6 15.3, 11 18.5, 14 21.9, 16 29.2
2.2 58
45 33.2 15
49 39
1.25
gut 1.6 1.6
32 0.38
1650
6.9
8.4
96/8 centre, 84/7, 78/7
recoil 30
5
200.1
240
4 2 40
0.33
150 1
400 stops, 440 drags, 480 goes
A
0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.41
1 % 0.005
`

// questions are how many these answer.
const questions = 25

// with are the answers with that of a line, counted from 1, replaced.
func with(line int, by string) string {
	lines := strings.Split(all, "\n")
	lines[line-1] = by
	return strings.Join(lines, "\n")
}

// asked gives what was said and made.
func asked(answers string) (string, Texts, error) {
	var said bytes.Buffer
	t, err := Ask(strings.NewReader(answers), &said, Options{Caution: "Mind the spring.", Echo: true})
	return said.String(), t, err
}

// clock reads what was made; it is to be sound.
func clock(t *testing.T, x Texts) *scenario.Scenario {
	t.Helper()
	s, err := scenario.Read(strings.NewReader(x.Scenario), "made")
	if err != nil {
		t.Fatalf("%v\n%s", err, x.Scenario)
	}
	if x.Book != "" {
		if _, err := book.Read(strings.NewReader(x.Book), "made", nil); err != nil {
			t.Fatalf("%v\n%s", err, x.Book)
		}
	}
	return s
}

// Of a going clock with everything known no more than 25 questions are asked, no line of
// theirs is longer than 80 characters, and before the first that leads to a spring stands the
// caution.
func TestAsked(t *testing.T) {
	said, x, err := asked(all)
	if err != nil {
		t.Fatal(err)
	}
	s := clock(t, x)
	if n := strings.Count(said, "\n> "); n != questions {
		t.Errorf("%d questions", n)
	}
	for line := range strings.Lines(said) {
		if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 && !strings.HasPrefix(line, "> ") {
			t.Errorf("%d characters: %s", n, line)
		}
	}
	before, after, _ := strings.Cut(said, "! Mind the spring.")
	if strings.Contains(before, "barrel of") && !strings.HasSuffix(before, "(3 more after this)\n") || !strings.Contains(after, "diameter of the wall inside") {
		t.Errorf("the caution comes late:\n%s", before)
	}
	if n := strings.Count(said, "! Mind"); n != 7 { // fusee, barrel, mainspring, pendulum, weights, springs, spring A
		t.Errorf("%d cautions", n)
	}
	if !strings.Contains(x.Scenario, "Mind the spring.") || !strings.Contains(x.Book, "Mind the spring.") {
		t.Error("a file without the caution")
	}
	if !strings.Contains(x.Scenario, "[[0, 13.0], ") { // as it was typed: the last digit may be one that was read
		t.Error(x.Scenario)
	}
	tr := &s.Trains[0]
	if s.Title != "Clock (invented)" || len(tr.Fusee.Points) != 5 || tr.Meshes[1].Drives != "third" || tr.Meshes[2].Drives != "escape" || tr.Pendulum.Decay.Periods != 40 ||
		tr.Mainspring.SolidTurns != 8.4 || tr.Demand.LeastTorqueNM != 0.33 {
		t.Errorf("%+v", tr)
	}
}

// What may be unknown may all be unknown: the files read, and say so.
func TestUnknown(t *testing.T) {
	_, x, err := asked("\ngoing\n16\n16 29.2\n2.2 ?\n45 ? 15\n49\n1.25\nwire 1.6\n32 0.38\n?\ndon't know\n?\nDon’t know\n?\n?\n?\n")
	if err != nil {
		t.Fatal(err)
	}
	s := clock(t, x)
	if x.Book != "" || len(s.Trains[0].Meshes) > 0 || s.Trains[0].Fusee.LargeDiameterMM != 29.2 || s.Trains[0].Fusee.Profile != scenario.Even {
		t.Errorf("%s\n%+v", x.Book, s.Trains[0])
	}
	for _, say := range []string{"title = \"My clock\"  # not known", "# free_coils: not known", "# solid_turns: not known", "# outside_length_mm: not known; the inside height stands for it",
		"# inside_height_mm: not known", "# length_mm: not known", "# centre_distance_mm: not known", "# not known: the teeth of the wheel; the drive alone is computed", "# least_torque_nm: not known"} {
		if !strings.Contains(x.Scenario, say) {
			t.Errorf("%q is not said:\n%s", say, x.Scenario)
		}
	}
	// Something of a group: all of it is left out, and what comes after is not asked.
	for line, want := range map[int]string{15: "the kind", 16: "the escaping arc", 18: "the mass", 19: "the first semi-arc"} {
		lines := strings.Split(with(line, "?"), "\n")
		_, x, err := asked(strings.Join(append(lines[:line:line], lines[19:]...), "\n"))
		if err != nil {
			t.Errorf("%s: %v", want, err)
			continue
		}
		if s := clock(t, x); s.Trains[0].Escapement != nil || s.Trains[0].Pendulum != nil || !strings.Contains(x.Scenario, "# not known: "+want) {
			t.Errorf("%s:\n%s", want, x.Scenario)
		}
	}
}

// wrongAnswer is one to the question that a line of answers belongs to, counted from 1, and
// what is said of it.
type wrongAnswer struct {
	line         int
	answer, says string
}

// refused gives all the wrong answers, each before the right one: each is told with what was
// found and what would be accepted, the question comes again, and what is made is the same.
func refused(t *testing.T, answers string, wrong []wrongAnswer) {
	t.Helper()
	lines := strings.Split(answers, "\n")
	for _, w := range slices.Backward(wrong) {
		lines[w.line-1] = w.answer + "\n" + lines[w.line-1]
	}
	_, plain, err := asked(answers)
	if err != nil {
		t.Fatal(err)
	}
	said, x, err := asked(strings.Join(lines, "\n"))
	said = strings.Join(strings.Fields(said), " ")
	if err != nil || x != plain {
		t.Errorf("%v\n%s", err, x.Scenario)
	}
	for _, w := range wrong {
		_, after, _ := strings.Cut(said, "> "+strings.Map(shown, strings.TrimSpace(w.answer))+" ! ")
		says, _, _ := strings.Cut(after, "> ")
		if !strings.Contains(says, w.says) {
			t.Errorf("%d %s: not %q but %.300s", w.line, w.answer, w.says, after)
		}
		said = after
	}
}

// A wrong answer is told with what was found and what would be accepted, and asked again.
func TestWrong(t *testing.T) {
	refused(t, all, []wrongAnswer{
		{1, "back", "this is the first question"},
		{2, "going going", `found "going" after all that was asked`},
		{2, "going, going", `found "going" again; want a name that no other train has`},
		{2, "place", "place names something else"},
		{3, "0.1", "found 0.1; want a number from 0.5 to 64 turns"},
		{3, "16,5", "found 16,5; want a decimal point"},
		{3, "sixteen", `turns: found "sixteen"; want a number`},
		{3, "16 mm", `found the unit "mm"; want no unit`},
		{3, "?", "this has to be known"},
		{4, "0 13, 6 15.3, 15 29", "found a point at turn 15; want the large end last, at turn 16"},
		{4, "16 13, 6 15.3, 0 29", "want the small end first, at turn 0"},
		{4, "0 13, 15 29", "found 2 of the diameters, one at turn 15; want the small end at turn 0"},
		{4, "0 13 in, 16 29.2", "found 29.2 without a unit beside 13 in; want the unit with each number, or once before all, as in: in: "},
		{4, "13, 15, 29", "diameter of the groove's bottom there: found nothing"},
		{5, "2.2 58\x07", "control character"},
		{6, "45 33.2", "arbor diameter: found nothing; want a number from 0.5 to 2000 mm"},
		{6, "1.77 in 33.2 15", "found 33.2 without a unit beside 1.77 in; want the unit with each number, or once before all"},
		{6, "45 33.2 50", "found 50; want less than inside_diameter_mm, 45 mm"},
		{6, "45 33.2 15 7", `found "7" after all that was asked`},
		{6, "? 33.2 15", "inside diameter: found ?, and it has to be known"},
		{7, "40 39", "found 40; want more than inside_diameter_mm, 45 mm"},
		{9, "1.6 1.6", `found "1.6"; want "gut", "wire" or "chain"`},
		{9, "rope 1.6", `found "rope"; want "gut", "wire" or "chain"`},
		{10, "34 0.38", "found 34, 0.8 mm too wide for the barrel"},
		{10, "32 0.38 kg", `found the unit "kg"; want mm, cm, m, in`},
		{10, "32 −0.38", `want a number typed plainly: -0.38`},
		{11, "16500", "too long for the barrel"},
		{14, "96/8, 84", "leaves of the pinion: found nothing; want a whole number from 2 to 10000"},
		{14, "96.5/8", "want a whole number from 2 to 10000"},
		{15, "anchor 30", `found "anchor"; want "recoil", "verge" or "deadbeat"`},
		{17, "200 kg", `found the unit "kg"; want mm, cm, m, in, beats`},
		{19, "4 2", "found 2 of the values; want the first semi-arc, the last and the periods"},
		{19, "2 4 40", "found 4; want less than from_deg, 2 deg"},
		{20, "0", "found 0; want a number from 0.000001 to 10000 N·m"},
		{21, "0.5", "found 0.5; want a number from 2 to 4000 mm"},
		{22, "400", "what the train did: found nothing; want goes, stops or drags"},
		{22, "400 maybe", `what the train did: found "maybe"; want goes, stops or drags`},
		{23, "A, A", `found "A" again; want a label that no other spring has`},
		{24, "1 in", `found the unit "in"; want N·m, mN·m, cN·m`},
		{24, "-", "found no reading"},
		{24, "0.42 N·m; 42 cN·m", "found readings in two units"},
		{24, "42 42 41 42 42 42 42 42 42 42 42 42 42 42 42 42 41", "written in cN·m? running_down_cnm"},
		{24, "0.42 0.42 0.42 4.2 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.42 0.41 0.41", "found 4.2, where the readings about it tell 0.42"},
		{24, strings.Repeat("0.42 ", 18), "found 18 readings, and the fusee of the going train has 16 turns"},
		{25, "90 %", "found 0.9; want a number from 0 to 0.5"},
	})
}

// "back" goes one question back, also out of a part; = leaves what was answered, and what had
// been answered after it is not asked again.
func TestBack(t *testing.T) {
	_, plain, err := asked(all)
	if err != nil {
		t.Fatal(err)
	}
	for line, answers := range map[int]string{7: "back\n=\n49 39", 8: "back\nback\n45 33.2 15\n1.25", 3: "BACK\ngoing\n16"} {
		if _, x, err := asked(with(line, answers)); err != nil || x != plain {
			t.Errorf("%d: %v", line, err)
		}
	}
	if _, x, err := asked(with(8, "back\n51 40\n1.25")); err != nil || clock(t, x).Trains[0].Barrel.OutsideDiameterMM != 51 {
		t.Error(err)
	}
}

// A reading that is missing keeps its place.
func TestMissingReading(t *testing.T) {
	_, x, err := asked(with(24, "cN·m: - 42 42 42 42 42 42 - 42 42 42 42 42 42 42 42 -; 42 42 42 42 42 42 42 42 42 42 42 42 42 42 42 42 41"))
	if err != nil || !strings.Contains(x.Book, "running_down_cnm = ") || !strings.Contains(x.Book, `[ "-", 42, 42, 42, 42, 42, 42, "-", 42, 42, 42, 42, 42, 42, 42, 42, "-" ],`) {
		t.Errorf("%v\n%s", err, x.Book)
	}
}

// A fault that an earlier answer has a part in leads back to the question that can mend it.
func TestLedBack(t *testing.T) {
	lines := strings.Split(all, "\n")
	lines[7], lines[19] = "9.5", "0.33\n1.25" // more set-up than the spring has turns for, which all of the train tells
	said, x, err := asked(strings.Join(lines, "\n"))
	if err != nil || !strings.Contains(strings.Join(strings.Fields(said), " "), "want less set-up, or a spring with more turns") {
		t.Fatal(err, said)
	}
	if got := clock(t, x).Trains[0].Barrel.SetUpTurns; got != 1.25 {
		t.Error(got)
	}
}

// A pendulum may be told by its beats.
func TestBeats(t *testing.T) {
	_, x, err := asked(with(17, "133.7 beats"))
	if err != nil || clock(t, x).Trains[0].Pendulum.BeatsPerMinute != 133.7 {
		t.Error(err)
	}
}

// Answers that end in the middle give nothing, and say where.
func TestEnds(t *testing.T) {
	lines := strings.SplitAfter(all, "\n")
	for n := 0; n < questions; n += 3 {
		_, x, err := asked(strings.Join(lines[:n], ""))
		if !errors.Is(err, ErrEnd) || x != (Texts{}) {
			t.Errorf("%d answers: %v, %v", n, err, x)
		}
	}
	if _, _, err := asked("a\ngoing\nx\n"); err == nil || !strings.Contains(err.Error(), "of the fusee of the going train: the turns (answers not taken before: 1, the first: turns: found \"x\"") {
		t.Error(err)
	}
}

// Answers in other units give the same clock to 1e-12.
func TestUnits(t *testing.T) {
	in := func(v float64) string { return fmt.Sprintf("%.17g", v/25.4) }
	lines := strings.Split(all, "\n")
	lines[3] = "in: 0 " + in(13) + ", 6 " + in(15.3) + ", 11 " + in(18.5) + ", 14 " + in(21.9) + ", 16 " + in(29.2)
	lines[4] = "2.2 mm 5.8 cm"
	lines[5] = in(45) + " in " + in(33.2) + `" ` + in(15) + " inches"
	lines[6] = "in: " + in(49) + " " + in(39)
	lines[8] = "in: gut " + in(1.6) + " " + in(1.6)
	lines[9] = "in: " + in(32) + " x " + in(0.38)
	lines[10] = "1.65m"
	lines[16] = "20.01 cm"
	lines[17] = fmt.Sprintf("%.17g oz", 240/28.349523125)
	lines[19] = "33 cN·m"
	_, x, err := asked(strings.Join(lines, "\n"))
	if err != nil {
		t.Fatal(err)
	}
	_, plain, _ := asked(all)
	s, want := clock(t, x), clock(t, plain)
	all, were := s.Quantities(), want.Quantities()
	if len(all) != len(were) || len(all) < 40 {
		t.Fatalf("%d quantities, %d", len(all), len(were))
	}
	for i := range all {
		got, err1 := s.Value(all[i].Key)
		is, err2 := want.Value(were[i].Key)
		if err := errors.Join(err1, err2); err != nil || !(math.Abs(*got-*is) <= 1e-12*math.Abs(*is)) {
			t.Errorf("%s: %v, %.17g, want %.17g", all[i].Key, err, *got, *is)
		}
	}
}

// The tables of the protocol name what they hold as it is asked for, with the unit.
func TestProtocolNames(t *testing.T) {
	text, _ := scenarios.PageText("protocol")
	_, tables, _ := strings.Cut(text, "## Tables to print")
	s := &session{given: map[string]*answer{
		"trains":  {rows: [][]value{{{literal: `"going"`}}}},
		"springs": {rows: [][]value{{{literal: `"A"`}, {}, {}}}},

		"weights.going.pulley": {},
	}}
	named := 0
	for _, q := range s.questions() {
		if !q.spring && !strings.HasPrefix(q.id, "going.pitch") && !strings.HasPrefix(q.id, "going.line") && !strings.Contains(q.id, "trials") && !strings.Contains(q.id, "meter") ||
			q.id == "going.decay" {
			continue
		}
		for _, slot := range q.slots {
			if slot.list { // readings, each by its turn
				continue
			}
			named++
			name := slot.words
			if units := scenario.UnitWords(slot.key); len(units) > 0 {
				name += ", " + units[0]
			}
			if !strings.Contains(tables, name) {
				t.Errorf("%s: the tables lack %q", q.id, name)
			}
		}
	}
	if named < 20 {
		t.Error(named)
	}
}

// hours are answers for a clock with a striking train of that name beside a going one, of
// which the drive alone is known.
const hours = `Striking clock (invented)
going, hours
16
0 13, 16 29.2
2.2
45 33.2 15
49
1.25
gut 1.6
32 0.38
1650
?
?
?
?
striking
16
0 12, 8 15.1, 16 22
2.2
45 33.2 15
49 39
1.25
chain 1.8 1.6
32 0.42
1500
?
?
78/8, 64/8, 56/7 warning, 54/9, 54/9, 54/9, 54/9, 48/6
second 8 78
0.35
30 g 16 0.4, 1 oz 12 0.3
2 24 1 15 0.6
1 1.7
?
radius 75
320 stops, 340 2.56, 450 1.63
B, A
hours
0.55 0.55 0.55 0.54 0.54 0.54 0.54 0.54 0.54 0.54 0.54 0.54 0.54 0.54 0.54 0.54 0.53
2 % 1 cN·m
going
?
`

// A striking train, its hammers, its fly and what it did under weights stand where they
// belong; a spring without readings is left out.
func TestStriking(t *testing.T) {
	_, x, err := asked(hours)
	if err != nil {
		t.Fatal(err)
	}
	s := clock(t, x)
	tr := &s.Trains[1]
	var names []string
	for _, m := range tr.Meshes {
		names = append(names, m.Drives)
	}
	if got := strings.Join(names, " "); got != "second third warning fifth sixth seventh arbor-8 fly" {
		t.Error(got)
	}
	if s.Trains[0].Fusee.Profile != scenario.Cone || s.Trains[0].Fusee.SmallDiameterMM != 13 || s.Trains[0].Fusee.LargeDiameterMM != 29.2 {
		t.Errorf("%+v", s.Trains[0].Fusee)
	}
	k, f := tr.Strike, tr.Fly
	if tr.Kind != scenario.Striking || k.PinArbor != "second" || k.Pins != 8 || k.BlowsPer12H != 78 || k.LiftShare != 0.35 ||
		k.Hammers[0] != (scenario.Hammer{MassG: 30, LiftMM: 16, SpringN: 0.4}) || k.Hammers[1] != (scenario.Hammer{MassG: 453.59237 / 16, LiftMM: 12, SpringN: 0.3}) {
		t.Errorf("%+v", k)
	}
	if f.Vanes != 2 || f.WidthMM != 24 || f.InnerRadiusMM != 1 || f.OuterRadiusMM != 15 || f.ThicknessMM != 0.6 || tr.Demand.BlowIntervalS != (scenario.Range{Lo: 1, Hi: 1.7}) ||
		tr.Line.ThicknessMM != 1.8 || tr.Line.WidthMM != 1.6 {
		t.Errorf("%+v, %+v, %+v", f, tr.Demand, tr.Line)
	}
	b, err := book.Read(strings.NewReader(x.Book), "made", nil)
	if err != nil || len(b.Weights) != 1 || len(b.Torques) != 1 {
		t.Fatalf("%v\n%s", err, x.Book)
	}
	w, r := &b.Weights[0], &b.Torques[0]
	if w.Train != "hours" || w.PulleyRadiusMM != 75 || len(w.Trials) != 3 || *w.Trials[0].Runs || w.Trials[2].BlowIntervalS != 1.63 || w.Trials[2].MassG != 450 {
		t.Errorf("%+v", w)
	}
	if r.Spring != "B" || r.Train != "hours" || r.RunningDown[0][16] != 0.53 || r.MeterRelative != 0.02 || r.MeterResolutionNM != 0.01 {
		t.Errorf("%+v", r)
	}
}

// Wrong answers to what a striking train and several trains are asked.
func TestWrongStriking(t *testing.T) {
	refused(t, hours, []wrongAnswer{
		{16, "hour", `found "hour"; want "going" or "striking"`},
		{29, "first 8 78", `found "first"`},
		{31, "30 16", "spring force: found nothing; want a number"},
		{32, "2 24 0 15 0.6; 2 24 0 15 0.6", "found several; want one"},
		{33, "1.7 1", "found [ 1.7, 1 ]"},
		{33, "1", "found 1 of the values; want two in one unit"},
		{36, "320 often", `what the train did: found "often"; want the seconds from blow to blow`},
		{38, "hour", `found "hour"; did you mean hours?`},
		{41, "chimes", `found "chimes"; want one of going, hours`},
	})
}

// Fewer readings than turns: it is asked where they stand, by the first or by the turn at which
// the spring went solid.
func TestShort(t *testing.T) {
	for first, want := range map[string]string{
		"1":        "]\nfirst_turn = 1\n",
		"solid 12": "\n[[spring]]\nlabel = \"A\"\ntrain = \"going\"\nsolid_at_turn = 12\n",
	} {
		s := &session{given: map[string]*answer{}}
		for _, given := range [][2]string{{"trains", "going"}, {"going.turns", "16"}, {"springs", "A"}, {"spring.A.readings", "0.42 0.41"}, {"spring.A.first", first}} {
			list := s.questions()
			i := slices.IndexFunc(list, func(q question) bool { return q.id == given[0] })
			if i < 0 {
				t.Fatalf("%s is not asked", given[0])
			}
			rows, err := list[i].read(given[1])
			if err != nil {
				t.Fatal(err)
			}
			s.given[given[0]] = &answer{rows: rows}
		}
		if got := s.book().b.String(); !strings.Contains(got, want) || strings.Count(got, "12") != strings.Count(first, "12") {
			t.Errorf("%s:\n%s", first, got)
		}
	}
}
