package chart

import (
	"bytes"
	"context"
	"fmt"
	"image/color"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/assign"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/canvas/seen"
	"evenpull/sim/study/beat"
	"evenpull/sim/study/coils"
	"evenpull/sim/study/cut"
	"evenpull/sim/study/plan"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sweep"

	"github.com/golang/geo/r1"
)

// painter draws a picture in a look.
type painter func(Look) (Files, error)

func of[T any](draw func(Look, T) (Files, error), st T) painter {
	return func(look Look) (Files, error) { return draw(look, st) }
}

// pictures are those of every study, of samples that do all there is to do.
func pictures(t testing.TB) map[string]painter {
	t.Helper()
	list := map[string]painter{}
	ctx := context.Background()
	check := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range scenarios.Names() {
		list["run "+name] = of(Write, results(t, name))
		if name == "three-trains" || name == "strike-pleasant" {
			continue
		}
		s, trains := trial.Compile(t, name)
		thickness := sweep.Axis{Key: trains[0].Name + ".mainspring.thickness_mm", From: unset, To: unset, Steps: 41}
		list["sweep "+name] = of(Sweep, sweepOf(t, s, sweep.Options{Over: thickness}))
		width := &sweep.Axis{Key: trains[0].Name + ".mainspring.width_mm", From: 20, To: 45, Steps: 15}
		thickness.Steps = 21
		list["map "+name] = of(Sweep, sweepOf(t, s, sweep.Options{Over: thickness, Against: width, Of: resultNamed(t, outcome.LeastReserve)}))
		made, err := setup.Run(ctx, s, 0)
		check(err)
		list["setup "+name] = of(SetUp, made)
		list["choose "+name] = of(Choose, chosen(t, s, math.NaN()))
		cone, err := cut.Run(ctx, s, 0, cut.Options{Anyway: true, Large: math.NaN(), Small: math.NaN()})
		check(err)
		list["cut "+name] = of(Cut, cone)
	}
	s, _ := trial.Compile(t, "eight-day")
	ranked, err := rank.Run(ctx, s, 0, rank.Options{Of: []outcome.Figure{resultNamed(t, outcome.Unevenness), resultNamed(t, outcome.LeastReserve)}})
	check(err)
	list["rank"] = of(Rank, ranked)
	inAll, err := rank.Run(ctx, s, 0, rank.Options{Of: []outcome.Figure{resultNamed(t, outcome.Unevenness), resultNamed(t, outcome.LeastReserve)}, Total: true, Seed: 1})
	check(err)
	list["rank in all"] = of(Rank, inAll)
	list["spread"] = of(Spread, spreadOf(t, 300, outcome.LeastReserve, outcome.MeanTorque))
	list["record"] = of(Record, &assign.Record{Study: bench.Record(t)})
	list["assign"] = of(Assign, bench.Assign(t, bench.Book(t), bench.Scenario(t)))
	for name, o := range planned(t) {
		st, err := plan.Run(ctx, s, 0, o)
		check(err)
		list["plan "+name] = of(Plan, st)
	}
	list["beat"] = of(Beat, bench.Beat(t, beat.Options{FuseeTurn: 4}))
	list["coils"] = of(Coils, bench.CoilsSolved(t, coils.Options{Friction: 0.1}))
	list["beat that stops"] = of(Beat, bench.Beat(t, beat.Options{}, "going.pendulum.mass_g=9000"))
	return list
}

// sheets are the pages of a picture as SVG.
func sheets(t testing.TB, draw painter, look Look) (list []*seen.Sheet) {
	t.Helper()
	look.Format = "svg"
	files, err := draw(look)
	if err != nil {
		t.Fatal(err)
	}
	for _, write := range files {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		s, err := seen.Read(b.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, s)
	}
	return list
}

func sizeOf(t testing.TB, asked string) canvas.Size {
	t.Helper()
	size, err := canvas.SizeOf(asked)
	if err != nil {
		t.Fatal(err)
	}
	return size
}

