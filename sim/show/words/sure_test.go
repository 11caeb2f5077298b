package words

import (
	"math"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// drawnTo is a digest of a train that suits, with how sure that is.
func drawnTo(s sim.Sureness) *sim.Digest {
	return &sim.Digest{Setting: sim.Setting{Name: "going"}, Verdict: sim.Verdict{Code: rules.Suits, Sureness: s}}
}

// A verdict stands with its share and the next; one that comes up more often is said
// first; nothing is said where nothing was drawn, and no draw is rounded away.
func TestJudged(t *testing.T) {
	for _, c := range []struct {
		s                 sim.Sureness
		judged, sure, col string
	}{
		{sim.Sureness{}, "SUITS", "", "–"},
		{sim.Sureness{Draws: 2000, Same: 1}, "SUITS, sure to 100 in 100", ", sure to 100 in 100", "100"},
		{sim.Sureness{Draws: 2000, Same: 0.9995, Else: rules.Thin, ElseIn: 0.0005}, "SUITS, sure to > 99 in 100, else thin", ", sure to > 99 in 100, else thin", "> 99"},
		{sim.Sureness{Draws: 2000, Same: 0.894, Else: rules.Thin, ElseIn: 0.1}, "SUITS, sure to 89 in 100, else thin", ", sure to 89 in 100, else thin", "89"},
		{sim.Sureness{Draws: 2000, Same: 0.38, Else: rules.Strong, ElseIn: 0.61}, "rather STRONG, in 61 of 100 draws of the readings within their errors; as they were read it suits, in 38 of 100",
			", but rather strong: in 61 of 100 draws of the readings within their errors", "38"},
		{sim.Sureness{Draws: 2000, Else: rules.Stops, ElseIn: 1}, "rather STOPS, in 100 of 100 draws of the readings within their errors; as they were read it suits, in none",
			", but rather stops: in 100 of 100 draws of the readings within their errors", "0"},
		{sim.Sureness{Draws: 2000, Same: 0.002, Else: rules.Stops, ElseIn: 0.998}, "rather STOPS, in > 99 of 100 draws of the readings within their errors; as they were read it suits, in < 1 of 100",
			", but rather stops: in > 99 of 100 draws of the readings within their errors", "< 1"},
	} {
		d := drawnTo(c.s)
		if got := Judged(d, Verdict); got != c.judged {
			t.Errorf("%q, want %q", got, c.judged)
		}
		if got := Sure(d); got != c.sure || InHundred(d) != c.col {
			t.Errorf("%q and %q, want %q and %q", got, InHundred(d), c.sure, c.col)
		}
	}
}

// What decides is told with how well it would have to be known, or how sure it would make;
// apart what it would take beside it, or that no three are enough.
func TestDecides(t *testing.T) {
	nan := math.NaN()
	thickness := sim.Decider{Key: "going.mainspring.thickness_mm", Words: "thickness of the going mainspring", Unit: "mm", Now: 0.010000000000000009, Within: 0.004}
	exact, drag := thickness, sim.Decider{Key: "going.fly.drag_coefficient", Words: "drag coefficient of the going fly", Now: 1.4, Within: 1.2, Times: true, Assumed: true}
	exact.Within = nan
	mesh, width := sim.Decider{Key: "m", Words: "efficiency of the mesh of the going train"}, sim.Decider{Key: "w", Words: "width of the going mainspring"}
	for _, c := range []struct {
		d    sim.Decides
		want string
		with string
	}{
		{sim.Decides{}, "", ""},
		{sim.Decides{Inputs: [3]sim.Decider{thickness}, Alone: 0.98, All: 0.98}, "what decides: thickness of the mainspring; were it known to ± 0.004 mm in place of ± 0.01 mm, sure to 95 in 100", ""},
		{sim.Decides{Inputs: [3]sim.Decider{drag}, Alone: 0.98, All: 0.98}, "what decides: drag coefficient of the fly, which was assumed: time one strike; were it known to a factor of 1.2 in place of a factor of 1.4, sure to 95 in 100", ""},
		{sim.Decides{Inputs: [3]sim.Decider{exact}, Alone: 0.96, All: 0.96}, "what decides: thickness of the mainspring; were it known exactly, sure to 96 in 100", ""},
		{sim.Decides{Inputs: [3]sim.Decider{exact, mesh}, Alone: 0.84, All: 0.96}, "what decides: thickness of the mainspring; were it known exactly, sure to 84 in 100", "with the efficiency of the mesh known exactly too, it would be sure to 96 in 100"},
		{sim.Decides{Inputs: [3]sim.Decider{exact, mesh, width}, Alone: 0.84, All: 0.97}, "what decides: thickness of the mainspring; were it known exactly, sure to 84 in 100", "with the efficiency of the mesh and the width of the mainspring known exactly too, it would be sure to 97 in 100"},
		{sim.Decides{Inputs: [3]sim.Decider{exact}, Alone: 0.84, All: 0.94}, "what decides: thickness of the mainspring; were it known exactly, sure to 84 in 100", "no three inputs known exactly would make it sure to 95 in 100"},
	} {
		d := drawnTo(sim.Sureness{Draws: 2000, Same: 0.8, Decides: c.d})
		if got, with := Decides(d), DecidesWith(d); got != c.want || with != c.with {
			t.Errorf("%q and %q, want %q and %q", got, with, c.want, c.with)
		}
	}
}

// Nobody counts the coils of a spring that is still to be ordered: the dealer is asked.
func TestDecidesToOrder(t *testing.T) {
	steel := sim.Decider{Key: "going.mainspring.yield_mpa", Words: "flow stress of the going mainspring", Within: math.NaN()}
	packing := sim.Decider{Key: "going.mainspring.packing", Words: "packing of the going mainspring", Within: math.NaN()}
	need := sim.Decider{Key: "going.demand.least_torque_nm", Words: "least torque that the going train needs", Within: math.NaN()}
	for _, c := range []struct {
		first        sim.Decider
		found, order string
	}{
		{steel, "what decides: flow stress of the mainspring: count its free coils; were", "what decides: flow stress of the mainspring: ask the dealer for its tensile strength, of which it is about 0.95; were"},
		{packing, "what decides: packing of the mainspring: count its turns from rest to solid; were", "what decides: packing of the mainspring; were"},
		{need, "what decides: least torque that the train needs: weights up and down tell it; were", "what decides: least torque that the train needs: weights up and down tell it; were"},
	} {
		d := drawnTo(sim.Sureness{Draws: 2000, Same: 0.8, Decides: sim.Decides{Inputs: [3]sim.Decider{c.first}, Alone: 0.96, All: 0.96}})
		if got, ask := Decides(d), DeciderToOrder(d); !strings.HasPrefix(got, c.found) || !strings.HasPrefix(ask, c.order) {
			t.Errorf("%q and %q", got, ask)
		}
	}
	if got := DeciderToOrder(drawnTo(sim.Sureness{Draws: 2000, Same: 0.99})); got != "" {
		t.Errorf("%q", got)
	}
}

// What is wrong is named where it is counted, and where there is nothing that is said.
func TestHasFaults(t *testing.T) {
	for faults, want := range map[sim.Faults]string{
		0: "has no fault", 1 << sim.Binds: "has 1 fault (the spring binds)",
		1<<sim.NoSetUp | 1<<sim.Trips: "has 2 faults (no set-up and the escapement trips)",
	} {
		if got := hasFaults(&sim.Digest{Faults: faults}); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// How far errors go together is told in words, whatever their sign.
func TestGoesWith(t *testing.T) {
	for r, want := range map[float64]string{0: "hardly goes", -0.29: "hardly goes", 0.31: "partly goes", -0.69: "partly goes", 0.71: "goes", -0.999: "goes"} {
		if got := goesWith(r); got != want {
			t.Errorf("%v: %q", r, got)
		}
	}
}
