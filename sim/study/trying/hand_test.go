package trying

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
	"evenpull/sim/vary"
)

// The rules of the sample: 30 % to both sides of 0.38 mm and of 32 mm, in whole steps, 60 % of
// 1650 mm, set-up in clicks of a twelfth; closed from the barrel's 33.2 mm of height on, and
// from the length that fills 95 % of 1413.7 mm² (45 and 15 mm across) at 0.38 mm, of which a
// coil takes up 1.065 times (by hand).
func TestRulesByHand(t *testing.T) {
	b := benchOf(t, "eight-day")
	line, drag, width, length := b.Key("line.thickness_mm"), b.Key("mesh.centre.drag_nm"), b.Key(Width), b.Key(Length)
	for key, want := range map[string]Rule{
		b.Key(Thickness): {From: 0.26, To: 0.5, Step: 0.01, Value: 0.38},
		width:            {From: 22.4, To: 41.6, Step: 0.1, Value: 32, Closed: []Closed{{33.2, 41.6, TooWide}}},
		length:           {From: 660, To: 2640, Step: 10, Value: 1650},
		b.Key(SetUp):     {From: 0, To: 3, Step: 1.0 / 12, Value: 1.25},
		line:             {From: 1.2, To: 2, Step: 0.01, Value: 1.6},
		drag:             {From: 0, To: 1, Step: 0.01, Value: 0},
	} {
		got := try(t, b, Ask{Rules: []string{key}}).Rules[key]
		got.Quantity = want.Quantity
		if key == drag {
			q, _ := b.Found.Quantity(key)
			want.To = math.Min(1, q.Hi)
			want.Step = nice(want.To / 100)
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%s: %+v, want %+v", key, got, want)
		}
	}
	full := 0.95 * math.Pi / 4 * (45*45 - 15*15) / 1.065
	a := try(t, b, Ask{Set: map[string]float64{b.Key(Thickness): 0.6}, Rules: []string{length}})
	if c := a.Rules[length].Closed; len(c) != 1 || math.Abs(c[0].From-full/0.6) > 1e-9 || c[0].To != 2640 || c[0].Why != TooFull {
		t.Errorf("%+v, want from %v", c, full/0.6)
	}
	s, _ := trial.Compile(t, "eight-day", "inside_height_mm    = 33.2", "inside_height_mm    = 50.5")
	high, err := New(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	if r := try(t, high, Ask{Rules: []string{width}}).Rules[width]; r.To != 56 || len(r.Closed) != 1 || r.Closed[0].From != 50.5 { // 1.1 times 50.5, whole
		t.Errorf("%+v", r)
	}
	for v, want := range map[float64]float64{0.0123: 0.01, 0.0234: 0.02, 0.07: 0.05, 1: 1, 2: 2, 9.9: 5, 10: 10} {
		if got := nice(v); got != want {
			t.Errorf("nice(%v) = %v, want %v", v, got, want)
		}
	}
}

// 25 draws each of 0.1 above and of 0.3 above what is found: 0.2 above it on the average, and
// 0.1 about that (by hand). Other runs, and draws beyond the first block, are left out.
func TestVeil(t *testing.T) {
	own := []sim.Row{{FuseeTorque: 1}, {FuseeTorque: 0.05}}
	rows := func(by float64) *sim.Result {
		return &sim.Result{Rows: []sim.Row{{FuseeTorque: 1 + by}, {FuseeTorque: 0.05 - by}}}
	}
	v := veilOver(own)
	for i := range 9 {
		v.add(i, rows(0.1))
		v.add(i, rows(0.3))
	}
	v.add(0, rows(0.1))
	if low, up := v.ends(); low != nil || up != nil {
		t.Errorf("19 draws tell %v to %v", low, up)
	}
	v.add(0, rows(0.3))
	v.add(1, nil)
	v.add(1, &sim.Result{Rows: own[:1]})
	v.add(vary.BlockRuns, rows(9))
	low, up := v.ends()
	for i, want := range [][2]float64{{1.2 - 0.196, 1.2 + 0.196}, {0, 0.05 - 0.2 + 0.196}} {
		if math.Abs(low[i]-want[0]) > 1e-9 || math.Abs(up[i]-want[1]) > 1e-9 {
			t.Errorf("row %d: %v to %v, want %v", i, low[i], up[i], want)
		}
	}
}

// A strip of the list is tried as it is fitted, of its own steel where the list tells it.
func TestStrip(t *testing.T) {
	b := benchOf(t, "eight-day")
	c := choose.Candidate{Spring: stock.Spring{WidthMM: 30, ThicknessMM: 0.4, LengthMM: 2000, YieldMPa: math.NaN(), ModulusGPa: math.NaN()}, CutTo: 1700}
	c.Digest.Spring.SetUp = 1.5
	plain := map[string]float64{b.Key(Width): 30, b.Key(Thickness): 0.4, b.Key(Length): 1700, b.Key(SetUp): 1.5}
	if got := b.Strip(&c); fmt.Sprint(got) != fmt.Sprint(plain) {
		t.Errorf("%v", got)
	}
	c.YieldMPa, c.ModulusGPa, c.CutTo = 1500, 200, math.NaN()
	plain[b.Key(Length)], plain[b.Key("mainspring.yield_mpa")], plain[b.Key("mainspring.modulus_gpa")] = 2000, 1500, 200
	if got := b.Strip(&c); fmt.Sprint(got) != fmt.Sprint(plain) {
		t.Errorf("%v", got)
	}
	if a := try(t, b, Ask{Set: plain}); a.Fault != nil || a.Result().Train.Drive.Spring.Yield != 1.5e9 {
		t.Errorf("%+v", a.Fault)
	}
}

// What was changed is told by its KEYs, also what follows from coils that were counted.
func TestChanged(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "free_coils   = 6.9")
	b, err := New(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	a := try(t, b, Ask{Set: map[string]float64{b.Key(Thickness): 0.4, b.Key(Width): 32}, Hold: vary.Fill, Even: true, Rules: []string{b.Key(Length)}})
	got := strings.Join(b.Changed(a), " ")
	if want := "going.barrel.set_up_turns going.mainspring.length_mm going.mainspring.thickness_mm going.mainspring.yield_mpa"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := b.Changed(try(t, b, Ask{Set: map[string]float64{b.Key(Width): 32}})); len(got) != 0 {
		t.Errorf("%v", got)
	}
}

// Where another set-up follows, what cannot be built still says why; a train that cannot be
// run is not put on the bench.
func TestCannot(t *testing.T) {
	b := benchOf(t, "eight-day")
	track := try(t, b, Ask{Even: true, Tracks: []string{b.Key(Width)}}).Tracks[b.Key(Width)]
	if last := track[len(track)-1]; last.Fault == nil || !strings.Contains(last.Fault.Error(), "too wide for the barrel") {
		t.Errorf("%+v", last)
	}
	s, _ := trial.Compile(t, "eight-day")
	s.Trains[0].Fusee.Profile = "wanted"
	if _, err := New(s, 0); err == nil {
		t.Error("a train without a cone is on the bench")
	}
	var none *Answer = &Answer{}
	if none.Result() != nil {
		t.Error("a run of nothing")
	}
	if v, err := b.Read("going.mainspring.none", "1"); err == nil || !math.IsNaN(v) {
		t.Error(v, err)
	}
	for text, want := range map[string]string{"": `found ""; want a number from 0.02 to 5 mm`, "99": "found 99; want a number from 0.02 to 5 mm"} {
		q, _ := b.Found.Quantity(b.Key(Thickness))
		want = strings.Replace(want, "0.02 to 5", fmt.Sprintf("%g to %g", q.Lo, q.Hi), 1)
		if v, err := b.Read(q.Key, text); err == nil || err.Error() != want || !math.IsNaN(v) {
			t.Errorf("%q: %v %v, want %s", text, v, err, want)
		}
	}
	for _, q := range b.Others() {
		for _, always := range []string{Thickness, Width, Length, SetUp} {
			if q.Key == b.Key(always) {
				t.Errorf("%s twice", q.Key)
			}
		}
	}
}