// What holds for every picture.
func TestEveryPicture(t *testing.T) {
	all := pictures(t)
	t.Run("legible", func(t *testing.T) { checkLegible(t, all) })
	t.Run("sentences", func(t *testing.T) { checkSentences(t, all) })
	t.Run("PDF", func(t *testing.T) { checkPDF(t, all) })
}

// Whatever its size, no text of a picture overlaps another, passes the edge or is smaller
// than 7 points; each is at least 4.5 times as light or dark as what it stands on (WCAG 2.1,
// 1.4.3, from memory), in colours and in greys; and pages are of the size asked for.
func checkLegible(t *testing.T, all map[string]painter) {
	for name, draw := range all {
		for _, size := range []string{"", "84mm", "174mm", "A4", "A5"} {
			for _, look := range []Look{{}, {Bare: true, Near: true, Form: canvas.Form{Grey: true}}} {
				if look.Size = sizeOf(t, size); look.Bare && len(size) != len("84mm") {
					continue
				}
				for n, s := range sheets(t, draw, look) {
					where := fmt.Sprintf("%s at %q, sheet %d, bare %v", name, size, n+1, look.Bare)
					for _, fault := range s.Illegible() {
						t.Errorf("%s: %s", where, fault)
					}
					for i := range s.Labels {
						if c := s.Labels[i].Contrast(); c < 4.5 {
							t.Errorf("%s: %q has a contrast of %.1f", where, s.Labels[i].Words, c)
						}
					}
					if want := look.layout().width.Points(); math.Abs(s.Wide-want) > 0.05 || look.Height > 0 && math.Abs(s.High-look.Height.Points()) > 0.05 { // five digits
						t.Errorf("%s: %.1f × %.1f points", where, s.Wide, s.High)
					}
				}
			}
		}
	}
}

// Every picture bears a sentence unless it is to bear none, and then nothing of it.
func checkSentences(t *testing.T, all map[string]painter) {
	for name, draw := range all {
		said := func(look Look) (longest string) {
			layout := look.layout()
			for _, s := range sheets(t, draw, look) {
				for _, l := range s.Labels {
					if math.Abs(l.Size-layout.title.Points()) < 0.01 && len(l.Words) > len(longest) {
						longest = l.Words
					}
				}
			}
			return longest
		}
		if len(said(Look{})) < 30 {
			t.Errorf("%s has no sentence: %q", name, said(Look{}))
		}
		for _, word := range []string{"SUITS", "STOPS", "OVERDRIVEN", "moves it", "settles"} {
			if strings.Contains(said(Look{Bare: true}), word) {
				t.Errorf("%s bears what it found: %q", name, said(Look{Bare: true}))
			}
		}
	}
}

// The bands of the verdicts, and what cannot be, are told apart by at least 8 of lightness in
// greys (L* of CIE 1976), or by how they are hatched: any two that may stand beside another.
func TestBandsApart(t *testing.T) {
	all := map[string]tint{"impossible": impossible}
	for _, code := range []rules.Code{rules.Stops, rules.Thin, rules.Suits, rules.Strong, rules.Overdriven} {
		all[code.String()] = tints[code]
	}
	light := func(c color.Color) float64 { return seen.Lightness(color.GrayModel.Convert(c)) }
	for a, s := range all {
		for b, o := range all {
			if d := math.Abs(light(s.fill) - light(o.fill)); a < b && d < 8 && s.hatch == o.hatch {
				t.Errorf("%s and %s differ by %.1f", a, b, d)
			}
		}
	}
	for _, c := range []color.Color{tints[rules.Stops].fill, tints[rules.Overdriven].fill, impossible.fill} {
		if d := math.Abs(light(c) - light(hatchLine.Color)); d < 20 {
			t.Errorf("hatches on %v differ by %.1f", c, d)
		}
	}
}

// torquePanels are those over whose axis a torque stands beside the need.
func torquePanels(t testing.TB) (list []*panel) {
	t.Helper()
	for _, name := range scenarios.Names() {
		for _, r := range results(t, name) {
			list = append(list, torque(&r))
		}
	}
	s, _ := trial.Compile(t, "eight-day")
	for _, from := range []float64{0.2, 0.45} { // below the need, and far above it
		list = append(list, sweepPanels(sweepOf(t, s, sweep.Options{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: from, To: from + 0.05, Steps: 5}}))[0])
	}
	p, err := leaders(chosen(t, s, math.NaN()))
	if err != nil {
		t.Fatal(err)
	}
	return append(append(list, p), recorded(&assign.Record{Study: bench.Record(t)})[0][0])
}

