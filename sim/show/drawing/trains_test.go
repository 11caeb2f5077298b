package drawing

import (
	"cmp"
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/show/canvas"
)

func results(t testing.TB, name string, replace ...string) []sim.Result {
	t.Helper()
	_, trains := trial.Compile(t, name, replace...)
	return trial.Run(t, trains)
}

func svg(t testing.TB, res []sim.Result) string {
	t.Helper()
	return string(trial.Picture(t, "svg", func(w io.Writer, format string) error { return Write(w, canvas.Form{Format: format}, res) }))
}

func TestGoldenDrawing(t *testing.T) {
	trial.Golden(t, "three-trains", func(w io.Writer, format string) error {
		return Write(w, canvas.Form{Format: format}, results(t, "three-trains"))
	})
}

// Every sample can be drawn, and what is drawn is named.
func TestEverySample(t *testing.T) {
	for _, name := range scenarios.Names() {
		res := results(t, name)
		picture := svg(t, res)
		dec := xml.NewDecoder(strings.NewReader(picture))
		for {
			if _, err := dec.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		if strings.Contains(picture, "NaN") || strings.Contains(picture, "Inf") {
			t.Errorf("%s: a number that is none", name)
		}
		for i := range res {
			for _, want := range append([]string{res[i].Train.Name + " train: ", "Barrel and fusee to scale: 1 : 1 when printed at its own size", "barrel wound", "not to scale", "mm"}, res[i].Train.Arbors...) {
				if !strings.Contains(picture, want) {
					t.Errorf("%s: no %q", name, want)
				}
			}
		}
	}
	if Write(io.Discard, canvas.Form{Format: "svg"}, nil) == nil {
		t.Error("nothing was drawn")
	}
}

// The coils drawn make up the strip's length and its turns, at any winding.
func TestCoils(t *testing.T) {
	for _, name := range scenarios.Names() {
		for _, r := range results(t, name) {
			strip, in := &r.Train.Drive.Spring, &r.Train.Drive.Housing
			h := strip.Thickness
			last := -1.0
			for i := 1; i < 20; i++ {
				turns := r.Spring.Available * float64(i) / 20
				onArbor, inner, outer := packed(&r, turns)
				area := math.Pi * (inner*inner - in.Arbor*in.Arbor + in.Inside*in.Inside - outer*outer) // of packed strip
				free := math.Pi * (inner + outer) * h
				if math.Abs((area+free)/(h*strip.Length)-1) > 0.03 || onArbor < last || inner > outer {
					t.Errorf("%s at %.2f turns: %v of the strip drawn", name, turns, (area+free)/(h*strip.Length))
				}
				last = onArbor
			}
		}
	}
}

// The scale bar is as long as it says: 50 mm at 1 : 1 are 141.73 points.
func TestScaleBar(t *testing.T) {
	picture := svg(t, results(t, "eight-day"))
	block := regexp.MustCompile(`M([0-9.]+),([0-9.]+)L([0-9.]+),([0-9.]+)L[0-9.,L]+Z" style="fill:#101010`)
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	blocks := block.FindAllStringSubmatch(picture, -1)
	if len(blocks) != 3 || math.Abs(number(blocks[2][3])-number(blocks[0][1])-50*72/25.4) > 0.01 {
		t.Errorf("the bar is not 50 mm long: %q", blocks)
	}
	if !strings.Contains(picture, "50 mm") {
		t.Error("the bar does not say how long it is")
	}
	// A turret clock is drawn smaller.
	big := results(t, "eight-day", "inside_diameter_mm  = 45.0", "inside_diameter_mm  = 245.0", "outside_diameter_mm = 49.0", "outside_diameter_mm = 260.0", "centre_distance_mm = 58.0", "centre_distance_mm = 258.0", "length_mm    = 1650.0", "length_mm    = 70000.0")
	if s := svg(t, big); !strings.Contains(s, "to scale: 1 : 5 when") || !strings.Contains(s, ">250 mm<") {
		t.Error("a large clock does not fit the page")
	}
}

// A train is drawn at the greatest of the scales at which it fits between the margins,
// with a gap beside each barrel.
func TestScaleFits(t *testing.T) {
	r := results(t, "eight-day")[0]
	if !slices.IsSortedFunc(scales, func(a, b float64) int { return cmp.Compare(b, a) }) {
		t.Errorf("%v do not fall", scales)
	}
	chosen := map[float64]bool{}
	for _, radius := range []float64{5e-3, 10e-3, 24e-3, 50e-3, 53e-3, 60e-3, 100e-3, 150e-3, 400e-3} {
		r.Train.Drive.Barrel.Radius = radius
		var d trainDrawing
		if err := d.measure(&r, ownSheet); err != nil {
			t.Fatal(err)
		}
		chosen[d.scale] = true
		line := r.Train.Drive.Line.Thickness
		room := func(scale float64) float64 {
			length := 2*2*(radius+line) + d.cone.Pitch*(d.cone.Turns+1)
			return ownSheet.inner() - 2*ownSheet.gap - 1e3*scale*length
		}
		i := slices.Index(scales, d.scale)
		if room(d.scale) < 0 && i < len(scales)-1 || i > 0 && room(scales[i-1]) >= 0 {
			t.Errorf("a barrel of %v m is drawn at %v", radius, d.scale)
		}
	}
	if len(chosen) < 4 {
		t.Errorf("the scales chosen: %v", chosen)
	}
}

// One hand on both drawings, the scenario's own: seen from the side, the near side of a
// right-hand thread goes down to the right, x = pθ, y = r cos 2πθ with z = r sin 2πθ
// towards the eye.
func TestHandOfTheGroove(t *testing.T) {
	for hand, left := range map[string]bool{"right": false, "left": true} {
		const pitch = "pitch_mm           = 2.2"
		res := results(t, "eight-day", pitch, "hand = \""+hand+"\"\n"+pitch)
		cone := res[0].Train.Drive.Cone
		if cone.Left != left || !strings.Contains(svg(t, res), hand+"-hand groove;") {
			t.Errorf("%s: %v, or not told", hand, cone.Left)
		}
		near := (&sheet{scale: 1}).nearSide(spot{}, &cone, 0, 0, 3)
		for i := 1; i < len(near); i++ {
			if down := near[i].y < near[i-1].y; !(near[i].x > near[i-1].x) || down == left {
				t.Fatalf("%s: from %v to %v", hand, near[i-1], near[i])
			}
		}
		at, _, _ := cone.Profile.At(3.25)
		if p := near[len(near)/2]; math.Abs(p.x-3.25*2.2) > 1e-9 || math.Abs(p.y) > 1e-9 || math.Abs(math.Abs(near[0].y)-1e3*at) > 0.5 {
			t.Errorf("%s: %v, radius %v", hand, near[0], at)
		}
	}
}

func pdf(t testing.TB, res []sim.Result) []byte {
	t.Helper()
	return trial.Picture(t, "pdf", func(w io.Writer, format string) error { return Write(w, canvas.Form{Format: format}, res) })
}
