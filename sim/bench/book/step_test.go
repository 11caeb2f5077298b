package book

import (
	"math"
	"strings"
	"testing"

	"evenpull/sim/scenario"
)

// TestAssumedStep: a meter without its step has the last digit that was written, of all
// readings that it took, whatever their unit and wherever they stand.
func TestAssumedStep(t *testing.T) {
	const table = "[[torque]]\ntrain = 'a'\nspring = 's'\n"
	for text, want := range map[string]float64{
		table + "running_down = [ [0.46, 0.47] ]":                                                                         0.01,
		table + "running_down = [ [0.550, 0.55] ]":                                                                        0.001,
		table + "running_down_cnm = [ [46, 47] ]":                                                                         0.01,
		table + "running_down = [ [0.46] ]\nwinding_up = [ [0.555] ]":                                                     0.001,
		table + "file = 'b.csv'":                                                                                          0.01,
		table + "file = 'b.csv'\nwinding_up = [ [0.6] ]":                                                                  0.01,
		table + "running_down = [ [0.46] ]\nmeter_resolution_nm = 0.005":                                                  0.005,
		table + "running_down = [ [0.46] ]\nmeter_resolution_nm = 0":                                                      0,
		table + "running_down = [ [0.5, 0.4] ]\n" + strings.Replace(table, "'s'", "'t'", 1) + "running_down = [ [0.46] ]": 0.01,
		table + "running_down = [ [0.5, 0.4] ]\n" + strings.Replace(table, "'s'", "'t'", 1) + "running_down = [ [0.46] ]\ninstrument = 'another'":                       0.1,
		table + "running_down = [ [0.5, 0.4] ]\n" + strings.Replace(table, "'s'", "'t'", 1) + "running_down = [ [0.46] ]\nmeter_resolution_nm = 0.02":                   0.1,
		table + "running_down = [ [0.5, 0.4] ]\nmeter_relative = 0.01\n" + strings.Replace(table, "'s'", "'t'", 1) + "running_down = [ [0.46] ]\nmeter_relative = 0.02": 0.1,
	} {
		b, err := Read(strings.NewReader(text), "b", files(map[string]string{"b.csv": sheetB}))
		if err != nil {
			t.Fatal(text, err)
		}
		q := &b.Torques[0]
		if said := strings.Contains(text, "resolution"); math.Abs(q.MeterResolutionNM-want) > 1e-15 || q.StepAssumed == (said && len(b.Torques) == 1) {
			t.Errorf("%s: %v, %v, want %v", text, q.MeterResolutionNM, q.StepAssumed, want)
		}
	}
}

// TestSlips: what looks like a slip of the pen or of the point, and what does not.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		v, likely, apart float64
		want             string
	}{
		{0.54, 0.45, 0.01, "0.45"}, {0.45, 0.45, 0.01, ""}, {4.5, 0.46, 0.1, "0.45"}, {0.046, 0.45, 0.1, "0.46"}, {45, 0.45, 0, "0.45"}, {0.0045, 0.45, 0, "0.45"},
		{0.54, 0.45, 0.05, ""}, {0.5, 0.45, 0.01, ""}, {0.48, 0.45, 0.01, ""}, {4.5, 0.45, 0.3, ""}, {7.2, 2.7, 0.01, "2.7"}, {2.7, 7.2, 0.01, "7.2"}, {21, 12, 0.01, "12"},
		{0, 0.45, 0, ""}, {math.NaN(), 0.45, 0, ""}, {0.45, math.NaN(), math.NaN(), ""}, {0.45, 0, 0, ""}, {1.1, 0.9, 0, ""},
	} {
		if got := slip(c.v, c.likely, c.apart); got != c.want {
			t.Errorf("%v beside %v ± %v: %q, want %q", c.v, c.likely, c.apart, got, c.want)
		}
	}
}

