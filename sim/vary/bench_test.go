package vary

import (
	"testing"

	"evenpull/sim/internal/trial"
)

// BenchmarkRun is what one run of a study costs, with a thickness and two other
// inputs changed: the check of the train, its parts compiled anew, the run-down.
func BenchmarkRun(b *testing.B) {
	for _, name := range []string{"eight-day", "strike-pleasant"} {
		b.Run(name, func(b *testing.B) {
			s, trains := trial.Compile(b, name)
			own := trains[0].Name
			m, err := New(s, 0, Length, own+".mainspring.thickness_mm", own+".barrel.set_up_turns", own+".mainspring.efficiency")
			if err != nil {
				b.Fatal(err)
			}
			x := append([]float64(nil), m.Nominal()...)
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				x[0] = m.Nominal()[0] * (1 + 1e-3*float64(i%7))
				if _, err := m.Run(x); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
