package words_test

import (
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/letter"
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
	st, err := letter.Of(t.Context(), s, b, nil, sure.Options{Draws: 50, Seed: 1})
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
