package trying

import (
	"context"
	"math"
	"strings"
	"testing"

	"evenpull/sim/rules"
	"evenpull/sim/study/sweep"
	"evenpull/sim/vary"
)

// The words along a rule are those of a sweep: its borders lie where a sweep finds them, to a
// thousandth of the rule.
func TestTrackIsSweep(t *testing.T) {
	for _, sample := range []string{"eight-day", "strike-pleasant", "too-strong"} {
		b := benchOf(t, sample)
		key := b.Key(Thickness)
		for _, hold := range []vary.Hold{vary.Length, vary.Fill} {
			a := try(t, b, Ask{Hold: hold, Tracks: []string{key}})
			r := a.Rules[key]
			st, err := sweep.Run(context.Background(), b.Found, b.Number, sweep.Options{Over: sweep.Axis{Key: key, From: r.From, To: r.To, Steps: 200}, Hold: hold})
			if err != nil {
				t.Fatal(err)
			}
			track := a.Tracks[key]
			if track[0].From != r.From || track[len(track)-1].To != r.To {
				t.Errorf("%s: from %v to %v", sample, track[0].From, track[len(track)-1].To)
			}
			for i, s := range track {
				if i > 0 && s.From != track[i-1].To {
					t.Errorf("%s: a gap at %v", sample, s.From)
				}
			}
			near := func(at float64) bool {
				for _, s := range track[1:] {
					if math.Abs(s.From-at) <= 1e-3*(r.To-r.From) {
						return true
					}
				}
				return false
			}
			for _, c := range st.Changes {
				if !near(c.At) {
					t.Errorf("%s, %v: no border at %v in %+v", sample, hold, c.At, track)
				}
			}
		}
	}
}

// With a set-up that follows the track tells what is got when it has followed.
func TestTrackFollows(t *testing.T) {
	b := benchOf(t, "eight-day")
	key := b.Key(Thickness)
	a := try(t, b, Ask{Even: true, Tracks: []string{key}})
	for _, s := range a.Tracks[key] {
		middle := try(t, b, Ask{Even: true, Set: map[string]float64{key: (s.From + s.To) / 2}})
		if s.Fault == nil && middle.Result().Verdict.Code != s.Code {
			t.Errorf("%v to %v: %v, a trial there %v", s.From, s.To, s.Code, middle.Result().Verdict.Code)
		}
	}
}

// What follows, follows: a length that keeps the fill, a set-up that is most even; what is
// set by hand stays.
func TestFollowing(t *testing.T) {
	b := benchOf(t, "eight-day")
	thick, length, setUp := b.Key(Thickness), b.Key(Length), b.Key(SetUp)
	found := try(t, b, Ask{Rules: []string{thick, length}})
	a := try(t, b, Ask{Set: map[string]float64{thick: 0.42}, Hold: vary.Fill})
	if got, want := a.Result().Spring.Fill, found.Result().Spring.Fill; math.Abs(got-want) > 1e-4 {
		t.Errorf("fill %v, found %v", got, want)
	}
	if got, want := a.Values[length], 1650*0.38/0.42; math.Abs(got-want) > 0.05 { // thickness times length (by hand)
		t.Errorf("length %v, want %v", got, want)
	}
	a = try(t, b, Ask{Set: map[string]float64{thick: 0.42}, Hold: vary.Fill, Fill: 0.4})
	if math.Abs(a.Result().Spring.Fill-0.4) > 1e-4 {
		t.Errorf("fill %v", a.Result().Spring.Fill)
	}
	a = try(t, b, Ask{Set: map[string]float64{thick: 0.42, length: 1500}, Hold: vary.Fill})
	if a.Values[length] != 1500 {
		t.Errorf("length %v", a.Values[length])
	}
	a = try(t, b, Ask{Set: map[string]float64{thick: 0.42}, Even: true})
	if best := a.Even.Spring.SetUp; a.Values[setUp] != best || a.Result().Spring.SetUp != best {
		t.Errorf("set-up %v, most even %v", a.Values[setUp], best)
	}
	for click := range 37 {
		other := try(t, b, Ask{Set: map[string]float64{thick: 0.42, setUp: float64(click) / 12}, Even: true})
		r, of := other.Result(), a.Result()
		if r != nil && r.TurnsLost == 0 && r.Advice.Spares(r.Spare()) == r.Advice.Spares(of.Spare()) && r.Torque.Unevenness < of.Torque.Unevenness-1e-12 {
			t.Errorf("%d clicks: %v, most even %v", click, r.Torque.Unevenness, of.Torque.Unevenness)
		}
	}
}

