package document

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/iotest"
	"time"
)

func TestRead(t *testing.T) {
	tree, lines, err := Read(strings.NewReader("\ufeffa = 1\n[b]\nc = [ 2.5, 'x' ]\n"), "t", "a list", 100)
	if err != nil || fmt.Sprint(tree) != "map[a:1 b:map[c:[2.5 x]]]" || lines.Find("b.c.1") != 3 {
		t.Errorf("%v, %v, %v", tree, lines, err)
	}
}

func TestReadRefused(t *testing.T) {
	for _, c := range []struct {
		text, want string
		line       int
	}{
		{strings.Repeat("#", 101), "found more than 100 bytes; want a list of at most 100 bytes", 0},
		{"a = 1\nb = " + strings.Repeat("[", 50), "found keys or values nested too deep; want at most 16 levels", 2},
		{"a = 1\nb = \n", "not valid TOML: ", 2},
		{"a = 1\n\nb = 0,5\n", "want a decimal point, as in 0.38, not a comma", 3},
		{"b =-0,5", "want a decimal point, as in 0.38, not a comma", 1},
		{"a = 1\nb = “x”", "want straight quotes, \" or '", 2},
		{"“b” = 1", "want straight quotes, \" or '", 1},
		{"b = ‘x’", "want straight quotes, \" or '", 1},
		{"b = \"x”\nc = 1", "want straight quotes, \" or '", 1},
		{"b =\u00a01", "want plain spaces, or none", 1},
		{"\u00a0b = 1", "want plain spaces, or none", 1},
		{"b = 1\u202f650", "want plain spaces, or none", 1},
		{"a = 1\nb = −5", "want a plain -", 2},
		{"\"\\u009b\" = 1\n\"\\u009b\" = 2", `not valid TOML: Key '"\u009b"' has already been defined.`, 2},
		{"a = [1\u202e]", `but got '\u202e'`, 1},
	} {
		_, _, err := Read(strings.NewReader(c.text), "t", "a list", 100)
		var f *Fault
		if !errors.As(err, &f) || f.Line != c.line || !strings.Contains(f.Found+"; "+f.Want, c.want) || f.Error() != f.Found {
			t.Errorf("%.20q: %+v", c.text, err)
		}
	}
	if _, _, err := Read(strings.NewReader(strings.Repeat("#", 100)), "t", "a list", 100); err != nil {
		t.Error("just as many bytes as there may be:", err)
	}
	var f *Fault
	if _, _, err := Read(strings.NewReader("a = 1 1"), "t", "a list", 100); !errors.As(err, &f) || f.Want != "" {
		t.Errorf("%+v", err)
	}
	broken := errors.New("broken pipe")
	if _, _, err := Read(iotest.ErrReader(broken), "t", "a list", 100); !errors.Is(err, broken) || err.Error() != "list: reading t: broken pipe" {
		t.Error(err)
	}
}

