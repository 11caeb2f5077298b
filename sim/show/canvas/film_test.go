package canvas

import (
	"bytes"
	"encoding/xml"
	"image/color"
	"io"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func says(words string) func(draw.Canvas) {
	return func(on draw.Canvas) {
		style := Letters(12)
		style.Color = color.RGBA{0xff, 0, 0, 0xff}
		on.FillText(style, vg.Point{X: 50, Y: 50}, words)
	}
}

// A film shows its frames one after the other, each as long as it is to, over what stays.
func TestFilm(t *testing.T) {
	m := Film{Each: time.Second, Rest: 1, Ground: says("ground"), Frames: []Frame{{Draw: says("one < two")}, {Draw: says("two"), For: 3}, {Draw: says("three")}}}
	var b bytes.Buffer
	if err := (Form{Format: "svg", Grey: true}).Film(&b, 100, 80, m); err != nil {
		t.Fatal(err)
	}
	svg := b.String()
	for dec := xml.NewDecoder(&b); ; {
		if _, err := dec.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	at := 0
	for _, want := range []string{ // in this order: five times a second in all, from the first frame on
		`viewBox="0 0 100 80"`, ".rest{visibility:visible}", "(prefers-reduced-motion:no-preference)", ".frame{visibility:hidden;animation:5.00s step-end infinite}", "svg:hover",
		"@keyframes for1{0%{visibility:visible}20%,100%{visibility:hidden}}", "@keyframes for3{0%{visibility:visible}60%,100%{visibility:hidden}}",
		">ground<", `class="frame" visibility="hidden" style="animation-name:for1;animation-delay:-5.00s"`, ">one &lt; two<",
		`class="frame rest" style="animation-name:for3;animation-delay:-4.00s"`, ">two<", `style="animation-name:for1;animation-delay:-1.00s"`, ">three<",
	} {
		i := strings.Index(svg[at:], want)
		if i < 0 {
			t.Fatalf("no %s after %d bytes of %s", want, at, svg)
		}
		at += i
	}
	if strings.Count(svg, "<svg") != 1 || strings.Count(svg, "</svg>") != 1 || strings.Contains(svg, "#FF0000") {
		t.Errorf("more than one picture, or colours: %s", svg)
	}
	for what, f := range map[string]func(*Form, *Film){
		"another format": func(f *Form, _ *Film) { f.Format = "png" },
		"no time":        func(_ *Form, m *Film) { m.Each = 0 },
		"no frames":      func(_ *Form, m *Film) { m.Frames = nil },
		"no rest":        func(_ *Form, m *Film) { m.Rest = 3 },
	} {
		form, film := Form{Format: "svg"}, m
		if f(&form, &film); form.Film(io.Discard, 100, 80, film) == nil {
			t.Errorf("%s: a film", what)
		}
	}
	bare := m
	bare.Ground = nil
	if err := (Form{Format: "svg"}).Film(io.Discard, 100, 80, bare); err != nil {
		t.Error(err)
	}
}
