package ask

import (
	"math"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// FuzzAnswers takes any text as an answer to questions of every shape: it is refused with what
// was found and what is wanted, or meant, or every value of it can be written as TOML.
func FuzzAnswers(f *testing.F) {
	for line := range strings.Lines(all) {
		f.Add(strings.TrimSuffix(line, "\n"))
	}
	for _, text := range []string{"in: 1.5 0.8", `1.5" x 3cm`, "96/8 a, 7×6", "Q 181", "133.7 beats", "cN·m: 1 2;3 -", "1 %", "0,38", "−5", ".5 5. 1e3", "x/;,:?", "radius 75", "1e999", "twelve 13 s", "brisk", "gut x3", "a\x7f", "a\xff", "\u00a0b", "goigg"} {
		f.Add(text)
	}
	s := &session{given: map[string]*answer{
		"trains":                  {rows: [][]value{{{literal: `"going"`}}, {{literal: `"striking"`}}}},
		"springs":                 {rows: [][]value{{{literal: `"A"`}, {}, {}}}},
		"weights.striking.pulley": {}, "weights.going.pulley": {},
	}}
	list := s.questions()
	f.Fuzz(func(t *testing.T, text string) {
		for i := range list {
			q := &list[i]
			rows, err := q.read(text)
			if err != nil {
				if says := err.Error(); !strings.Contains(says, "found ") || !strings.Contains(says, "want ") && !strings.Contains(says, "did you mean ") {
					t.Fatalf("%s: %s", q.id, says)
				}
				continue
			}
			for _, row := range rows {
				for _, v := range row {
					var got map[string]any
					if v.literal == "" || q.line {
						continue
					}
					if _, err := toml.Decode("v = "+v.literal, &got); err != nil || math.IsNaN(v.v) || math.IsInf(v.v, 0) {
						t.Fatalf("%s, %q: %s, %g: %v", q.id, text, v.literal, v.v, err)
					}
				}
			}
		}
	})
}
