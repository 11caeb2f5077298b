package drawing

import (
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/show/canvas/seen"
)

// Every train can be drawn in little room: half a sheet wide, every label to be read, every
// arbor named.
func TestNarrow(t *testing.T) {
	for _, name := range scenarios.Names() {
		for _, r := range results(t, name) {
			svg := trial.Picture(t, "svg", func(w io.Writer, format string) error { return Narrow(w, format, &r) })
			legible(t, name+", "+r.Name, svg)
			if read := readSVG(t, svg); math.Abs(read.width-halfSheet.wide) > 0.1 {
				t.Errorf("%s: %.1f mm wide", name, read.width)
			}
			sheet, err := seen.Read(svg)
			if err != nil {
				t.Fatal(err)
			}
			var said []string
			for _, l := range sheet.Labels {
				said = append(said, l.Words)
			}
			all := strings.Join(said, "\n")
			for _, want := range append([]string{"barrel wound", "barrel run down"}, r.Train.Arbors...) {
				if !strings.Contains(all, want) {
					t.Errorf("%s, %s train: no %q", name, r.Name, want)
				}
			}
		}
	}
}
