package main

import (
	"bytes"
	"testing"
	"time"
)

func TestProgress(t *testing.T) {
	var b bytes.Buffer
	if moved, finished := progress(&b, 10, "springs"); moved != nil {
		t.Error("told where there is no terminal")
	} else {
		finished()
	}
	clock := time.Unix(0, 0)
	m := meter{w: &b, total: 1000, what: "run-downs", now: func() time.Time { return clock }, begun: clock}
	for _, step := range []struct {
		after time.Duration
		done  int
		want  string
	}{
		{time.Second, 0, ""}, // nothing to reckon from
		{3 * time.Second, 1, "\r1 of 1000 run-downs (0 %), 1h6m36s left"},
		{50 * time.Millisecond, 20, ""}, // too soon
		{946 * time.Second, 950, "\r950 of 1000 run-downs (95 %), 50s left \r950 of 1000 run-downs (95 %), 50s left"},
	} {
		b.Reset()
		clock = clock.Add(step.after)
		if m.moved(step.done); b.String() != step.want {
			t.Errorf("%d: %q, want %q", step.done, b.String(), step.want)
		}
	}
	b.Reset()
	m.write("")
	if want := "\r                                      \r"; b.String() != want {
		t.Errorf("the line is taken away by %q, want %q", b.String(), want)
	}
}
