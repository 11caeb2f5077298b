package drawing

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/fusee/mainspring"
	strip "evenpull/fusee/mainspring/coils"

	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/canvas/seen"
	"evenpull/sim/show/chart"
	"evenpull/sim/study/coils"
)

// drawnAs is a picture as its only file.
func drawnAs(t testing.TB, draw func(chart.Look, *coils.Result) (chart.Files, error), look chart.Look, r *coils.Result) []byte {
	t.Helper()
	files, err := draw(look, r)
	if err != nil || len(files) != 1 {
		t.Fatalf("%d files: %v", len(files), err)
	}
	var b bytes.Buffer
	if err := files[0](&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The coils of a mainspring as they are drawn, once and in little room, and moving.
func TestCoilsDrawn(t *testing.T) {
	r := bench.CoilsSolved(t, coils.Options{Friction: 0.1})
	t.Run("golden", func(t *testing.T) {
		trial.Golden(t, "coils", func(w io.Writer, format string) error { return chart.Usual(Coils)(w, format, r) })
	})
	t.Run("legible", func(t *testing.T) { checkCoilsLegible(t, r) })
	t.Run("lie apart", func(t *testing.T) { checkCoilsApart(t, r) })
	t.Run("film", func(t *testing.T) { checkCoilsMove(t, r) })
	t.Run("frames", func(t *testing.T) { checkCoilFrames(t, r) })
	t.Run("forces", func(t *testing.T) { checkCoilForces(t, r) })
}

func checkCoilsLegible(t *testing.T, r *coils.Result) {
	braced := *r
	braced.Options.End = mainspring.Braced
	for _, asked := range []string{"", "84mm", "174mm", "A4", "A5"} {
		size, err := canvas.SizeOf(asked)
		if err != nil {
			t.Fatal(err)
		}
		for _, of := range []*coils.Result{r, &braced} {
			svg := drawnAs(t, Coils, chart.Look{Form: canvas.Form{Format: "svg"}, Size: size}, of)
			legible(t, "coils at "+asked, svg)
			for i, turns := range []string{">1 turn<", ">3 turns<", ">5 turns<"} {
				if want := fmt.Sprintf(">%.2f N·m<", r.Loop.Windings[i].Down.Couple); !strings.Contains(string(svg), turns) || !strings.Contains(string(svg), want) {
					t.Errorf("at %q: no %s, or no %s", asked, turns, want)
				}
			}
		}
	}
}

// Every place of the strip that is drawn lies between arbor and wall, and no coil in another,
// by more than the width of its line; the picture has the lines so.
func checkCoilsApart(t *testing.T, r *coils.Result) {
	const width = 0.7 // the least at which the strip is drawn, over its thickness
	h := r.Spring.Thickness
	for _, w := range r.Loop.Windings {
		for _, s := range []*strip.Shape{w.Free, w.Up, w.Down} {
			list := lay(s)
			for i, p := range list {
				if p.radius < r.Housing.Arbor+h/4 || p.radius > r.Housing.Inside-h/4 {
					t.Errorf("at %v turns: a place at %v m", s.Turns, p.radius)
				}
				if i >= perTurn && i < len(list)-1 {
					if gap := list[i-perTurn].radius - p.radius; gap < width*h {
						t.Errorf("at %v turns: coils %v m apart", s.Turns, gap)
					}
				}
			}
			if first, last := list[0], list[len(list)-1]; first.back != 0 || math.Abs(last.back-s.Angle[len(s.Angle)-1]) > 1e-9 || math.Abs(last.radius-s.Radius[0]) > 1e-9 {
				t.Errorf("from %v to %v", first, last)
			}
		}
	}
	sheet, err := seen.Read(drawnAs(t, Coils, chart.Look{Form: canvas.Form{Format: "svg"}}, r))
	if err != nil {
		t.Fatal(err)
	}
	long := 0
	for _, line := range sheet.Lines {
		if len(line) > 3*perTurn/2 && line[0] != line[len(line)-1] {
			long++
		}
	}
	if long != len(r.Loop.Windings) {
		t.Errorf("%d strips drawn", long)
	}
}

// What is drawn pressing along the strip is in all what presses.
func checkCoilForces(t *testing.T, r *coils.Result) {
	for _, w := range r.Loop.Windings {
		s, want, got := w.Down, 0.0, 0.0
		last := len(s.Angle) - 1
		for i := range s.Angle {
			want += (s.Inner[i] + s.Wall[i]) * s.Radius[i] * (s.Angle[min(i+1, last)] - s.Angle[max(i-1, 0)]) / 2
		}
		for _, p := range lay(s) {
			got += p.presses * p.radius * 2 * math.Pi / perTurn
		}
		if math.Abs(got/want-1) > 0.02 {
			t.Errorf("at %v turns: %v N drawn, %v press", s.Turns, got, want)
		}
	}
	for presses, want := range map[float64]int{0: -1, 9: -1, 10: 0, 99: 0, 100: 1, 5000: 2, 1e6: 3} {
		if got := stepOf(presses); got != want {
			t.Errorf("%v N/m: step %d, want %d", presses, got, want)
		}
	}
}