// A rule takes the value as found and does not move with the trial; what is closed does.
func TestRules(t *testing.T) {
	for _, sample := range []string{"eight-day", "strike-pleasant"} {
		b := benchOf(t, sample)
		var keys []string
		for _, q := range b.Others() {
			keys = append(keys, q.Key)
		}
		for _, key := range append(keys, b.Key(Thickness), b.Key(Width), b.Key(Length), b.Key(SetUp)) {
			r := try(t, b, Ask{Rules: []string{key}}).Rules[key]
			q, _ := b.Found.Quantity(key)
			if !(r.From < r.To && r.From <= r.Value && r.Value <= r.To && r.From >= q.Lo && r.To <= q.Hi && r.Step > 0 && r.Step <= r.To-r.From) {
				t.Errorf("%s: %+v", key, r)
			}
		}
		thick, length := b.Key(Thickness), b.Key(Length)
		one := try(t, b, Ask{Rules: []string{length}}).Rules[length]
		other := try(t, b, Ask{Set: map[string]float64{thick: 0.48}, Rules: []string{length}}).Rules[length]
		if one.From != other.From || one.To != other.To || len(other.Closed) == 0 && 0.95*math.Pi*(45*45-15*15)/4/0.48 < other.To {
			t.Errorf("%+v, then %+v", one, other)
		}
	}
}

// What is typed may bear any unit of its kind, a point or a comma.
func TestRead(t *testing.T) {
	b := benchOf(t, "eight-day")
	for text, want := range map[string]float64{"0.40": 0.4, " 0,41 mm": 0.41, "0.016 in": 0.4064, `0.016"`: 0.4064, "4e-1": 0.4, ".4": 0.4} {
		if got, err := b.Read(b.Key(Thickness), text); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{"": "found \"\"; want a number from", "thick": "found \"thick\"", "0.4 kg": "found \"0.4 kg\"; want a number in mm", "99": "found 99; want", "-1": "found -1", "1.2.3": "found \"1.2.3\"", "NaN": "found \"NaN\"", "1e999": "found"} {
		if v, err := b.Read(b.Key(Thickness), text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v", text, v, err)
		}
	}
	if v, err := b.Read(b.Key(SetUp), "1.5 turns"); err != nil || v != 1.5 {
		t.Error(v, err)
	}
}

func FuzzRead(f *testing.F) {
	b := benchOf(f, "eight-day")
	for _, text := range []string{"0.4", "0,4 mm", "1e9 in", "−0.4"} {
		f.Add(text)
	}
	q, _ := b.Found.Quantity(b.Key(Thickness))
	f.Fuzz(func(t *testing.T, text string) {
		if v, err := b.Read(q.Key, text); err == nil && !(v >= q.Lo && v <= q.Hi) {
			t.Errorf("%q: %v", text, v)
		}
	})
}

// What cannot be asked is refused; what cannot be built is an answer.
func TestAsked(t *testing.T) {
	b := benchOf(t, "eight-day")
	for _, q := range []Ask{
		{Set: map[string]float64{"going.mainspring.thick": 1}}, {Tracks: []string{"striking.mainspring.width_mm"}}, {Draws: -1}, {Draws: 1e6}, {Fill: 2}, {Rules: make([]string, 99)},
	} {
		if q.Fill == 0 {
			q.Fill = math.NaN()
		}
		if _, err := b.Try(context.Background(), &q); err == nil {
			t.Errorf("%+v was answered", q)
		}
	}
	a := try(t, b, Ask{Set: map[string]float64{b.Key(Thickness): 3}, Rules: []string{b.Key(Thickness)}})
	if a.Fault == nil || a.Clock != nil || a.Values[b.Key(Thickness)] != 3 {
		t.Errorf("%+v", a)
	}
	if a := try(t, b, Ask{}); a.Fault != nil || a.Result().Verdict.Code != rules.Suits || a.Low != nil {
		t.Errorf("%+v", a)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := b.Try(ctx, &Ask{Fill: math.NaN(), Draws: 2000}); err == nil {
		t.Error("a trial that nobody waits for was finished")
	}
}
