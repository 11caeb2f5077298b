package sim_test

import (
	. "evenpull/sim"
	"math"
	"testing"

	"evenpull/fusee"
)

// BenchmarkRunDown is an eight-day run from compiled inputs: a measured profile
// of 17 diameters, a spring with set, three meshes, rows at each quarter turn,
// the spring's curve included; into a result used again, as studies do. Once the
// drive and wheels alone, once with escapement and pendulum.
func BenchmarkRunDown(b *testing.B) {
	whole := sample(b, "eight-day")[0]
	drive := whole
	drive.Escapes = false
	pivots := drive
	pivots.Drive.Pivots = fusee.Pivots{Friction: 0.15, Barrel: 4.5e-3, Fusee: 2e-3, Wheel: 24e-3, Pull: math.Pi / 2}
	for _, c := range []struct {
		name string
		tr   Train
	}{{"drive", drive}, {"pivots", pivots}, {"escapement", whole}} {
		b.Run(c.name, func(b *testing.B) {
			var res Result
			b.ReportAllocs()
			for b.Loop() {
				if err := c.tr.RunInto(&res, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkRunDownFresh is the same into a new result each time.
func BenchmarkRunDownFresh(b *testing.B) {
	tr := sample(b, "eight-day")[0]
	b.ReportAllocs()
	for b.Loop() {
		var res Result
		if err := tr.RunInto(&res, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCompile(b *testing.B) {
	s := readSample(b, "eight-day")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Compile(s); err != nil {
			b.Fatal(err)
		}
	}
}
