package text_test

import (
	"bytes"
	"context"
	"regexp"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"
)

// What is advised comes first, then a row for the present set-up,
// one for the best, and some of the others in order.
func TestSetUp(t *testing.T) {
	for _, c := range []struct {
		setUp    string
		now, end string
	}{{"1.3333333333333333", ", now and best", ""}, {"1.5", ", now", ", best"}, {"0.5", ", now", ", best"}} {
		s, _ := trial.Compile(t, "eight-day", "set_up_turns        = 1.25", "set_up_turns = "+c.setUp)
		st, err := setup.Run(context.Background(), s, 0)
		if err != nil {
			t.Fatal(err)
		}
		said := written(t, func(b *bytes.Buffer) error { return text.SetUp(b, st, text.Options{Full: true}) })
		if !strings.HasPrefix(said, "going train: "+words.SetUpAdvice(st)[:20]) || !strings.Contains(said, "let-down key") || strings.Count(said, c.now) != 1 || c.end != "" && strings.Count(said, c.end) != 1 {
			t.Errorf("%s", said)
		}
		flat := strings.Join(strings.Fields(said), " ")
		for _, says := range words.SetUpSays(st, words.Verdict) {
			if !strings.Contains(flat, strings.Join(strings.Fields(says), " ")) {
				t.Errorf("no %q in\n%s", says, said)
			}
		}
		rows := regexp.MustCompile(`(?m)^ +([0-9]\.[0-9]{2}) +(< 0.01|[0-9.]+) +[0-9.]+ +([0-9.]+) +([0-9.]+) +([0-9.]+) +([0-9.]+) +(stops|thin|suits)`).FindAllStringSubmatch(said, -1)
		if len(rows) < 10 {
			t.Errorf("%d rows in\n%s", len(rows), said)
		}
		for i, row := range rows {
			if i > 0 && row[1] <= rows[i-1][1] {
				t.Errorf("row %q after %q", row, rows[i-1])
			}
			for k := range st.Curve {
				d := &st.Curve[k]
				if words.Two(d.Spring.SetUp) != row[1] {
					continue
				}
				want := []string{words.Share(d.Torque.Unevenness), words.Figure(d.Torque.Mean), words.Two(d.Reserve(d.Torque.Mean)), words.Two(d.Reserve(d.Torque.Min)), words.Two(d.Spare()), d.Verdict.Code.String()}
				if got := row[2:]; strings.Join(got, " ") != strings.Join(want, " ") {
					t.Errorf("row %q, want %q", got, want)
				}
			}
		}
	}
}

// Where the spring binds before the fusee is wound no turns are told to be to spare.
func TestSetUpBinds(t *testing.T) {
	s, _ := trial.Compile(t, "too-strong")
	st, err := setup.Run(context.Background(), s, 0)
	if err != nil {
		t.Fatal(err)
	}
	said := written(t, func(b *bytes.Buffer) error { return text.SetUp(b, st, text.Options{Again: " my-clock"}) })
	if !strings.Contains(said, "\nNext: evenpull choose my-clock, which tells ") || !regexp.MustCompile(`(?m)^  set-up  unevenness .* to spare  verdict$`).MatchString(said) {
		t.Errorf("no next step, or another head: %s", said)
	}
	if rows := regexp.MustCompile(`(?m)^ .* binds  overdriven, now$`).FindAllString(said, -1); len(rows) != 1 || strings.Count(said, " binds  ") != 1 {
		t.Errorf("%s", said)
	}
}
