package text

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/words"
	"evenpull/sim/study/beat"
)

// pageOf is what is written, its lines with single blanks.
func pageOf[T any](t *testing.T, write func(io.Writer, *T, Options) error, st *T) []string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, st, Options{Width: 4000}); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	for i, line := range lines {
		if strings.Contains(line, "NaN") || strings.HasSuffix(line, " ") {
			t.Errorf("%q", line)
		}
		lines[i] = strings.Join(strings.Fields(line), " ")
	}
	return lines
}

// inOrder wants lines one after the other, with others between them.
func inOrder(t *testing.T, lines []string, want ...string) {
	t.Helper()
	at := 0
	for _, w := range want {
		w = strings.Join(strings.Fields(w), " ")
		for at < len(lines) && lines[at] != w {
			at++
		}
		if at == len(lines) {
			t.Fatalf("no line %q in its place in\n%s", w, strings.Join(lines, "\n"))
		}
		at++
	}
}

func TestRecord(t *testing.T) {
	st := bench.Record(t)
	f := words.Figure
	var want []string
	add := func(format string, a ...any) { want = append(want, fmt.Sprintf(format, a...)) }
	add("%s", st.Book.Title)
	for i := range st.Needs {
		n := &st.Needs[i]
		add("%s", words.NeedHead(n))
		for _, s := range words.Paces(st.Paces[i]) {
			add("- %s", s)
		}
		for _, s := range words.NeedNotes(n) {
			add("* note: %s", s)
		}
		add("weight, g torque, N·m")
		for k := range n.Trials {
			add("%s %s %s", f(n.Trials[k].Mass*1e3), f(n.Trials[k].Torque), words.Trial(n, &n.Trials[k]))
		}
	}
	for i := range st.Springs {
		add("%s", words.SupplyHead(st.Springs[i].Supply))
		for _, s := range words.SupplySays(st, i) {
			add("- %s", s)
		}
		for k, r := range slices.Concat(st.Readings(i, false), st.Readings(i, true)) {
			if r.FuseeTurn == 0 {
				add("turn reads mean scatter ± predicted apart")
				add("N·m N·m N·m %s N·m N·m", map[bool]string{true: "winding up", false: "running down"}[k > 0])
			}
			mark, sign := "", ""
			if r.Outlier != nil {
				mark = "far off: " + f(r.Outlier.Value) + " "
			}
			if r.Mean > r.Predicted {
				sign = "+"
			}
			add("%g %d %s %s %s %s%s %s%s", r.FuseeTurn, r.N, f(r.Mean), f(r.SD), f(r.HalfWidth), mark, f(r.Predicted), sign, words.Minus(f(r.Mean-r.Predicted)))
		}
	}
	add("%s", words.FitHead(st.Explained))
	add("input before fitted typically 95 %% of it")
	add("off by from to the meter")
	for _, in := range st.Explained.Inputs {
		add("%s %.6g %.5g %s %.5g %.5g %s %s", words.Input(in.Words, "going"), in.Before, in.Value, f(in.StandardError), in.Interval.Lo, in.Interval.Hi, words.PartOf(in.FromMeter, in.StandardError), in.Unit)
	}
	for _, s := range words.FitSays(st.Explained) {
		add("%s", s)
	}
	add("%s", words.HalfWidths)
	add("Caution: %s", words.RecordCautions(st)[0])
	inOrder(t, pageOf(t, Record, st), want...)

	alone := pageOf(t, Record, readings.Of(st.Book, nil))
	r := readings.Of(st.Book, nil).Readings(0, false)[0]
	inOrder(t, alone, "turn reads mean scatter ±", fmt.Sprintf("%g %d %s %s %s", r.FuseeTurn, r.N, f(r.Mean), f(r.SD), f(r.HalfWidth)))
	if strings.Contains(strings.Join(alone, " "), "predicted") {
		t.Error("a prediction without a scenario")
	}
}

