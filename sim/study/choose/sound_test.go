package choose

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// A line to order stands only by a spring that suits and has no fault: with a line
// that is near breaking there is none, and the headline tells why.
func TestNoOrderWithAFault(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	if strings.Count(inText(t, sampleStudy(t)), "order: ") != 5 {
		t.Error("the sound sample has not its five lines to order")
	}
	s.Trains[0].Line.BreakingN = 100
	st := study(t, s, 0, drawer(t), asIs)
	got := inText(t, st)
	if c := &st.Candidates[0]; c.Verdict != rules.Suits || len(c.Faults) != 1 {
		t.Fatalf("%v, %v", c.Verdict, c.Faults)
	}
	for _, want := range []string{" SUITS by its torque, but: winding pulls the line with", "size: ", "no line to order, since it has a fault, told below", "mm wide: no line to order: winding pulls", "suits !",
		"! something does not fit or is unsafe whatever the torque", "; ! winding pulls the line"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
	if strings.Contains(got, "order: ") && !strings.Contains(got, "to order: ") || strings.Contains(got, " order: 3") || st.Order() != "" || strings.Contains(got, "it still suits") {
		t.Errorf("a line to order in %s", got)
	}
	for i := range st.Ideals {
		if order := st.Ideals[i].Order(); order != "" {
			t.Errorf("order %s", order)
		}
	}
	whole(t, st)
}

// A spring to be made that does not suit has no line to order either, and its reason.
func TestNoOrderForTheStrong(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, 0, drawer(t), Options{Reserve: 1.8, EndShake: nan})
	got := inText(t, st)
	for _, want := range []string{"! the reserve aimed at, 1.80, lies outside the band that suits, 1.15 to 1.60: a spring that meets it is too strong", "36.2 mm wide: no line to order, since it is strong: the mean torque"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
	for i := range st.Ideals {
		if id := &st.Ideals[i]; id.Order() != "" || id.Verdict == rules.Suits {
			t.Errorf("%v: %s", id.Verdict, id.Order())
		}
	}
}

// What is odd about what was asked for is told in text and JSON.
func TestNotes(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	striking, _ := trial.Compile(t, "strike-quick")
	for _, c := range []struct {
		o        Options
		striking bool
		want     []string
	}{
		{asIs, false, nil}, {asIs, true, nil},
		{Options{Reserve: 1.15, EndShake: 0.2}, false, nil}, {Options{Reserve: 1.6, EndShake: nan}, false, nil},
		{Options{Reserve: 1.1, EndShake: nan}, false, []string{"lies outside the band that suits, 1.15 to 1.60: a spring that meets it is too weak"}},
		{Options{Reserve: 1.7, EndShake: 0}, false, []string{"too strong", "an end shake of 0 mm is less than 0.2 mm"}},
		{Options{Reserve: nan, EndShake: 0.19}, false, []string{"an end shake of 0.19 mm is less than 0.2 mm: a spring that fills what is left will rub on the caps"}},
		{Options{Reserve: 4, EndShake: nan}, true, []string{"lies outside the torques that suit"}},
	} {
		in := s
		if c.striking {
			in = striking
		}
		st := study(t, in, 0, drawer(t), c.o)
		var b bytes.Buffer
		var doc struct{ Notes []string }
		if err := JSON(&b, st); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(b.Bytes(), &doc); err != nil || len(doc.Notes) != len(c.want) || doc.Notes == nil {
			t.Errorf("%+v: %v, %q", c.o, err, doc.Notes)
			continue
		}
		b.Reset()
		if err := Warn(&b, st); err != nil {
			t.Fatal(err)
		}
		for i, want := range c.want {
			if !strings.Contains(doc.Notes[i], want) || !strings.Contains(inText(t, st), "! "+doc.Notes[i]) || !strings.Contains(strings.Join(strings.Fields(b.String()), " "), doc.Notes[i]) {
				t.Errorf("%+v: %q, want %q", c.o, doc.Notes[i], want)
			}
		}
	}
}

// The caution names the spring that holds most of all that can be fitted.
func TestCautionNamesTheStrongest(t *testing.T) {
	st := sampleStudy(t)
	who, most := "", st.Present.Stored
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Refused == "" && c.Stored > most {
			who, most = c.Label, c.Stored
		}
	}
	if want := fmt.Sprintf("Wound, the strongest of these springs, %s, holds %s J", who, words.Figure(most)); who == "" || !strings.HasPrefix(st.Cautions[0], want) {
		t.Errorf("%s, want %s", st.Cautions[0], want)
	}
	s, _ := trial.Compile(t, "eight-day")
	weak := study(t, s, 0, listOf([3]float64{20, 0.33, 1700}), asIs)
	if !strings.HasPrefix(weak.Cautions[0], "Wound, the present spring holds") {
		t.Error(weak.Cautions[0])
	}
}

// Numbers stand below each other by their decimal points.
func TestColumnsAlign(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	list := listOf([3]float64{36, 0.38, 1650}, [3]float64{30.5, 0.4, 1600}, [3]float64{32, 0.405, 1600}, [3]float64{36, 0.5, 1600})
	var b strings.Builder
	if err := (Text{}).Write(&b, study(t, s, 0, list, asIs)); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"36.0  0.380", "30.5  0.400", "32.0  0.405", "36.0  0.500"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in %s", want, b.String())
		}
	}
	if got := inText(t, study(t, s, 0, listOf([3]float64{36, 0.4, 1700}), asIs)); !strings.Contains(got, "order: 36 × 0.40 × 1700 mm") {
		t.Errorf("%s", got)
	}
}
