package live

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"reflect"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/data"
	"evenpull/sim/study/sure"
	"evenpull/sim/study/trying"
	"evenpull/sim/vary"
)

// asked is an answer as the page gets it.
type asked struct {
	Run    json.RawMessage `json:"run"`
	Fault  string          `json:"fault"`
	Says   says            `json:"says"`
	Curve  [][4]*float64   `json:"curve"`
	Values map[string]float64
	Tracks map[string][]struct {
		From, To float64
		Verdict  *string
		Why      string
	}
	Sure   bool
	Barrel struct{ Down, Wound [][2]float64 }
}

func askRun(t *testing.T, d *Desk, q request) asked {
	t.Helper()
	w := post(t, handlerOf(t, d), "/run", q)
	var a asked
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != 200 {
		t.Fatalf("%d %v %.300s", w.Code, err, w.Body)
	}
	return a
}

// What the page is told of a run is, member by member, what run --set writes.
func TestRunIsRun(t *testing.T) {
	for _, sample := range []string{"eight-day", "strike-pleasant"} {
		d := deskOf(t, sample)
		d.Origin = data.Origin{Command: "try", Set: []string{"going.x=1"}} // which stands before what the page changes
		key := d.Trains[0].Key(trying.Thickness)
		got := askRun(t, d, request{Set: map[string]float64{key: 0.4}}) // as a script would, which leaves out the rest
		if len(got.Tracks) != 4 {
			t.Errorf("%s: tracks of %d rules", sample, len(got.Tracks))
		}
		s := d.Trains[0].Found.Clone()
		if err := vary.Apply(s, []string{key + "=0.4"}); err != nil {
			t.Fatal(err)
		}
		clock, err := sim.RunClock(s, sim.Options{Step: sim.QuarterTurn})
		if err != nil {
			t.Fatal(err)
		}
		if clock.Trains[0].Verdict.Sureness, err = sure.Of(context.Background(), s, 0, sure.Options{Seed: 1}); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := data.Run().JSON(&b, data.Origin{Command: "try", Set: []string{"going.x=1", key + "=0.4"}, Seed: new(int64(1))}, clock); err != nil {
			t.Fatal(err)
		}
		var is, want any
		json.Unmarshal(got.Run, &is)
		json.Unmarshal(b.Bytes(), &want)
		if is == nil || !reflect.DeepEqual(is, want) || !got.Sure {
			t.Errorf("%s: %.300s", sample, got.Run)
		}
		if !strings.HasSuffix(got.Says.Verdict, ".") || !strings.Contains(got.Says.Verdict, "in 100") || len(got.Curve) < 50 {
			t.Errorf("%s: %+v", sample, got.Says)
		}
	}
}

// A strip that is too wide is told in words, without KEYs, and so are the parts of a rule
// that it is too wide on.
func TestImpossible(t *testing.T) {
	d := deskOf(t, "eight-day")
	key := d.Trains[0].Key(trying.Width)
	a := askRun(t, d, request{Train: "going", Set: map[string]float64{key: 50}, Draws: new(int)})
	if string(a.Run) != "null" || !strings.Contains(a.Fault, "width of the mainspring") || strings.Contains(a.Fault, "_mm") {
		t.Errorf("%s %q", a.Run, a.Fault)
	}
	a = askRun(t, d, request{Train: "going", Tracks: []string{key}})
	track := a.Tracks[key]
	last := track[len(track)-1]
	if last.Verdict != nil || strings.Contains(last.Why, "_mm") || !strings.Contains(last.Why, "too wide for the barrel") {
		t.Errorf("%+v", last)
	}
}

// What is kept runs to what was tried; steel that free coils told takes their place.
func TestKeep(t *testing.T) {
	text, _ := scenarios.Text("eight-day")
	for name, text := range map[string]string{"steel": text, "coils": strings.Replace(text, "yield_mpa    = 1620.0", "free_coils   = 6.9", 1)} {
		d := deskOf(t, "eight-day")
		s, err := scenario.Read(strings.NewReader(text), "a clock")
		if err != nil {
			t.Fatal(err)
		}
		b, err := trying.New(s, 0)
		if err != nil {
			t.Fatal(err)
		}
		written := map[string]string{}
		d.Text, d.Trains = text, []*Train{NewTrain(b)}
		d.Keep = func(_ context.Context, name, text string) error {
			if _, is := written[name]; is {
				return os.ErrExist
			}
			written[name] = text
			return nil
		}
		h := handlerOf(t, d)
		q := request{Train: "going", Set: map[string]float64{b.Key(trying.Thickness): 0.41, b.Key("line.thickness_mm"): 1.5}, Hold: "fill", Even: true, Name: "my trial.toml"}
		keep := func() (k kept) {
			if err := json.Unmarshal(post(t, h, "/keep", q).Body.Bytes(), &k); err != nil {
				t.Fatal(err)
			}
			return k
		}
		if k := keep(); k.Fault != "" || k.Says != `Kept as my trial.toml. To run it: evenpull run "my trial.toml"` {
			t.Fatalf("%s: %+v", name, k)
		}
		if k := keep(); k.Fault == "" {
			t.Errorf("%s: it was written over", name)
		}
		again, err := scenario.Read(strings.NewReader(written["my trial.toml"]), "kept")
		if err != nil {
			t.Fatal(err)
		}
		r, err := sim.RunTrain(again, 0, sim.Options{Step: sim.QuarterTurn})
		if err != nil {
			t.Fatal(err)
		}
		var is struct {
			Trains []struct {
				Torque struct{ Mean, Min, Max float64 } `json:"fusee_torque_nm"`
			}
		}
		json.Unmarshal(askRun(t, d, q).Run, &is)
		if of := is.Trains[0].Torque; !near(r.Torque.Mean, of.Mean) || !near(r.Torque.Min, of.Min) || !near(r.Torque.Max, of.Max) {
			t.Errorf("%s: kept %+v, tried %+v", name, r.Torque, of)
		}
		for _, bad := range []string{"", "../a.toml", "/tmp/a.toml", ".a.toml", "a/b.toml", `a\b.toml`, "a\x00.toml", "a\n.toml"} {
			q.Name = bad
			if k := keep(); k.Fault == "" {
				t.Errorf("%q was written", bad)
			}
		}
	}
}