func TestAssign(t *testing.T) {
	st := bench.Assign(t, bench.Book(t), bench.Scenario(t))
	want := []string{st.Title, words.AssignHead(st)}
	for _, at := range st.Best {
		p := &st.Pairs[at]
		want = append(want, fmt.Sprintf("spring %s to the %s train: %s", p.Label, p.Train, words.Verdict(p.Verdict.Code)))
	}
	for _, s := range words.AssignNotes(st) {
		want = append(want, "* note: "+s)
	}
	for i := range st.Pairs {
		p := &st.Pairs[i]
		mark, in := "", p.ReadIn
		if p.Chosen {
			mark = "> "
		}
		if p.Train != p.ReadIn {
			in += ", reckoned"
		}
		f := words.Figure
		want = append(want, fmt.Sprintf("%s%s %s %s %s %s %s %s %s %s %s –", mark, p.Label, p.Train, in, f(p.Torque.Mean), f(p.Torque.Min), words.Share(p.Torque.Unevenness),
			words.Two(p.Torque.Mean/p.Need.Used), words.Two(p.Torque.Min/p.Need.Used), words.Minus(fmt.Sprintf("%+.0f", 100*p.Off)), words.PairIs(p)))
	}
	want = append(want, "Caution: "+words.AssignCautions(st)[0])
	lines := pageOf(t, Assign, st)
	inOrder(t, lines, want...)
	if !strings.Contains(lines[len(lines)-1], "let-down key") {
		t.Error("no caution at the end")
	}
}

func TestBeat(t *testing.T) {
	r := bench.Beat(t, beat.Options{FuseeTurn: 4})
	s, a := &r.Settled, &r.Averaged
	day := func(v float64) string { return words.Minus(fmt.Sprintf("%+.2f s/d", v*86400)) }
	inOrder(t, pageOf(t, Beat, r), words.BeatHead(r), "beat by beat averaged",
		fmt.Sprintf("semi-arc %.3f° %.3f°", s.Amplitude.Degrees(), a.Amplitude.Degrees()),
		fmt.Sprintf("period %.6f s", s.Period),
		"rate, no circular error "+day(s.Rate)+" "+day(a.Rate.Escapement+a.Rate.Damping),
		"circular error left out "+day(a.Rate.Circular),
		"rate in all "+day(a.Rate.Circular+a.Rate.Escapement+a.Rate.Damping),
		words.BeatSays(r)[0], words.BeatSays(r)[1])
	stands := bench.Beat(t, beat.Options{Start: escapement.SemiDegrees(1)}, "going.pendulum.mass_g=700")
	trips := bench.Beat(t, beat.Options{}, "going.pendulum.quality=1e4", "going.escapement.recoil_ratio=1")
	inOrder(t, pageOf(t, Beat, trips), words.BeatHead(trips), "semi-arc trips trips", "period stands")
	inOrder(t, pageOf(t, Beat, stands), words.BeatHead(stands), "period stands", "rate, no circular error stands stands", "circular error left out stands", "rate in all stands")
}

// An outlier is marked, and a pair that lies off no middle has a dash.
func TestOddCells(t *testing.T) {
	st := readings.Of(bench.Read(t, "title = \"t\"\n[[torque]]\ntrain = \"going\"\nspring = \"A\"\nrunning_down = [ [0.50], [0.51], [0.49], [0.50], [0.80], [0.505] ]\n"), bench.Scenario(t))
	page := pageOf(t, Record, st)
	r := st.Readings(0, false)[0]
	f := words.Figure
	inOrder(t, page, fmt.Sprintf("0 6 %s %s %s far off: 0.800 %s %s", f(r.Mean), f(r.SD), f(r.HalfWidth), f(r.Predicted), residualCell(r.Mean-r.Predicted)))
	for v, want := range map[float64]string{0.0123: "+0.0123", -0.0123: "−0.0123", 0: "0"} {
		if got := residualCell(v); got != want {
			t.Errorf("%v: %s", v, got)
		}
	}
	as := bench.Assign(t, bench.Book(t), bench.Scenario(t))
	for i, off := range []float64{math.NaN(), math.Inf(1), -0.126} {
		as.Pairs[i].Off = off
	}
	page = pageOf(t, Assign, as)
	for i, want := range []string{"–", "–", "−13"} {
		p := &as.Pairs[i]
		found := false
		for _, line := range page {
			found = found || strings.Contains(line, " "+p.Label+" "+p.Train+" ") && strings.HasSuffix(line, want+" "+words.PairIs(p)+" –") ||
				strings.HasPrefix(line, p.Label+" "+p.Train+" ") && strings.HasSuffix(line, want+" "+words.PairIs(p)+" –")
		}
		if !found {
			t.Errorf("pair %d: no %q in %s", i, want, strings.Join(page, "\n"))
		}
	}
	// What there is no prediction for says why.
	s, _ := trial.Compile(t, "strike-quick")
	st = readings.Of(bench.Book(t), s)
	inOrder(t, pageOf(t, Record, st), "! no prediction to compare with: "+words.Why(st.Refused[0]))
}
