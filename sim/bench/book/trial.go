package book

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/entry"
)

// trial reads one weight.
func (t *table) trial() Trial {
	t.Known("mass_g", "runs", "blow_interval_s", "twelve_s", "judged")
	tr := Trial{MassG: t.Number("mass_g", entry.Range(1, 1e5, "g"), math.NaN()), BlowIntervalS: math.NaN(), TwelveS: math.NaN()}
	var said []string
	for _, key := range []string{"runs", "blow_interval_s", "twelve_s", "judged"} {
		if _, there := t.Tree[key]; there {
			said = append(said, key)
		}
	}
	switch {
	case len(said) == 0:
		t.Report("", "found none of runs, blow_interval_s, twelve_s and judged", "want what the train did under this weight")
		return tr
	case len(said) > 1:
		t.Report(said[0], "found both "+said[0]+" and "+said[1], "want one of them")
		return tr
	}
	switch said[0] {
	case "runs":
		tr.Runs = t.runs()
	case "blow_interval_s":
		tr.BlowIntervalS = t.Number("blow_interval_s", interval, math.NaN())
	case "twelve_s":
		tr.TwelveS = t.Number("twelve_s", entry.Range(Intervals*interval.Lo, Intervals*interval.Hi, "s"), math.NaN())
	case "judged":
		tr.Judged = t.judged()
	}
	return tr
}

// interval is the range of that from blow to blow.
var interval = entry.Range(0.05, 60, "s")

// runs reads whether the train ran, and says what is wanted in place of a word.
func (t *table) runs() *bool {
	word, isText := t.Tree["runs"].(string)
	if !isText {
		goes := t.Truth("runs", false)
		return &goes
	}
	want := "want true where it ran and false where it did not"
	switch word = strings.ToLower(strings.TrimSpace(word)); {
	case slices.Contains(judgements[Weak:], word):
		want = "want judged = " + strconv.Quote(word)
	case slices.Contains([]string{"yes", "y", "true", "runs", "goes", "strikes"}, word):
		want += ", without quotes: true"
	case slices.Contains([]string{"no", "n", "false", "stops", "stopped", "stalls"}, word):
		want += ", without quotes: false"
	default:
		want += `; how it struck is judged = "weak", "liked" or "brisk"`
	}
	t.Wrong("runs", t.Tree["runs"], want)
	return nil
}

// judged reads how it struck.
func (t *table) judged() Judged {
	word, _ := t.Tree["judged"].(string)
	for j := Weak; j <= Brisk; j++ {
		if word == j.String() {
			return j
		}
	}
	want := `want "weak", "liked" or "brisk"`
	if near := meant(word); near != NotJudged {
		want = "did you mean " + strconv.Quote(near.String()) + "? " + want
	}
	t.Wrong("judged", t.Tree["judged"], want)
	return NotJudged
}

// words are what people write for a judgement.
var words = map[Judged][]string{
	Weak:  {"slow", "soft", "drags", "sluggish", "laboured", "faint"},
	Liked: {"good", "right", "ok", "fine", "well", "like", "even"},
	Brisk: {"fast", "hard", "hurried", "strong", "loud", "rushed"},
}

// meant is the judgement that a word is likely to stand for.
func meant(word string) Judged {
	word = strings.ToLower(strings.TrimSpace(word))
	for j := Weak; j <= Brisk; j++ {
		if entry.Meant(word, []string{j.String()}, "") == "did you mean "+j.String()+"?" || slices.Contains(words[j], word) {
			return j
		}
	}
	return NotJudged
}
