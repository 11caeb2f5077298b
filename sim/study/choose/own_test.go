package choose

import (
	"slices"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
)

// The present spring stands among the candidates as it is, and with another set-up where
// that is advised: where the rules put it, without a rank or an order; what comes before it
// is not behind it by any rule, and what comes after is not before it.
func TestOwn(t *testing.T) {
	ways := 0
	for _, name := range []string{"eight-day", "too-weak", "too-strong", "strike-quick", "three-trains"} {
		s, _ := trial.Compile(t, name)
		for _, o := range []Options{asIs, withDraws()} {
			st := study(t, s, 0, drawer(t), o)
			all := st.All()
			want := 1
			if st.SetUp.Advised != nil {
				want = 2
			}
			rank := 0
			for i := range all {
				c := &all[i]
				if !c.Own {
					if rank++; c.Rank != rank {
						t.Errorf("%s: %s has rank %d at place %d", name, c.Label, c.Rank, rank)
					}
					continue
				}
				ways++
				want--
				d := &st.Present.Digest
				if c.Label == NewSetUp {
					d = st.SetUp.Advised
				}
				if c.Rank != 0 || c.Orders() || c.Digest.Torque != d.Torque || c.Digest.Verdict != d.Verdict || c.ThicknessMM != st.Present.Thickness {
					t.Errorf("%s: %+v", name, c)
				}
				for k := range all {
					if !all[k].Fits() || all[k].Own {
						continue
					}
					if order, _ := st.decide(c, &all[k]); order > 0 && k > i {
						t.Errorf("%s: %s stands before %s, which is better", name, c.Label, all[k].Label)
					} else if order < 0 && k < i {
						t.Errorf("%s: %s stands behind %s, which is worse", name, c.Label, all[k].Label)
					}
				}
				if order, by := st.decide(c, st.Best()); order > 0 && (by != c.Behind || by == rules.NoRule) || order <= 0 && c.Behind != rules.NoRule {
					t.Errorf("%s: %s is behind by %v, want %v", name, c.Label, c.Behind, by)
				}
			}
			if want != 0 || slices.ContainsFunc(st.Candidates, func(c Candidate) bool { return c.Own }) {
				t.Errorf("%s: %d ways too few", name, want)
			}
		}
	}
	if ways <= 10 {
		t.Errorf("only %d ways", ways)
	}
	if all := study(t, lost(t, "eight-day", ""), 0, drawer(t), asIs).All(); len(all) != 14 {
		t.Errorf("a lost spring stands among %d", len(all))
	}
}
