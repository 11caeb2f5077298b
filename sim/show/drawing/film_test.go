package drawing

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/canvas/seen"
	"evenpull/sim/show/chart"
	"evenpull/sim/study/coils"
)

// The film winds up and runs down, a frame for each, of which one is shown where nothing
// moves; it moves without a script, and by nothing but its style.
func checkCoilsMove(t *testing.T, r *coils.Result) {
	trial.Golden(t, "coils-sheet", func(w io.Writer, format string) error {
		if format == "svg" {
			files, err := filmSheet(chart.Look{Form: canvas.Form{Format: "svg"}}, r)
			if err != nil {
				return err
			}
			return files[0](w)
		}
		return chart.Usual(Animation)(w, format, r)
	})
	svg := string(drawnAs(t, Animation, chart.Look{Form: canvas.Form{Format: "svg"}}, r))
	dec, frames := xml.NewDecoder(strings.NewReader(svg)), 0
	for {
		token, err := dec.Token()
		if err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		if e, is := token.(xml.StartElement); is {
			if !slices.Contains([]string{"svg", "g", "path", "text", "style"}, e.Name.Local) { // animate, set and script are none of them
				t.Errorf("a film with <%s>", e.Name.Local)
			}
			for _, a := range e.Attr {
				if a.Name.Local == "class" && strings.HasPrefix(a.Value, "frame") {
					frames++
				}
			}
		}
	}
	if frames != 2*len(r.Loop.Windings) || strings.Count(svg, `class="frame rest"`) != 1 || strings.Count(svg, `visibility="hidden"`) != frames-1 {
		t.Errorf("%d frames", frames)
	}
	for _, want := range []string{"prefers-reduced-motion:no-preference", ">winding: 1 turn<", ">winding: 5 turns<", ">running down: 5 turns<", ">running down: 1 turn<"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the film", want)
		}
	}
	up, down := strings.Index(svg, ">winding: 5 turns<"), strings.Index(svg, ">running down: 5 turns<")
	if rest := strings.Index(svg, `class="frame rest"`); !(rest < up && up < down) || strings.Contains(svg, "NaN") {
		t.Error("it does not rest where it is wound, or runs down before")
	}
}

// Each frame, over what stays, is to be read in any width; its strip lies between arbor and
// wall, its coils apart, and its bar is as long as its couple.
func checkCoilFrames(t *testing.T, r *coils.Result) {
	bar := regexp.MustCompile(`M([0-9.]+),[0-9.]+L([0-9.]+),[0-9.,L]+Z" style="fill:#787878`)
	for _, asked := range []string{"", "84mm", "174mm"} {
		size, err := canvas.SizeOf(asked)
		if err != nil {
			t.Fatal(err)
		}
		look := chart.Look{Form: canvas.Form{Format: "svg"}, Size: size}
		svg := string(drawnAs(t, Animation, look, r))
		parts := regexp.MustCompile(`<g class="frame[^>]*>`).Split(svg, -1)
		list := poses(r, mostPoses)
		if len(parts) != len(list)+1 {
			t.Fatalf("%d frames", len(parts)-1)
		}
		most := 0.0
		var long []float64
		for i, p := range list {
			frame := parts[0] + strings.TrimSuffix(strings.TrimSpace(parts[i+1]), "</svg>")
			frame = strings.TrimSuffix(strings.TrimSpace(frame), "</g>") + "</svg>"
			legible(t, "frame at "+asked, []byte(frame))
			s, err := seen.Read([]byte(frame))
			if err != nil {
				t.Fatal(err)
			}
			liesWithin(t, s, r)
			var from, to float64
			if m := bar.FindStringSubmatch(parts[i+1]); m != nil {
				from, to = number(t, m[1]), number(t, m[2])
			}
			most, long = math.Max(most, p.Couple), append(long, (to-from)/p.Couple)
		}
		if math.Abs(slices.Max(long)/slices.Min(long)-1) > 2e-3 || long[0] == 0 {
			t.Errorf("bars over couples: %v", long)
		}
	}
	for _, asked := range []string{"", "84mm", "A4", "A5"} {
		size, err := canvas.SizeOf(asked)
		if err != nil {
			t.Fatal(err)
		}
		legible(t, "frames at "+asked, drawnAs(t, filmSheet, chart.Look{Form: canvas.Form{Format: "svg"}, Size: size}, r))
	}
}

// liesWithin checks the strips of a picture of one barrel, the middle of which its wall tells.
func liesWithin(t *testing.T, s *seen.Sheet, r *coils.Result) {
	t.Helper()
	closed := func(line []seen.Spot) bool {
		return len(line) > 100 && math.Hypot(line[0].X-line[len(line)-1].X, line[0].Y-line[len(line)-1].Y) < 0.1
	}
	var middle seen.Spot
	wall := 0.0
	for _, line := range s.Lines {
		low, high := seen.Spot{X: math.Inf(1), Y: math.Inf(1)}, seen.Spot{X: math.Inf(-1), Y: math.Inf(-1)}
		for _, p := range line {
			low, high = seen.Spot{X: min(low.X, p.X), Y: min(low.Y, p.Y)}, seen.Spot{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
		}
		if closed(line) && high.X-low.X > 2*wall {
			wall, middle = (high.X-low.X)/2, seen.Spot{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
		}
	}
	scale := wall / (1.07 * r.Housing.Inside)
	h, strips := r.Spring.Thickness*scale, 0
	for _, line := range s.Lines {
		if len(line) < 2*perTurn || closed(line) {
			continue
		}
		strips++
		for i, p := range line {
			radius := math.Hypot(p.X-middle.X, p.Y-middle.Y)
			if radius < r.Housing.Arbor*scale+h/4 || radius > r.Housing.Inside*scale-h/4 {
				t.Errorf("the strip is drawn %.3f from the middle; the arbor is %.3f, the wall %.3f", radius, r.Housing.Arbor*scale, r.Housing.Inside*scale)
			}
			if k := i - perTurn/2; k >= 0 && i < len(line)-1 { // two places to a point
				if gap := math.Hypot(line[k].X-middle.X, line[k].Y-middle.Y) - radius; gap < 0.7*h {
					t.Errorf("coils are drawn %.3f apart, of a strip of %.3f", gap, h)
				}
			}
		}
	}
	if strips != 1 {
		t.Errorf("%d strips drawn", strips)
	}
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