// The need lies within the axis of a torque, also where it does not begin at zero.
func TestNeedIsOnTheAxis(t *testing.T) {
	for _, p := range torquePanels(t) {
		for _, near := range []bool{false, true} {
			l := Look{Near: near}.layout()
			f := l.frames([]*panel{p})[0]
			i := slices.IndexFunc(p.layers, func(l layer) bool { return l.label == "least torque needed" })
			if i < 0 || len(f.visible(&p.layers[i])) < 2 || !f.up.Contains(p.layers[i].points[0].Y) {
				t.Errorf("%s: near %v, from %v to %v without the need", p.finding, near, f.up.Lo, f.up.Hi)
			}
			if (f.up.Lo == 0) == near && !(near && p.layers[i].points[0].Y < 0.2) {
				t.Errorf("%s: near %v begins at %v", p.finding, near, f.up.Lo)
			}
		}
	}
}

// Plots of one picture begin and end at the same places and, over the same quantity, have the
// same range.
func TestPanelsShareTheirEdges(t *testing.T) {
	r := results(t, "strike-quick")[0]
	for _, width := range []string{"", "84mm"} {
		l := Look{Size: sizeOf(t, width)}.layout()
		frames := l.frames(append(panels(&r), low(&r, "a long name of an axis, s", "", fuseeTorque)))
		ranges := map[string]r1.Interval{}
		for _, f := range frames {
			if f.left != frames[0].left || f.right != frames[0].right {
				t.Errorf("%s begins at %v and ends %v before the edge, not at %v and %v", f.y, f.left, f.right, frames[0].left, frames[0].right)
			}
			if e, known := ranges[f.x]; known && (e != f.across || f.gutter != frames[0].gutter) {
				t.Errorf("%s goes from %v to %v", f.y, f.across.Lo, f.across.Hi)
			}
			ranges[f.x] = f.across
		}
	}
}

// Another reader of PDF gets every label of the SVG back, on as many pages as were asked for.
func checkPDF(t *testing.T, all map[string]painter) {
	reader, err := exec.LookPath("pdftotext") // of Poppler, the general PDF library
	if err != nil {
		t.Skip("there is no pdftotext to read a PDF with")
	}
	solid := func(s string) string { return strings.Join(strings.Fields(s), "") }
	for name, draw := range all {
		for _, size := range []string{"", "84mm", "A5"} {
			look := Look{Size: sizeOf(t, size)}
			pages := sheets(t, draw, look)
			look.Format = "pdf"
			files, err := draw(look)
			if err != nil || len(files) != 1 {
				t.Fatalf("%s: %d files, %v", name, len(files), err)
			}
			var b bytes.Buffer
			if err := files[0](&b); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(t.TempDir(), "p.pdf")
			if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			out, err := exec.Command(reader, "-raw", file, "-").Output()
			if err != nil {
				t.Fatal(err)
			}
			if n := bytes.Count(b.Bytes(), []byte("/Type /Page\n")); n != len(pages) {
				t.Errorf("%s at %q: %d pages, want %d", name, size, n, len(pages))
			}
			for _, s := range pages {
				for _, l := range s.Labels {
					if !strings.Contains(solid(string(out)), solid(l.Words)) {
						t.Errorf("%s at %q: the PDF does not give back %q", name, size, l.Words)
					}
				}
			}
		}
	}
}

// Hatches are few paths: one each way for a range, whatever its size.
func TestHatchesAreFewPaths(t *testing.T) {
	n := count(strokes(t, torque(&results(t, "too-weak")[0])), func(s stroke) bool { return s.like(hatchLine) })
	if n == 0 || n > 6 { // stops, overdriven, and the legend's
		t.Errorf("%d paths of hatches", n)
	}
}
