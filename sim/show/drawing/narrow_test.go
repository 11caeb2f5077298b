package drawing

import (
	"io"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/show/chart"

	"gonum.org/v1/plot/vg"
)

// Every train can be drawn in little room: at a scale at which it fits, named, no text past
// the edges.
func TestNarrow(t *testing.T) {
	for _, name := range scenarios.Names() {
		for _, r := range results(t, name) {
			read := readSVG(t, trial.Picture(t, "svg", func(w io.Writer, format string) error { return Narrow(w, format, &r) }))
			if read.width < narrowWide-0.1 || read.width > narrowWide+0.1 {
				t.Errorf("%s: %.1f mm wide", name, read.width)
			}
			said := map[string]bool{}
			for _, w := range read.texts {
				said[w.words] = true
				wide := float64(chart.Letters(normal).Width(w.words) / vg.Millimeter)
				if w.at.x < 0 || w.at.x+wide > read.width || w.at.y < 0 || w.at.y > read.height {
					t.Errorf("%s, %s train: %q passes the edge, from %.1f mm", name, r.Name, w.words, w.at.x)
				}
			}
			for _, want := range append([]string{"barrel wound", "barrel run down,"}, r.Train.Arbors...) {
				if !said[want] {
					t.Errorf("%s, %s train: no %q", name, r.Name, want)
				}
			}
		}
	}
}
