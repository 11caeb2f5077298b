package words

import (
	"strings"
	"testing"

	"evenpull/sim"
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
	for _, word := range []string{"9.81 J", "1.00 m", "let-down key", "winder", "eye protection", "never stand in line", "Local safety rules"} {
		if !strings.Contains(said, word) {
			t.Errorf("the caution lacks %q: %s", word, said)
		}
	}
}
