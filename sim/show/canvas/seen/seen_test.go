package seen

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// What keeps a picture from being read is found, and nothing else: places by hand. Group 1 is
// turned by a right angle, so that its text goes upwards from 20, 90.
func TestLetters(t *testing.T) {
	const svg = `<svg width="200pt" height="100pt" viewBox="0 0 200 100">
<g transform="translate(20, 90) rotate(-90)"><text textLength="40" x="0" y="0" style="font-size:10px">up</text></g>
<g transform="scale(1, -1) translate(0, -100)">
<text textLength="30" x="50" y="-50" transform="scale(1, -1)" style="font-size:8px">one</text>
<text textLength="30" x="70" y="-52" transform="scale(1, -1)" style="font-size:6px">two</text>
<text textLength="30" x="180" y="-20" transform="scale(1, -1)" style="font-size:8px">` + "\U0001d11e" + `</text>
<path d="M10,40L30,40" style="fill:none;stroke:#101010" />
<path d="M110,50A10,10 0 1 1 90,50A10,10 0 1 1 110,50Z" style="fill:none;stroke:#101010" />
<path d="M0,0L200,100" style="fill:#101010" />
</g></svg>`
	s, err := Read([]byte(svg))
	if err != nil {
		t.Fatal(err)
	}
	up := s.Labels[0]
	for i, pair := range [][2]float64{{s.Wide, 200}, {s.High, 100}, {up.Left, 20 - 6.6}, {up.Right, 22.2}, {up.Foot, 90}, {up.Top, 50}, {up.Size, 10}, {s.Labels[1].Foot, 50 + 0.22*8}} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("%d: %v, want %v", i, pair[0], pair[1])
		}
	}
	all := strings.Join(s.Illegible(), "\n")
	for _, want := range []string{`"two" overlaps "one"`, `"two" is of 6.0 points`, "is beyond the edge", "the font has no '\U0001d11e'"} {
		if strings.Count(all, want) != 1 {
			t.Errorf("no %s in\n%s", want, all)
		}
	}
	if len(s.Illegible()) != 4 {
		t.Error(all)
	}
	// The circle about 100, 50 of radius 10 goes through "two", which ends at its middle.
	if got := s.Struck(); !slices.Equal(got, []string{`a line goes through "up"`, `a line goes through "two"`}) || len(s.Lines) != 2 {
		t.Error(got)
	}
	for _, p := range s.Lines[1] {
		if r := math.Hypot(p.X-100, p.Y-50); math.Abs(r-10) > 1e-9 {
			t.Fatalf("%v is %v off the middle", p, r)
		}
	}
	if n := len(s.Lines[1]); n < 100 {
		t.Errorf("%d places", n)
	}
	for _, bad := range []string{`<svg viewBox="0 0 1">`, `<svg viewBox="0 0 1 1"><text x="1" y="1">a</text></svg>`, `<svg viewBox="0 0 1 1"><path style="stroke:#000" d="M1"/></svg>`, `<svg viewBox="0 0 1 1"><g transform="scale(x, 1)"></g></svg>`, `<svg`} {
		if _, err := Read([]byte(bad)); err == nil {
			t.Errorf("%s was read", bad)
		}
	}
}
