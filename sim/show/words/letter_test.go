package words_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/found"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/letter"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sure"
)

// said is all that a letter says, a part a line.
func said(st *letter.Study) string {
	var text strings.Builder
	for _, p := range words.LetterParts(st) {
		text.WriteString(p.Title + ": " + strings.Join(p.Says, " ") + "\n")
	}
	return text.String()
}

// A letter says in plain words what was found, and never a key or a statistic.
func TestLetter(t *testing.T) {
	b, s := bench.Book(t), bench.Scenario(t)
	b.Letter.Workshop, b.Letter.Owner, b.Letter.Date = "The bench", "the owner", "2026-11-26"
	st, err := letter.Of(t.Context(), s, bench.Clock(t, b, s), nil, sure.Options{Draws: 50, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	text := said(st)
	for _, want := range []string{
		"What was found: The going train needs a pull of about 0.348 N·m at the winding square.", "Spring C goes into the going train",
		"Spring A goes into the striking train", "Spring B goes into the quarters train", "That this is the best way to place them is ", "What to order: Nothing.",
		"No fusee was cut: cutting cannot be undone", "where one of those there suits: going, striking and quarters.", "With care: Wound, the strongest spring of this clock holds", "let-down key",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	for _, never := range []string{"_mm", "mainspring.", "95 %", "χ²", "standard", "NaN", "%!"} {
		if strings.Contains(text, never) {
			t.Errorf("%q in\n%s", never, text)
		}
	}
	if head := strings.Join(words.LetterHead(st), "|"); head != "The bench|To the owner|2026-11-26" {
		t.Error(head)
	}
	st.Historic = true
	if !strings.Contains(said(st), "the clock is historic") {
		t.Error("historic or not is not told")
	}
	st.Trains[1].In = nil
	st.Assign.Settles = assign.Reading{What: assign.Weights, Train: "going", Sure: 0.9}
	text = said(st)
	for _, want := range []string{"None of the springs is right for the striking train", "The least weight on which the going train runs; it would make the choice of springs surer."} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

// What a train does on its spring, and how sure that is, is told in words for every verdict.
func TestLetterVerdicts(t *testing.T) {
	for code, want := range map[rules.Code]string{rules.Suits: "suits it", rules.Thin: "too little to spare", rules.Strong: "stronger than it needs", rules.Overdriven: "far stronger", rules.Stops: "too weak", rules.Unjudged: "could not be judged"} {
		for same, sure := range map[float64]string{0.995: "as good as certain", 0.96: "very likely", 0.91: "likely (better than 9 in 10)", 0.8: "likely, but not more", 0.5: "not certain: see what to measure next"} {
			st := &letter.Study{Trains: []letter.Train{{Name: "going", Now: sim.Unknown()}}}
			st.Trains[0].Now.Verdict.Code = code
			st.Trains[0].Now.Verdict.Sureness = sim.Sureness{Draws: 100, Same: same}
			if text := said(st); !strings.Contains(text, want) || code != rules.Unjudged && !strings.Contains(text, sure) {
				t.Errorf("%v to %v: %s", code, same, text)
			}
		}
	}
}

// What is right in the dealer's list is to be ordered, with its size; what is not is said to
// be none, and without a list that one would tell.
func TestLetterOrders(t *testing.T) {
	text, _ := scenarios.StockText(scenarios.DefaultStock)
	list, err := stock.Read(strings.NewReader(text), "stock")
	if err != nil {
		t.Fatal(err)
	}
	s, _ := trial.Compile(t, "too-strong")
	st, err := letter.Of(t.Context(), s, nil, list, sure.Options{Draws: 20, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	o := st.Trains[0].Order
	if !o.Best().Orders() {
		t.Fatalf("%+v is not to be ordered", o.Best())
	}
	best := o.Best()
	want := "What to order: For the going train spring " + best.Label + " of the dealer's list, " + words.ChooseSize(best) + "; it suits it; this is "
	if got := said(st); !strings.Contains(got, want) {
		t.Errorf("no %q in\n%s", want, got)
	}
	st.Trains[0].Given = nil
	if got := said(st); !strings.Contains(got, "For the going train nothing is left in the dealer's list: what is right for it goes into another train.") {
		t.Error(got)
	}
	best.Digest.Verdict.Code = rules.Stops
	if got := said(st); !strings.Contains(got, "What to order: For the going train nothing in the dealer's list is right.") {
		t.Error(got)
	}
	o.Candidates = nil
	if got := said(st); !strings.Contains(got, "For the going train nothing in the dealer's list is right.") {
		t.Error(got)
	}
	st.Trains[0].Order = nil
	if got := said(st); !strings.Contains(got, "What to order: For the going train another spring is wanted; with a dealer's list we can say which.\n") || strings.Contains(got, "one of those there suits") {
		t.Error(got)
	}
}

// clock is a letter of trains whose springs suit them.
func clock(names ...string) *letter.Study {
	st := new(letter.Study)
	for _, name := range names {
		d := sim.Unknown()
		d.Verdict.Code, d.Need.Used, d.Torque.Mean, d.TurnsLost = rules.Suits, 0.35, 0.5, 0
		st.Trains = append(st.Trains, letter.Train{Name: name, Now: d})
	}
	return st
}

// wantPart wants a part of a letter to say just this; "" that it is left out.
func wantPart(t *testing.T, st *letter.Study, id, want string) {
	t.Helper()
	got := ""
	for _, p := range words.LetterParts(st) {
		if p.ID == id {
			got = strings.Join(p.Says, " ")
		}
	}
	if got != want {
		t.Errorf("%s: %q, want %q", id, got, want)
	}
}

func TestLetterSure(t *testing.T) {
	st := clock("going")
	s := &st.Trains[0].Now.Verdict.Sureness
	s.Draws = 1
	for same, want := range map[float64]string{0.99: "as good as certain", 0.989: "very likely (better than 19 in 20)", 0.95: "very likely", 0.949: "likely (better than 9", 0.9: "likely (better than 9", 0.899: "likely, but not more", 0.75: "likely, but not more", 0.749: "not certain"} {
		s.Same = same
		if text := said(st); !strings.Contains(text, "and suits it; this is "+want) {
			t.Errorf("%v: no %q in %s", same, want, text)
		}
	}
}

func TestLetterFinds(t *testing.T) {
	st := clock("going", "striking")
	st.Trains[1].Now.TurnsLost, st.Trains[1].Now.Need.Used, st.Trains[1].Now.Verdict.Code = 0.5, math.NaN(), rules.Strong
	st.Refused = []error{errors.New("it is broken")}
	wantPart(t, st, "found", "The going train needs a pull of about 0.350 N·m at the winding square. The spring in it gives 0.500 N·m on average, and suits it. "+
		"The striking train. The spring in it gives 0.500 N·m on average, and is stronger than it needs. Its spring goes solid before the fusee is fully wound. One train could not be worked out: it is broken.")
	wantPart(t, st, "springs", "")
	st.Assign = &assign.Study{Sure: math.NaN(), Pairs: []assign.Pair{{Label: "A", Train: "going", Digest: sim.Digest{TurnsLost: 1}}}}
	wantPart(t, st, "found", "The going train needs a pull of about 0.350 N·m at the winding square. One train could not be worked out: it is broken.")
	wantPart(t, st, "springs", "None of the springs is right for the going train: A binds there. None of the springs is right for the striking train.")
}

func TestLetterNext(t *testing.T) {
	st := clock("going", "striking", "quarters", "chimes", "music")
	wantPart(t, st, "next", "")
	for i := range st.Trains {
		tr := &st.Trains[i]
		tr.Now.Verdict.Sureness.Decides.Inputs[0] = sim.Decider{Key: "a", Words: "thickness of the mainspring of the " + tr.Name + " train"}
	}
	decides := func(names ...string) string {
		var all []string
		for _, name := range names {
			all = append(all, "For the "+name+" train the thickness of the mainspring, which decides how sure its verdict is.")
		}
		return strings.Join(all, " ")
	}
	wantPart(t, st, "next", decides("going", "striking", "quarters", "chimes"))
	pair := [][2]int{{0, 1}}
	st.Assign = &assign.Study{Sure: math.NaN(), Found: []*found.Spring{{Label: "A", Why: found.ErrFew}, {Label: "B", Apart: pair}, {Label: "C"}, {Label: "D", Apart: pair}}}
	lies := "The pull of spring A at more turns of the fusee: it could not be judged from what was read. The coils that springs B and D show lying free on the bench: they tell the steel. "
	wantPart(t, st, "next", lies+decides("going", "striking"))
	surer := "; it would make the choice of springs surer. "
	for what, want := range map[assign.What]string{assign.Torque: "The pull of spring B once more, three times over, in the going train", assign.TurnsToSolid: "The turns of spring B from rest to solid, counted by hand in its barrel"} {
		st.Assign.Settles = assign.Reading{What: what, Spring: "B", Train: "going"}
		wantPart(t, st, "next", want+surer+lies+decides("going"))
	}
}

// What stays is named, but not what is stronger than its train needs, and not the scenario's
// spring where others were to be placed.
func TestLetterLeaves(t *testing.T) {
	st := clock("going", "striking", "quarters")
	st.Trains[1].Now.Verdict.Code = rules.Strong
	st.Trains[2].Order = new(choose.Study)
	none := "No fusee was cut: cutting cannot be undone, and another set-up or another spring comes first."
	wantPart(t, st, "left", none+" No new spring was looked for where one of those there suits: going.")
	st.Assign = &assign.Study{Sure: math.NaN()}
	wantPart(t, st, "left", none)
	st.Trains[0].In = new(assign.Pair)
	wantPart(t, st, "left", none+" No new spring was looked for where one of those there suits: going.")
}

// A spring that stays is set up anew where that is advised.
func TestLetterSetUp(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	s.Trains[0].Barrel.SetUpTurns = 0.1
	up, err := setup.Run(t.Context(), s, 0)
	if err != nil || up.First() != rules.AnotherSetUp {
		t.Fatalf("%v, %+v", err, up.Finding)
	}
	st := clock("going")
	st.Trains[0].SetUp = up
	wantPart(t, st, "springs", "The spring of the going train stays; it is to be set up anew, with "+words.TurnsAndClicks(up.Advised)+" left in it when the fusee has run down.")
}
