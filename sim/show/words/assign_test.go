package words_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// levelSprings is a train that needs 0.37 N·m by weights of no doubt, 490.0 g at
// 77 mm, and springs of level torque.
func levelSprings(t testing.TB, torques ...float64) *book.Book {
	var text strings.Builder
	text.WriteString("[[weights]]\ntrain = \"going\"\npulley_radius_mm = 77\ntrials = [ { mass_g = 489.9, runs = false }, { mass_g = 490.1, runs = true } ]\n")
	for i, v := range torques {
		fmt.Fprintf(&text, "[[torque]]\ntrain = \"going\"\nspring = \"S%d\"\nmeter_relative = 0.01\nrunning_down = [ [%v, %v], [%v, %v] ]\n", i+1, v, v, v, v)
	}
	return bench.Read(t, text.String())
}

func TestAssignNotes(t *testing.T) {
	s := bench.Scenario(t)
	tied := bench.Assign(t, levelSprings(t, 0.50, 0.50), nil)
	wantOne(t, "a tie", words.AssignNotes(tied), "the next best would be S2 to the going train (suits)")
	wantOne(t, "left over", words.AssignNotes(tied), "2 springs and 1 train: some are left over")
	border := bench.Assign(t, levelSprings(t, 0.427), nil)
	if err := border.Draw(t.Context(), 200, 1); err != nil {
		t.Fatal(err)
	}
	if head, does := words.AssignHead(border), words.PairDoes(&border.Pairs[0], words.Verdict); !strings.HasSuffix(head, ", sure to 100 in 100") || !strings.Contains(does, ", sure to ") || !strings.HasSuffix(does, " in 100, else thin") {
		t.Errorf("%q, %q", head, does)
	}
	sample := bench.Assign(t, bench.Book(t), s)
	wantOne(t, "the next", words.AssignNotes(sample), "the next best would be ")
	wantOne(t, "carried", words.AssignNotes(sample), "comes in its barrel")
	wantOne(t, "as read", words.AssignNotes(bench.Assign(t, bench.Book(t), nil)), "its torque depends on that train's fusee")
	few := levelSprings(t, 0.46)
	few.Torques[0].RunningDown[0] = few.Torques[0].RunningDown[0][:2]
	few.Torques[0].RunningDown = few.Torques[0].RunningDown[:1]
	st := bench.Assign(t, few, s)
	wantOne(t, "too few turns", words.AssignNotes(st), "spring S1, read in the going train, is not judged: too few turns were read: 2, want at least 3")
	wantOne(t, "none", words.AssignNotes(st), "1 spring and 3 trains: some are left over")
	if head := words.AssignHead(st); head != "None of the springs can be advised for any train" {
		t.Errorf("%q", head)
	}
	for what, r := range map[string]assign.Reading{
		"the torque of spring A read again, with three repeats, in the going train":                        {What: assign.Torque, Spring: "A", Train: "going", Sure: 0.9},
		"weights hung on the going train until it just runs, or strikes as liked":                          {What: assign.Weights, Train: "going", Sure: 0.9},
		"the turns of spring A from rest to solid counted by hand in its barrel (read in the going train)": {What: assign.TurnsToSolid, Spring: "A", Train: "going", Sure: 0.9},
	} {
		st.Settles = r
		wantOne(t, "settles", words.AssignNotes(st), "what would settle it best: "+what+"; were it known exactly, the choice would be sure to 90 in 100")
	}
	s.Trains[0].Barrel.ArborDiameterMM = s.Trains[0].Barrel.InsideDiameterMM - 1
	b := bench.Book(t)
	b.Weights = b.Weights[1:]
	wantOne(t, "a train that cannot run", words.AssignNotes(bench.Assign(t, b, s)), "a train is left out: going.")
}

// A spring that binds is never said to suit.
func TestNotSaidToSuit(t *testing.T) {
	b, s := bench.Book(t), bench.Scenario(t)
	b.Weights, b.Torques = nil, b.Torques[:1]
	s.Trains = s.Trains[:2]
	s.Trains[1].Barrel.SetUpTurns += 2.5
	st := bench.Assign(t, b, s)
	p := &st.Pairs[1]
	if p.Train != "striking" || !(p.TurnsLost > 0) || p.Sound() {
		t.Fatalf("%+v", p)
	}
	st.Best = []int{1}
	wantOne(t, "fault", words.AssignFaults(st), "spring A in the striking train: the spring binds solid")
	if head := words.AssignHead(st); strings.Contains(head, "suits best") {
		t.Error(head)
	}
	if does := words.PairDoes(p, words.Small); !strings.Contains(does, " by its torque") || !strings.HasSuffix(does, ", but binds: "+words.Figure(p.TurnsLost)+" turns lost") {
		t.Error(does)
	}
	wantOne(t, "no faults", words.AssignFaults(bench.Assign(t, bench.Book(t), bench.Scenario(t))), "")
}

// Reasons of readings that stand as they were read tell no turn or day that is not
// known.
func TestReasonsAsRead(t *testing.T) {
	for torque, code := range map[float64]rules.Code{0.3: rules.Stops, 0.4: rules.Thin, 0.46: rules.Suits, 0.7: rules.Strong, 0.93: rules.Overdriven} {
		p := &bench.Assign(t, levelSprings(t, torque), nil).Pairs[0]
		if p.Verdict.Code != code {
			t.Fatalf("%v N·m: %v", torque, p.Verdict.Code)
		}
		for _, s := range append(words.Reasons(&p.Digest), words.Notes(&p.Digest)...) {
			if strings.Contains(s, "NaN") || strings.Contains(s, "–") || strings.Contains(s, "day") {
				t.Errorf("%v: %s", code, s)
			}
		}
		if math.IsNaN(p.StopsAt) != (code != rules.Stops) {
			t.Errorf("%v: stops at %v", code, p.StopsAt)
		}
	}
	// A cadence that was timed is told by its intervals.
	st := bench.Assign(t, bench.Book(t), nil)
	for i := range st.Pairs {
		p := &st.Pairs[i]
		if p.Standard.Basis == rules.ByCadence && p.Verdict.Code == rules.Suits && !holds(words.Reasons(&p.Digest), "on which it would strike every 0.800 s") {
			t.Errorf("%q", words.Reasons(&p.Digest))
		}
		for _, s := range words.Reasons(&p.Digest) {
			if strings.Contains(s, "stalls") || strings.Contains(s, "NaN") {
				t.Errorf("%+v: %s", p.Standard, s)
			}
		}
	}
}

// A choice that leaves a spring too few turns to spare says so, and for which.
func TestFewTurnsOfAChoice(t *testing.T) {
	st := bench.Assign(t, bench.Book(t), bench.Scenario(t))
	p := &st.Pairs[st.Best[1]]
	says := "spring " + p.Label + " in the " + p.Train + " train: only "
	p.Counted, p.Spring.Ideal = false, p.Spring.Used+p.Spring.SetUp+0.25
	wantOne(t, "few turns", words.AssignNotes(st), says+"0.250 turns are to spare when wound, even were its coils ideally packed")
	p.Spring.Ideal += 1
	if holds(words.AssignNotes(st), says) {
		t.Errorf("turns enough: %q", words.AssignNotes(st))
	}
}
