package setup

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
)

func search(t testing.TB, name string, number int, replace ...string) *Study {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	st, err := Run(context.Background(), s, number)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// unevenness of a train with another set-up, by a run of its own.
func unevenness(t testing.TB, tr sim.Train, setUp float64) (even, lost float64) {
	t.Helper()
	tr.Drive.Barrel.SetUp = setUp
	var r sim.Result
	if err := tr.RunInto(&r, sim.Options{}); err != nil {
		t.Fatal(err)
	}
	return r.Torque.Unevenness, r.TurnsLost
}

// No set-up of a fine scan is more even than the best, and at the ends of the
// range the unevenness is 1.1 times the best.
func TestBestIsBest(t *testing.T) {
	for _, c := range []struct {
		name   string
		number int
	}{{"eight-day", 0}, {"too-strong", 0}, {"too-weak", 0}, {"strike-quick", 0}, {"three-trains", 1}} {
		st := search(t, c.name, c.number)
		for i := range 3001 {
			x := st.Most * float64(i) / 3000
			if e, lost := unevenness(t, *st.Train, x); e < st.Best.Unevenness*(1-1e-9) || lost > 1e-9 {
				t.Errorf("%s: unevenness %v at %v, best %v at %v; %v turns lost", c.name, e, x, st.Best.Unevenness, st.Best.SetUp, lost)
			}
		}
		if _, lost := unevenness(t, *st.Train, st.Most+1e-6); lost == 0 {
			t.Errorf("%s: more than %v turns of set-up still let the fusee be wound", c.name, st.Most)
		}
		for _, end := range []float64{st.Range.Lo, st.Range.Hi} {
			if e, _ := unevenness(t, *st.Train, end); end > 0 && end < st.Most && math.Abs(e/st.Best.Unevenness-1.1) > 1e-3 {
				t.Errorf("%s: unevenness %v at the end of the range, %v times the best", c.name, e, e/st.Best.Unevenness)
			}
		}
		if !st.Range.Contains(st.Best.SetUp) {
			t.Errorf("%s: best at %v, range %v", c.name, st.Best.SetUp, st.Range)
		}
		if e, _ := unevenness(t, *st.Train, st.Now.SetUp); e != st.Now.Unevenness {
			t.Errorf("%s: now %v, by a run %v", c.name, st.Now.Unevenness, e)
		}
	}
}

// An even cone is cut for one set-up and is most even with that: along it
// ∫M dφ = C(n − θ), which holds from there only.
func TestEvenConeWantsItsSetUp(t *testing.T) {
	st := search(t, "three-trains", 2) // the quarters have an even cone
	if st.Best.SetUp != st.Now.SetUp || st.Best.Unevenness > 1e-8 || !st.Range.Contains(st.Now.SetUp) || st.Range.Length() < 1e-4 {
		t.Errorf("best %+v, now %+v, range %v", st.Best, st.Now, st.Range)
	}
	var b strings.Builder
	if err := (Text{}).Write(&b, st); err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"turns of set-up that it has", "below 0.100 %", ", now and best", "  < 0.01 "} {
		if !strings.Contains(b.String(), says) {
			t.Errorf("no %q in\n%s", says, b.String())
		}
	}
}

// Only a set-up that makes a wrong train right cures it.
func TestCures(t *testing.T) {
	for name, want := range map[string]bool{"eight-day": false, "too-weak": true, "too-strong": false, "strike-quick": false} {
		st := search(t, name, 0)
		if st.Cures() != want {
			t.Errorf("%s: cured %v; now %+v, best %+v", name, !want, st.Now, st.Best)
		}
	}
}

func TestNoRoom(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "length_mm    = 700.0")
	if _, err := Run(context.Background(), s, 0); !errors.Is(err, ErrNoRoom) {
		t.Errorf("%v", err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	s, _ = trial.Compile(t, "eight-day")
	if _, err := Run(ctx, s, 0); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func TestFormats(t *testing.T) {
	st := search(t, "eight-day", 0)
	var b bytes.Buffer
	if err := JSON(&b, st); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Train     string
		Now, Best map[string]any
		Range     [2]float64
		Curve     []map[string]any
		Cautions  []string
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil || doc.Now["set_up_turns"] != 1.25 || doc.Best["mean"].(float64) < 0.3 || doc.Range[0] >= doc.Range[1] || len(doc.Curve) != steps+1 || len(doc.Cautions) != 1 {
		t.Errorf("%v: %s", err, b.String()[:400])
	}
	b.Reset()
	if err := CSV(&b, st); err != nil {
		t.Fatal(err)
	}
	if lines, err := csv.NewReader(&b).ReadAll(); err != nil || len(lines) != steps+2 {
		t.Errorf("%v, %d lines", err, len(lines))
	}
	b.Reset()
	if err := (Text{}).Write(&b, st); err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"most even with", ", now", ", best", "within 10 % of the best", "let-down key"} {
		if !strings.Contains(b.String(), says) {
			t.Errorf("no %q in\n%s", says, b.String())
		}
	}
	if strings.Count(b.String(), ", now") != 1 || strings.Count(b.String(), ", best") != 1 {
		t.Errorf("now and best stand in\n%s", b.String())
	}
}
