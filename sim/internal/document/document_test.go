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
	tree, lines, err := Read(strings.NewReader("\ufeffa = 1\n[b]\nc = [ 2.5, 'x' ]\n"), "t", "list", 100)
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
	} {
		_, _, err := Read(strings.NewReader(c.text), "t", "list", 100)
		var f *Fault
		if !errors.As(err, &f) || f.Line != c.line || !strings.Contains(f.Found+"; "+f.Want, c.want) || f.Error() != f.Found {
			t.Errorf("%.20q: %+v", c.text, err)
		}
	}
	if _, _, err := Read(strings.NewReader(strings.Repeat("#", 100)), "t", "list", 100); err != nil {
		t.Error("just as many bytes as there may be:", err)
	}
	var f *Fault
	if _, _, err := Read(strings.NewReader("a = 1 1"), "t", "list", 100); !errors.As(err, &f) || f.Want != "" {
		t.Errorf("%+v", err)
	}
	broken := errors.New("broken pipe")
	if _, _, err := Read(iotest.ErrReader(broken), "t", "list", 100); !errors.Is(err, broken) || err.Error() != "list: reading t: broken pipe" {
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
		"999999999.0": 999999999.0, "1000000000": 1e9, "nan": math.NaN(), "inf": math.Inf(1), "a date or time": time.Now(), "a table": map[string]any{},
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
	for want, v := range map[string]float64{"0": 0, "0.1": 0.1, "-2.5": -2.5, "0.0000001": 1e-7, "9.9e-08": 9.9e-8, "999999999999": 999999999999, "1e+12": 1e12, "nan": math.NaN(), "inf": math.Inf(1), "-inf": math.Inf(-1)} {
		if got := Figure(v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
}

func TestUnprintable(t *testing.T) {
	for _, c := range []struct {
		s     string
		lines bool
		want  rune
	}{
		{"plain ~, grün – ½", false, 0}, {"a\x1bb", false, 0x1b}, {"a\x1bb", true, 0x1b}, {"a\nb", false, '\n'}, {"a\r\n\tb", true, 0}, {"a\tb", false, '\t'}, {"a\rb", false, '\r'},
		{"a\x7f", true, 0x7f}, {"a\u0085", false, 0x85}, {"a\xff", false, '\ufffd'}, {"", false, 0},
	} {
		if got := Unprintable(c.s, c.lines); got != c.want {
			t.Errorf("%q, %v: %q, want %q", c.s, c.lines, got, c.want)
		}
	}
}

func TestDecimalComma(t *testing.T) {
	for text, want := range map[string]bool{"0,5": true, "-1,25": true, "1": false, "1.5": false, "1,2,3": false, "x,1": false, "1,": true, ",5": true, "": false} {
		if DecimalComma(text) != want {
			t.Errorf("%q: %v", text, !want)
		}
	}
}