// TestResolved: the first turn is as it is said, or where the spring went solid, or 0.
func TestResolved(t *testing.T) {
	nan := math.NaN()
	s := &scenario.Scenario{Trains: []scenario.Train{{Name: "going", Fusee: scenario.Fusee{Turns: 14}}}}
	b := &Book{Springs: []Spring{{Label: "A", Train: "going", SolidAtTurn: 12}, {Label: "B", Train: "other", SolidAtTurn: 12}, {Label: "C", Train: "going", SolidAtTurn: nan}, {Label: "E", Train: "going", SolidAtTurn: 15}},
		Torques: []Torque{{Train: "going", Spring: "A", FirstTurn: nan}, {Train: "going", Spring: "A", FirstTurn: 1}, {Train: "going", Spring: "B", FirstTurn: nan}, {Train: "going", Spring: "C", FirstTurn: nan},
			{Train: "going", Spring: "D", FirstTurn: nan}, {Train: "other", Spring: "B", FirstTurn: nan}, {Train: "going", Spring: "E", FirstTurn: nan}}}
	for i, want := range []float64{2, 1, 0, 0, 0, 0, 0} {
		if got := b.Resolved(s).Torques[i].FirstTurn; got != want {
			t.Errorf("%d: %v, want %v", i, got, want)
		}
		if got := b.Resolved(nil).Torques[i].FirstTurn; got != map[bool]float64{true: 1, false: 0}[i == 1] {
			t.Errorf("%d without a scenario: %v", i, got)
		}
	}
	if !math.IsNaN(b.Torques[0].FirstTurn) {
		t.Error("the book itself was changed")
	}
}

// TestBesideInNoFile: a book that was not read has faults without lines.
func TestBesideInNoFile(t *testing.T) {
	b := &Book{Source: "b", Weights: []Weights{{Train: "x"}}, Springs: []Spring{{Label: "A", Train: "x", SolidAtTurn: math.NaN()}}}
	want := "b: weights.1.train: found x, a train that the scenario does not have; want going\nb: spring.1.train: found x, a train that the scenario does not have; want going"
	if err := b.Beside(&scenario.Scenario{Trains: []scenario.Train{{Name: "going"}}}); message(err) != want {
		t.Error(err)
	}
}

// TestTurnsRead: how many readings are wanted, both ways, by what is said of the first.
func TestTurnsRead(t *testing.T) {
	s := &scenario.Scenario{Trains: []scenario.Train{{Name: "a", Fusee: scenario.Fusee{Turns: 3.5}}}}
	for text, want := range map[string]string{
		"running_down = [ [1, 1, 1, 1], [1] ]\n":                     "",
		"running_down = [ [1, 1, 1] ]\n":                             "b:4: torque.1.running_down: found 3 readings, and the fusee of the a train has 3.5 turns; want 4, at 0 to 3 turns paid out; or first_turn",
		"running_down = [ [1, 1, 1] ]\nfirst_turn = 0.5\n":           "",
		"running_down = [ [1, 1, 1, 1] ]\nfirst_turn = 0.5\n":        "",
		"running_down = [ [1, 1, 1, 1] ]\nfirst_turn = 0.75\n":       "b:4: torque.1.running_down: found 4 readings, and the fusee of the a train has 3.5 turns, of which 0.75 are paid out at the first reading; want at most 3",
		"running_down = [ [1, 1, 1, 1] ]\nwinding_up = [ [1, 1] ]\n": "",
		"running_down = [ [1, 1, 1] ]\nwinding_up = [ [1, 1] ]\n":    "b:4: torque.1.running_down: found 3 readings",
		"file = 'b.csv'\n":                     "b:4: torque.1.file: found 2 readings",
		"running_down = [ [1, 1, 1, 1, 1] ]\n": "b:4: torque.1.running_down: found 5 readings, and the fusee of the a train has 3.5 turns; want at most 4, one a turn",
		"running_down = [ [1, 1] ]\n[[spring]]\nlabel = 's'\nsolid_at_turn = 2":       "",
		"running_down = [ [1, 1, 1, 1] ]\n[[spring]]\nlabel = 's'\nsolid_at_turn = 2": "b:4: torque.1.running_down: found 4 readings, and the fusee of the a train has 3.5 turns, of which 1.5 are paid out at the first reading; want at most 3",
		"running_down = [ [1, 1] ]\n[[spring]]\nlabel = 's'\nsolid_at_turn = 4":       "b:7: spring.1.solid_at_turn: found 4; want at most 3.5",
	} {
		b, err := Read(strings.NewReader("[[torque]]\ntrain = 'a'\nspring = 's'\n"+text), "b", files(map[string]string{"b.csv": sheetB}))
		if err != nil {
			t.Fatal(err)
		}
		if got := message(b.Beside(s)); !strings.HasPrefix(got, want) || want == "" && got != "" || strings.Count(got, "\n") > 1 {
			t.Errorf("%s: %s\nwant %s", text, got, want)
		}
	}
}
