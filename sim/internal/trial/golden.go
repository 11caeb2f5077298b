package trial

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/plot/cmpimg"
)

// Golden pictures are written anew only when this is given, as in
// go test ./sim/chart -regenerate
var regenerate = flag.Bool("regenerate", false, "write the golden files anew")

// Picture is what draw gives in a format.
func Picture(t testing.TB, format string, draw func(w io.Writer, format string) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := draw(&b, format); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Golden compares a picture, as SVG and PNG, with the files of that name in
// testdata, up to what differs between processors.
func Golden(t testing.TB, name string, draw func(w io.Writer, format string) error) {
	t.Helper()
	for _, format := range []string{"svg", "png"} {
		file, got := filepath.Join("testdata", name+"."+format), Picture(t, format, draw)
		if *regenerate {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if same, err := cmpimg.EqualApprox(format, got, want, 0.02); err != nil || !same {
			t.Errorf("%s has changed (%v); look at it and run with -regenerate when it should", file, err)
		}
	}
}

// Regenerating tells whether golden files are to be written anew.
func Regenerating() bool { return *regenerate }
