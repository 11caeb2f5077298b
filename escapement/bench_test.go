package escapement

import "testing"

var (
	beatSink  Beat
	goingSink Going
	clockSink Clock
)

func BenchmarkBeat(b *testing.B) {
	for _, kind := range []Kind{Recoil{}, DeadBeat{}} {
		b.Run(kind.String(), func(b *testing.B) {
			c := mustNew(b, firstOf(bracketClock(kind)), secondOf(bracketClock(kind)))
			beats := mustBeat(b, &c, 2*c.LeastTorque(), SemiDegrees(4))
			b.ReportAllocs()
			for b.Loop() {
				beatSink = beats.Step()
			}
		})
	}
}

// The swing still dies down from a wide start: the legs' times change.
func BenchmarkApproach(b *testing.B) {
	c := mustNew(b, firstOf(bracketClock(Recoil{})), secondOf(bracketClock(Recoil{})))
	start := mustBeat(b, &c, 2*c.LeastTorque(), SemiDegrees(12))
	b.ReportAllocs()
	for b.Loop() {
		beats := start
		for range 100 {
			beatSink = beats.Step()
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/100, "ns/beat")
}

func BenchmarkWeek(b *testing.B) {
	e, p := bracketClock(Recoil{})
	c := mustNew(b, e, p)
	n := int(7 * SecondsPerDay / (p.Period() / 2))
	b.ReportAllocs()
	for b.Loop() {
		beats := mustBeat(b, &c, 2*c.LeastTorque(), SemiDegrees(4))
		for range n {
			beatSink = beats.Step()
		}
	}
	b.ReportMetric(float64(n), "beats")
}

func BenchmarkGoing(b *testing.B) {
	for _, kind := range []Kind{Recoil{}, DeadBeat{}} {
		b.Run(kind.String(), func(b *testing.B) {
			c := mustNew(b, firstOf(bracketClock(kind)), secondOf(bracketClock(kind)))
			torque := 2 * c.LeastTorque()
			b.ReportAllocs()
			for b.Loop() {
				goingSink = c.Going(torque)
			}
		})
	}
}

func BenchmarkNew(b *testing.B) {
	e, p := bracketClock(Recoil{})
	b.ReportAllocs()
	for b.Loop() {
		clockSink, _ = New(e, p)
	}
}

func firstOf(e Escapement, _ Pendulum) Escapement { return e }
func secondOf(_ Escapement, p Pendulum) Pendulum  { return p }
