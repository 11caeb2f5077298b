package sim

import "testing"

// BenchmarkRunDown is an eight-day run from compiled inputs: a measured profile
// of 17 diameters, a spring with set, three meshes, rows at each quarter turn,
// the spring's curve included; into a result used again, as studies do.
func BenchmarkRunDown(b *testing.B) {
	tr := sample(b, "eight-day")[0]
	var res Result
	b.ReportAllocs()
	for b.Loop() {
		if err := tr.Run(Options{}, &res); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRunDownFresh is the same into a new result each time.
func BenchmarkRunDownFresh(b *testing.B) {
	tr := sample(b, "eight-day")[0]
	b.ReportAllocs()
	for b.Loop() {
		var res Result
		if err := tr.Run(Options{}, &res); err != nil {
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
