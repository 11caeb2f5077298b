package text

import (
	"bytes"
	"context"
	"math"
	"regexp"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

func cutText(t testing.TB, name string, number int, co cut.Options, o Options, replace ...string) string {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	if co.Large == 0 {
		co.Large = math.NaN()
	}
	co.Small = math.NaN()
	st, err := cut.Run(context.Background(), s, number, co)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := Cut(&b, st, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// cells are those of the line that begins with a name, at two blanks or more.
func cells(t testing.TB, text, name string) []string {
	t.Helper()
	for line := range strings.Lines(text) {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(line), name+"  "); ok {
			return regexp.MustCompile(` {2,}`).Split(strings.TrimSpace(rest), -1)
		}
	}
	t.Fatalf("no %q in\n%s", name, text)
	return nil
}

// The finding first, then the ways, the reasons, the cone and the cautions.
func TestCutInOrder(t *testing.T) {
	text := cutText(t, "too-strong", 0, cut.Options{Anyway: true}, Options{})
	at := 0
	for _, piece := range []string{"going train: does this cone suit this spring? NO", "as it is   ", "cut, least metal", "  ! as it is the spring binds", "  - leave the set-up as it is: ", "  - cone: ", "  - line: ", "  fusee  along", "Caution: Wound", "Caution: Cutting", "Caution: Take"} {
		i := strings.Index(text[at:], piece)
		if i < 0 {
			t.Fatalf("no %q after what comes before it in\n%s", piece, text)
		}
		at += i
	}
	for line := range strings.Lines(cutText(t, "too-strong", 0, cut.Options{Anyway: true}, Options{Width: 60})) {
		if n := len([]rune(line)); n > 61 && strings.HasPrefix(line, "  - ") {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	if coloured := cutText(t, "too-strong", 0, cut.Options{Anyway: true}, Options{Colour: true}); regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(coloured, "") != text || coloured == text {
		t.Error("colour changes the words, or there is none")
	}
}

// Each cell of the ways against a run of its own, and of the cone against what the
// scenario says.
func TestCutTables(t *testing.T) {
	text := cutText(t, "too-weak", 0, cut.Options{Step: 4, Anyway: true}, Options{Full: true})
	for name, setUp := range map[string]float64{"as it is": 0.5, "set-up advised": 1.25} {
		s, _ := trial.Compile(t, "too-weak")
		s.Trains[0].Barrel.SetUpTurns = setUp
		clock, err := sim.RunClock(s, sim.Options{})
		if err != nil {
			t.Fatal(err)
		}
		d := &clock.Trains[0].Digest
		want := []string{words.Two(setUp), words.Share((d.Torque.Max - d.Torque.Min) / d.Torque.Mean), words.Figure(d.Torque.Mean), words.Two(d.Torque.Mean / 0.33), words.Two(d.Torque.Min / 0.33),
			words.Two(d.Spring.Ideal - setUp - d.Spring.Used), "–", words.Verdict(d.Verdict.Code), "–"}
		if got := cells(t, text, name); strings.Join(got, "|") != strings.Join(want, "|") {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	if got := cells(t, text, "cut, least metal"); got[0] != "1.25" || got[1] != "< 0.01" || got[6] == "–" || got[7] != "SUITS" {
		t.Errorf("%q", got)
	}
	// At the large end nothing comes off: 29.2 mm, over the lands the line more, 16 turns of 2.2 mm along. The torque
	// there is least as it is, and level once cut.
	got := cells(t, text, "16")
	if strings.Join(got[:5], " ") != "35.2 29.20 30.80 29.20 0.00" || got[5] != "0.233" || got[6] != "0.391" || got[7] != "57.2" || got[8] != "1.30" {
		t.Errorf("%q", got)
	}
	if got = cells(t, text, "0"); got[0] != "0.0" || got[3] != "13.00" || got[5] != "0.372" || got[6] != "0.391" {
		t.Errorf("%q", got)
	}
	none := cutText(t, "eight-day", 0, cut.Options{Anyway: true}, Options{Full: true}, "length_mm    = 1650.0", "length_mm    = 300.0")
	if got = cells(t, none, "cut, same set-up"); got[len(got)-2] != "cannot be had" || strings.Count(strings.Join(got, ""), "–") != 8 {
		t.Errorf("%q", got)
	}
	if got = cells(t, cutText(t, "eight-day", 0, cut.Options{FromBlank: true}, Options{Full: true}), "a new cone from blank"); got[6] != "–" {
		t.Errorf("%q", got)
	}
	for _, text := range []string{text, none} {
		if strings.Contains(text, "NaN") || strings.Contains(text, "−0.00") {
			t.Error(text)
		}
	}
}
