package train

import "testing"

var (
	cadenceSink Cadence
	runSink     Run
	workSink    BlowWork
	strikeSink  Strike
)

// rows are those of a run-down: a quarter of a fusee turn each.
const rows = 65

func BenchmarkStrikeRunDown(b *testing.B) {
	for name, d := range map[string]StrikeDesign{"hours": hourStrike(), "quarters": quarters()} {
		b.Run(name, func(b *testing.B) {
			s := mustStrike(b, d)
			torque := 1.2 * s.LeastFromRest()
			b.ReportAllocs()
			for b.Loop() {
				for i := range rows {
					at := torque * (1 + 0.005*float64(i))
					cadenceSink, runSink = s.Steady(at), s.Twelve(at)
				}
			}
			if cadenceSink.Status != Strikes || runSink.Status != Strikes {
				b.Errorf("%v, from rest %v", cadenceSink.Status, runSink.Status)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/row")
		})
	}
}

func BenchmarkStrike(b *testing.B) {
	d := hourStrike()
	s := mustStrike(b, d)
	torque := 1.2 * s.LeastFromRest()
	interval := s.Steady(torque).Interval
	for _, c := range []struct {
		name string
		do   func()
	}{
		{"new", func() { strikeSink, _ = NewStrike(d) }},
		{"steady", func() { cadenceSink = s.Steady(torque) }},
		{"twelve", func() { runSink = s.Twelve(torque) }},
		{"power", func() { workSink = s.Power(torque) }},
		{"least", func() { sink = s.LeastTorque() }},
		{"torque", func() { sink, _ = s.TorqueFor(interval) }},
		{"radius", func() { sink, _ = s.OuterRadiusFor(torque, 1.3*interval) }},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.do()
			}
		})
	}
}
