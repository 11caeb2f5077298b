package batch

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"
)

const thickness = "going.mainspring.thickness_mm"

// table runs a table whose cells have commas between them.
func table(t testing.TB, o Options, header string, lines ...string) []Row {
	t.Helper()
	rows, err := tableOf(context.Background(), t, o, header, lines...)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func tableOf(ctx context.Context, t testing.TB, o Options, header string, lines ...string) (rows []Row, err error) {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	o.Open = func(name string) (*scenario.Scenario, error) { return scenarios.Load(name) }
	b, err := New(s, strings.Split(header, ","), o)
	if err != nil {
		return nil, err
	}
	at := 0
	err = b.Run(ctx, func() ([]string, error) {
		if at == len(lines) {
			return nil, io.EOF
		}
		at++
		return strings.Split(lines[at-1], ","), nil
	}, func(r *Row) error {
		rows = append(rows, *r)
		return nil
	})
	return rows, err
}

// A row is what a run with its values set comes to, an empty cell the scenario's own.
func TestRowIsRun(t *testing.T) {
	rows := table(t, Options{Draws: 300, Seed: 1}, "note,"+thickness+",going.barrel.set_up_turns,going.line.kind,scenario", "first,0.40,1.5,,", "second,,1.0,wire,", "third,0.37,,,strike-pleasant", "fourth,0.41,,gut,too-strong")
	for i, sets := range [][]string{{thickness + "=0.40", "going.barrel.set_up_turns=1.5"}, {"going.barrel.set_up_turns=1.0", "going.line.kind=wire"}, nil, {thickness + "=0.41", "going.line.kind=gut"}} {
		r := &rows[i]
		if r.Cells[0] != []string{"first", "second", "third", "fourth"}[i] {
			t.Errorf("row %d: %v", i, r.Cells)
		}
		if i == 2 { // which has no going train
			if !strings.Contains(r.Fault, "going") {
				t.Errorf("%+v", r.Fault)
			}
			continue
		}
		s, _ := trial.Compile(t, []string{"eight-day", "eight-day", "", "too-strong"}[i])
		if err := vary.Apply(s, sets); err != nil {
			t.Fatal(err)
		}
		want, err := sim.RunTrain(s, 0, sim.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if want.Verdict.Sureness, err = sure.Of(context.Background(), s, 0, sure.Options{Draws: 300, Seed: 1, Brief: true}); err != nil {
			t.Fatal(err)
		}
		if r.Fault != "" || r.Train != "going" || fmt.Sprint(r.Digest.Verdict) != fmt.Sprint(want.Verdict) || math.Abs(r.Digest.Torque.Mean-want.Torque.Mean) > 1e-12 || r.Digest.Faults != want.Faults {
			t.Errorf("row %d: %q %+v, a run %+v", i, r.Fault, r.Digest.Verdict, want.Verdict)
		}
	}
}

// A row that cannot be run says why, and the others go on; rows come out as they came in.
func TestOrderAndFaults(t *testing.T) {
	var lines []string
	for i := range 3000 {
		lines = append(lines, strconv.FormatFloat(0.30+float64(i)*1e-4, 'f', -1, 64)) // to 0.6 mm, which cannot be built
	}
	lines[7], lines[8], lines[9] = "thick", "0,4", "NaN"
	lines[8] = "1e9"
	rows := table(t, Options{}, thickness, lines...)
	if len(rows) != len(lines) {
		t.Fatalf("%d rows of %d", len(rows), len(lines))
	}
	before := 0.0
	for i, r := range rows {
		if r.Cells[0] != lines[i] {
			t.Fatalf("row %d has %s", i, r.Cells)
		}
		switch bad := i >= 7 && i <= 9; {
		case bad && r.Fault == "":
			t.Errorf("%s was run", lines[i])
		case !bad && r.Fault == "":
			if r.Digest.Torque.Mean <= before {
				t.Errorf("row %d: %v after %v", i, r.Digest.Torque.Mean, before)
			}
			before = r.Digest.Torque.Mean
		}
	}
	if !strings.Contains(rows[7].Fault, "want a number") {
		t.Error(rows[7].Fault)
	}
}

func TestHeader(t *testing.T) {
	for header, want := range map[string]string{
		thickness + "," + thickness: "stands twice", "a,,b": "column 2 has no name", "verdict": "comes out", "going.mainspring.thicknes_mm": "did you mean", "fusee_torque_nm.mean": "comes out",
	} {
		of, _ := outcome.Several("fusee_torque_nm.mean")
		if _, err := tableOf(context.Background(), t, Options{Of: of}, header); !errors.Is(err, ErrHeader) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", header, err)
		}
	}
	if _, err := tableOf(context.Background(), t, Options{}, "id,going.mainspring.thickness_in,going.mainspring.natural_form,title"); err != nil {
		t.Error(err)
	}
	rows := table(t, Options{}, "going.mainspring.thickness_in", "0.016")
	if is := rows[0].Digest.Spring.Strip.Thickness; math.Abs(is-0.016*25.4e-3) > 1e-12 {
		t.Errorf("%v m %s", is, rows[0].Fault)
	}
}

// Stopped, it ends, and what next or emit say ends it.
func TestEnds(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := tableOf(ctx, t, Options{}, thickness, "0.4"); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	s, _ := trial.Compile(t, "eight-day")
	b, err := New(s, []string{thickness}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	broken, given := errors.New("broken"), 0
	endless := func() ([]string, error) { given++; return []string{"0.4"}, nil }
	if err := b.Run(context.Background(), endless, func(*Row) error { return broken }); !errors.Is(err, broken) {
		t.Error(err)
	}
	if most := together * (4*runtime.GOMAXPROCS(0) + 4); given > most {
		t.Errorf("%d rows were read, more than %d", given, most)
	}
	if err := b.Run(context.Background(), func() ([]string, error) { return nil, broken }, nil); !errors.Is(err, broken) {
		t.Error(err)
	}
}

// BenchmarkRun is a hundred thousand rows: 2 s are to be enough on two cores.
func BenchmarkRun(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	t, err := New(s, []string{thickness, "going.barrel.set_up_turns"}, Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		n := 0
		next := func() ([]string, error) {
			if n == 100_000 {
				return nil, io.EOF
			}
			n++
			return []string{strconv.FormatFloat(0.34+float64(n)*1e-6, 'f', 6, 64), "1.25"}, nil
		}
		if err := t.Run(context.Background(), next, func(*Row) error { return nil }); err != nil {
			b.Fatal(err)
		}
	}
}