func TestValue(t *testing.T) {
	for text, want := range map[string]string{"1": "1", "1.5": "1.5", "'x'": "x", "[1, 2]": "[1 2]", "true": "true", "{ a = 1 }": "map[a:1]"} {
		if got, err := Value(text); err != nil || fmt.Sprint(got) != want {
			t.Errorf("%s: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "x", "1\nw = 2", "1\r", "0,5", "1 2", strings.Repeat("[", 50)} {
		if got, err := Value(text); err == nil {
			t.Errorf("%q: %v", text, got)
		}
	}
}

func TestDescribe(t *testing.T) {
	for want, v := range map[string]any{
		`the string "x"`: "x", `the string "` + strings.Repeat("y", 40) + `…"`: strings.Repeat("y", 41), "true": true, "-3": int64(-3), "2.0": 2.0, "2.5": 2.5,
		"999999.0": 999999.0, "about 1000000000": 999999999.0, "1000000": 1e6, "about 60.3989": 60.39894064481527, "about 12345700": int64(12345678), "nan": math.NaN(), "inf": math.Inf(1), "a date or time": time.Now(), "a table": map[string]any{},
		"an array of tables": []map[string]any{}, "an array": []any{},
	} {
		if got := Describe(v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		v    any
		want float64
		ok   bool
	}{{int64(3), 3, true}, {2.5, 2.5, true}, {math.Inf(-1), math.Inf(-1), false}, {math.Inf(1), math.Inf(1), false}, {math.NaN(), math.NaN(), false}, {"3", math.NaN(), false}, {true, math.NaN(), false}} {
		if got, ok := Number(c.v); ok != c.ok || got != c.want && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("%v: %v, %v", c.v, got, ok)
		}
	}
}

func TestFigure(t *testing.T) {
	for want, v := range map[string]float64{"0": 0, "0.1": 0.1, "-2.5": -2.5, "0.0000001": 1e-7, "9.9e-08": 9.9e-8, "999999000000": 999999000000, "1e+12": 1e12, "nan": math.NaN(), "inf": math.Inf(1), "-inf": math.Inf(-1),
		"about -0.123457": -0.123456789, "about 500": 500.0000001, "about 1000000": 999999.9, "123456": 123456, "about -2.1e-15": -2.0999999e-15} {
		if got := Figure(v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
	for want, v := range map[string]float64{"0.123456789": 0.123456789, "999999999999": 999999999999, "1e+12": 1e12, "9.9e-08": 9.9e-8} {
		if got := Exact(v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
}

func TestCure(t *testing.T) {
	for text, want := range map[string]string{
		"0,5": "with a decimal point: 0.5", "-1,25": "with a decimal point: -1.25", "1,": "with a decimal point: 1.", ",5": "with a decimal point: .5", "“0,5”": "with a decimal point: 0.5",
		"−5": "typed plainly: -5", "–5": "typed plainly: -5", "1\u00a0650": "typed plainly: 1650", "1\u202f650,5": "with a decimal point: 1650.5", "„7”": "typed plainly: 7",
		"1": "", "1.5": "", "1,2,3": "", "x,1": "", "": "", "”": "", "1 650": "", strings.Repeat("1", 60) + ",5": "",
	} {
		if got := Cure(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestCommaDecimals: lists of readings with decimal commas are told from lists of whole
// numbers.
func TestCommaDecimals(t *testing.T) {
	for text, want := range map[string]string{
		"[0,5400, 0,5300]": "0,5400", "[ 0,54 ]": "0,54", "[36,5, 37,1, 38,9]": "36,5", "[1,25,1,24]": "1,25", "[0,5,0,4]": "0,5", "[2,8,2,7]": "2,8",
		"[]": "", "[5]": "", "[12, 11, 11, 10]": "", "[36, 5]": "", "[20, 24, 30, 40, 60, 61]": "", "[0.5, 0.4]": "", "[0,5,0.4]": "", "[0,5,0]": "", "[1, '-']": "", "[-1,5,-1,4]": "", "[1,1,1,1]": "",
		"[10, 20, 30, 40, 50, 60]": "", "[9223372036854775807, 1, 9223372036854775807, 1]": "9223372036854775807,1",
	} {
		v, err := Value(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := CommaDecimals(v.([]any)); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

func TestSwapped(t *testing.T) {
	for _, c := range []struct {
		text   string
		lo, hi float64
		want   string
	}{
		{"27.4", 24, 25, "24.7"}, {"0.54", 0.44, 0.46, "0.45"}, {"12", 21, 21, "21"}, {"13.2", 12.3, 12.4, "12.3"}, {"-12", -21, -21, "-21"},
		{"27.4", 30, 40, ""}, {"", 0, 1, ""}, {"7", 0, 9, ""}, {"1.", 0, 9, ""}, {"x1", 0, 9, ""},
	} {
		if got := Swapped(c.text, func(v float64) bool { return v >= c.lo && v <= c.hi }); got != c.want {
			t.Errorf("%s: %q, want %q", c.text, got, c.want)
		}
	}
}
