package words

import (
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
)

// Every fault there is has a sentence of its own.
func TestEveryFaultIsTold(t *testing.T) {
	said := map[string]sim.Fault{}
	all := sim.Faults(1<<16 - 1).List()
	for _, f := range all {
		says := Fault(&sim.Digest{}, f)
		if says == "" {
			t.Errorf("nothing is said of %v", f)
		}
		said[says] = f
	}
	if len(all) < 10 || len(said) != len(all) {
		t.Errorf("%d faults, %d sentences", len(all), len(said))
	}
}

func TestCaution(t *testing.T) {
	said := Caution(9.80665)
	for _, word := range []string{"9.81 J", "1.00 m", "let-down key", "winder", "eye protection", "never stand in its way", "Local safety rules"} {
		if !strings.Contains(said, word) {
			t.Errorf("the caution lacks %q: %s", word, said)
		}
	}
}

// A count that only coils without gaps make, or that only very loose ones leave, is
// asked about; one between is not.
func TestCountsAskedAbout(t *testing.T) {
	for counted, want := range map[string]string{"9.3": "are as many as coils without gaps make", "8.2": "", "4.5": "mean coils that take up 1.68 times"} {
		_, trains := trial.Compile(t, "eight-day", "width_mm     = 32.0", "width_mm = 32.0\nsolid_turns = "+counted, "set_up_turns        = 1.25", "set_up_turns        = 0.25")
		r := trial.Run(t, trains)[0]
		said := strings.Join(Notes(&r.Digest), "\n")
		if got := strings.Contains(said, "from rest to solid"); got != (want != "") || !strings.Contains(said, want) {
			t.Errorf("%s turns: %s", counted, said)
		}
	}
}

// A note tells where a run needs more turns than handbooks count, unless they were counted
// or it is not wanted.
func TestBeyondHandbook(t *testing.T) {
	const says = "of the spring, and handbooks count"
	for _, c := range []struct {
		replace []string
		set     string
		want    bool
	}{{nil, "", true}, {[]string{"yield_mpa    = 1620.0", "yield_mpa = 1620.0\nsolid_turns = 8.6"}, "", false}, {nil, "advice.note_beyond_handbook=false", false}, {nil, "going.barrel.set_up_turns=1.0", false}} {
		s, _ := trial.Compile(t, "eight-day", c.replace...)
		if c.set != "" {
			if err := s.Apply([]string{c.set}); err != nil {
				t.Fatal(err)
			}
		}
		clock, err := sim.RunClock(s, sim.Options{})
		if err != nil {
			t.Fatal(err)
		}
		d := &clock.Trains[0].Digest
		if got := strings.Contains(strings.Join(Notes(d), "\n"), says); got != c.want {
			t.Errorf("%q %q: needs %v turns, handbooks count %v: %v", c.replace, c.set, d.Spring.SetUp+d.Spring.Used, d.Spring.Handbook(), got)
		}
	}
}
