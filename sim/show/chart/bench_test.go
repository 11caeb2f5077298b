package chart

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/study/beat"
)

func TestRecordPicture(t *testing.T) {
	st := &assign.Record{Study: bench.Record(t)}
	trial.Golden(t, "record", usual(Record, st))
	// Weights alone: the pace of the blows is drawn. Nothing: that is told.
	weights, none := readings.Of(&book.Book{Weights: st.Book.Weights}, nil), readings.Of(new(book.Book), nil)
	for says, st := range map[string]*readings.Study{"the law of a fly": weights, "no torque was read": none, "single readings": readings.Of(st.Book, nil)} {
		if svg := trial.Picture(t, "svg", usual(Record, &assign.Record{Study: st})); !bytes.Contains(svg, []byte(says)) {
			t.Errorf("no %q in the picture", says)
		}
	}
}

func TestAssignPicture(t *testing.T) {
	st := bench.Assign(t, bench.Book(t), bench.Scenario(t))
	trial.Golden(t, "assign", usual(Assign, st))
}

func TestBeatPicture(t *testing.T) {
	draw := usual(Beat, bench.Beat(t, beat.Options{FuseeTurn: 4}))
	trial.Golden(t, "beat", draw)
	svg := string(trial.Picture(t, "svg", draw))
	for _, want := range []string{"semi-arc, degrees", "periods from the start", "The swing: its speed at each angle", "first period", "by the averages", "speed, degrees a second", "settles at a semi-arc"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the picture", want)
		}
	}
	stands := bench.Beat(t, beat.Options{Start: escapement.SemiDegrees(1)}, "going.pendulum.mass_g=700")
	for _, format := range []string{"svg", "png", "pdf"} {
		if err := usual(Beat, stands)(io.Discard, format); err != nil {
			t.Errorf("%s: %v", format, err)
		}
	}
}
