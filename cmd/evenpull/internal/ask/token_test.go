package ask

import (
	"slices"
	"testing"
)

func TestTokens(t *testing.T) {
	for text, want := range map[string][]string{
		"32x0.38": {"32", "0.38"}, "32 × .38": {"32", ".38"}, "96/8 centre; 84/7": {"96", "8", "centre", ";", "84", "7"}, "1.5in, -2e3": {"1.5", "in", ",", "-2e3"},
		"x 5": {"x", "5"}, "1, x 5": {"1", ",", "x", "5"}, "1e400": {"1e400"}, "5 xy": {"5", "xy"}, "": nil,
	} {
		all, err := tokens(text)
		var got []string
		for _, one := range all {
			got = append(got, one.text)
			if first := one.text[0]; one.number != (one.text != "1e400" && (first == '-' || first == '.' || first >= '0' && first <= '9')) {
				t.Errorf("%q: %+v", text, one)
			}
		}
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
	if _, err := tokens("1 0,38 2"); err == nil || err.Error() != "found 0,38; want a decimal point, or a blank after the comma between two values" {
		t.Error(err)
	}
}

// Numbers are written as TOML takes them, with the digits that were typed.
func TestLiterals(t *testing.T) {
	for text, want := range map[string]string{"0.40": "0.40", "-13.0": "-13.0", "1.": "1", "+5": "5", "05": "5", ".5": "0.5", "1e15": "1e+15", "999999999999999": "999999999999999", "1e14": "100000000000000",
		"1e-6": "0.000001", "9e-7": "9e-07", "-1e15": "-1e+15", "0e0": "0", "12345678901234567": "1.2345678901234568e+16"} {
		all, err := tokens(text)
		if err != nil || len(all) != 1 || typed(all[0]) != want {
			t.Errorf("%s: %+v, want %s, %v", text, all, want, err)
		}
	}
}

func TestFolded(t *testing.T) {
	for width, want := range map[int][]string{5: {"aa bb", "cccccc", "d"}, 4: {"aa", "bb", "cccccc", "d"}, 8: {"aa bb", "cccccc d"}, 7: {"aa bb", "cccccc", "d"}, 40: {"aa bb cccccc d"}} {
		if got := folded(" aa bb  cccccc d", width); !slices.Equal(got, want) {
			t.Errorf("%d: %q, want %q", width, got, want)
		}
	}
	if got := folded("ää öö", 5); len(got) != 1 {
		t.Errorf("%q: a letter is a character, however it is coded", got)
	}
}

// A line has the question that wrote it; the head of a table that of the next line that one
// wrote.
func TestOwners(t *testing.T) {
	p := new(page)
	p.writer = "a"
	p.line("title")
	p.in("[b]")
	p.writer = "b"
	p.line("value")
	p.in("[b]")
	p.writer = ""
	p.line("end")
	if got := p.b.String(); got != "title\n\n[b]\nvalue\nend\n" {
		t.Errorf("%q", got)
	}
	for line, want := range []string{"", "a", "", "", "b", "", ""} {
		if got := p.owner(line); got != want {
			t.Errorf("line %d is of %q, want %q", line, got, want)
		}
	}
	for line, want := range map[int]string{0: "a", 1: "a", 2: "b", 3: "b", 4: "b", 5: "", 6: ""} {
		if got := p.below(line); got != want {
			t.Errorf("below line %d is %q, want %q", line, got, want)
		}
	}
}

// Items between which nothing stands are passed over.
func TestRows(t *testing.T) {
	slots := []slot{{key: "mass_g", words: "weight"}, {key: "runs", words: "what it did", word: true}}
	rows, err := answers("400 stops;; 480 goes;", slots, ";")
	if err != nil || len(rows) != 2 || rows[0][0].v != 400 || rows[1][1].literal != `"goes"` {
		t.Errorf("%+v, %v", rows, err)
	}
	if _, err := answers(";;", slots, ";"); err == nil || err.Error() != "found nothing; want weight, then what it did" {
		t.Error(err)
	}
}
