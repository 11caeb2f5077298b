package chart

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
)

// usual draws a picture in the usual look.
func usual[T any](draw func(Look, T) (Files, error), of T) func(io.Writer, string) error {
	return func(w io.Writer, format string) error { return Usual(draw)(w, format, of) }
}

// stacked draws panels so.
func stacked(panels ...*panel) func(io.Writer, string) error {
	return usual(func(look Look, list []*panel) (Files, error) { return stack(look, list...) }, panels)
}

func results(t testing.TB, name string, replace ...string) []sim.Result {
	t.Helper()
	_, trains := trial.Compile(t, name, replace...)
	return trial.Run(t, trains)
}

func picture(t testing.TB, format string, res []sim.Result) []byte {
	t.Helper()
	return trial.Picture(t, format, usual(Write, res))
}

func TestGoldenPictures(t *testing.T) {
	for _, name := range scenarios.Names() {
		trial.Golden(t, name, usual(Write, results(t, name)))
	}
}

func TestPictureSaysWhatItShows(t *testing.T) {
	svg := string(picture(t, "svg", results(t, "too-weak")))
	for _, want := range []string{"going train: STOPS: mean 1.08 and least 0.705 times the need; running down", ">torque at the fusee, N·m<", "fusee turns paid out", "168 h", "least torque needed", ">stops<", ">thin<", "its mean over the run", "what it would be after that"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the picture", want)
		}
	}
	dec := xml.NewDecoder(strings.NewReader(svg))
	for {
		if _, err := dec.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
	}
	if pdf := picture(t, "pdf", results(t, "too-weak")); !bytes.HasPrefix(pdf, []byte("%PDF-")) {
		t.Error("the PDF is none")
	}
}

func TestPictureOfStriking(t *testing.T) {
	svg := string(picture(t, "svg", results(t, "strike-quick")))
	for _, want := range []string{"striking train: OVERDRIVEN", "s from blow to blow", "slowest wanted", "fastest wanted", "A strike of twelve from rest", "s from the release"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the picture", want)
		}
	}
	stalls := string(picture(t, "svg", results(t, "strike-quick", "mass_g = 30.0", "mass_g = 250.0")))
	if !strings.Contains(stalls, "it stalls after") || strings.Contains(stalls, "NaN") {
		t.Error("a train that stalls has no picture of its own")
	}
}

// A drive of which nothing but the torque is known still has a picture.
func TestPictureOfDriveAlone(t *testing.T) {
	text, _ := scenarios.Text("eight-day")
	rest := text[strings.Index(text, "# The wheels"):]
	svg := string(picture(t, "svg", results(t, "eight-day", rest, "")))
	if !strings.Contains(svg, "going train: NOT JUDGED: mean") {
		t.Error("no verdict in the title")
	}
	for _, not := range []string{"NaN", "Inf", " h<", "least torque needed", "suits"} {
		if strings.Contains(svg, not) {
			t.Errorf("%q in the picture", not)
		}
	}
}

// An even drive moves nothing: its lines are level, not a picture of rounding.
func TestPictureOfEvenDrive(t *testing.T) {
	svg := string(picture(t, "svg", results(t, "eight-day", `profile = "measured"`, `profile = "even"
large_diameter_mm = 29.2 #`, "diameters_mm = [", "# [",
		"13.0, 13.4, 13.7, 14.1, 14.5, 14.9, 15.3, 15.9, 16.3,", "", "17.0, 17.6, 18.5, 19.2, 20.4, 21.9, 24.4, 29.2,", "", "\n]\n", "\n")))
	if strings.Contains(svg, "0.00000") || !strings.Contains(svg, "rate off its mean") {
		t.Error("the axis of the rate shows rounding errors")
	}
}

// Bands rise without gaps from nothing upwards, and differ in lightness.
func TestBands(t *testing.T) {
	for _, name := range scenarios.Names() {
		for i, res := range results(t, name) {
			bands := torqueBands(&res.Digest)
			if len(bands) == 0 || bands[0].Lo != 0 || !math.IsInf(bands[len(bands)-1].Hi, 1) {
				t.Errorf("%s %d: %v", name, i, bands)
			}
			for k := 1; k < len(bands); k++ {
				if bands[k].Lo != bands[k-1].Hi || bands[k].Hi < bands[k].Lo {
					t.Errorf("%s %d: a gap between %v and %v", name, i, bands[k-1], bands[k])
				}
			}
		}
	}
}

// What is liked below the need is no band: there the train stops.
func TestBandsBelowTheNeed(t *testing.T) {
	res := results(t, "strike-quick", "blow_interval_s = [ 1.15, 1.75 ]", "least_torque_nm = 0.7\ntorque_band_nm = [ 0.1, 0.2 ]")
	bands := torqueBands(&res[0].Digest)
	if bands[0].name != "stops" || bands[0].Hi != 0.7 {
		t.Errorf("%v", bands)
	}
	for k := 1; k < len(bands); k++ {
		if bands[k].Lo != bands[k-1].Hi || bands[k].Hi < bands[k].Lo {
			t.Errorf("a gap between %v and %v", bands[k-1], bands[k])
		}
	}
}

func TestTicks(t *testing.T) {
	ticks := evenTicks(0.28, 0.41, 9)
	if len(ticks) < 4 || len(ticks) > 9 {
		t.Errorf("%d ticks", len(ticks))
	}
	for _, k := range ticks {
		if len(k.Label) != len("0.30") || k.Value < 0.28 || k.Value > 0.41 {
			t.Errorf("%+v", k)
		}
	}
	for v, want := range map[float64]float64{0.9: 1, 1: 1, 1.1: 2, 2.5: 5, 6: 10, 0.013: 0.02} {
		if got := roundStep(v); math.Abs(got/want-1) > 1e-12 {
			t.Errorf("step for %g: %g, want %g", v, got, want)
		}
	}
}

// Every turn is named, with its hours from the first on as long as the train goes.
func TestTurnsAndHours(t *testing.T) {
	for _, c := range []struct {
		from, to, hours float64
		want            []string
	}{
		{10, 13, 12, []string{"10\n0 h", "11\n12 h", "12\n24 h", "13\n36 h"}},
		{10, 19, nan, []string{"10", "11", "12", "13", "14", "15", "16", "17", "18", "19"}},
		{9.5, 12.5, 2, []string{"10\n1 h", "11\n3 h", "12\n5 h"}},
	} {
		r := &sim.Result{Rows: []sim.Row{{FuseeTurn: c.from}, {FuseeTurn: c.to}}, Digest: sim.Digest{HoursPerTurn: c.hours, StopsAt: nan, Setting: sim.Setting{Turns: c.to}}}
		g := overTurns(r, "torque")
		var labels []string
		for i, k := range g.ticks {
			labels = append(labels, k.Label)
			if k.Value != math.Ceil(c.from)+float64(i) {
				t.Errorf("tick %d at %v", i, k.Value)
			}
		}
		if !slices.Equal(labels, c.want) || g.xs != ext(c.from, c.to) || strings.Contains(g.x, "hours") == math.IsNaN(c.hours) {
			t.Errorf("%q from %v to %v, want %q", labels, g.xs.Lo, g.xs.Hi, c.want)
		}
	}
}
