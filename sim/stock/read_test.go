package stock

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"evenpull/scenarios"
	"evenpull/sim/scenario"
)

const full = `title = "Every key, invented"
end_shake_mm = 0.8
[[spring]]
label = "A, the blued one"
width_mm = 36
thickness_mm = 0.38
length_mm = 1650.5
[[spring]]
label = "B"
width_mm = 30.0
thickness_mm = 0.40
length_mm = 1500
yield_mpa = 1620.0
modulus_gpa = 200
may_be_cut = false
quantity = 4
price = "12.50 EUR"
`

func message(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

var nan = math.NaN()

func TestReadsEveryKey(t *testing.T) {
	got, err := Read(strings.NewReader(full), "s.toml")
	if err != nil {
		t.Fatal(err)
	}
	want := &Stock{"Every key, invented", 0.8, []Spring{
		{"A, the blued one", 36, 0.38, 1650.5, nan, nan, true, 0, ""}, {"B", 30, 0.4, 1500, 1620, 200, false, 4, "12.50 EUR"},
	}, "s.toml"}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got\n%v\nwant\n%v", got, want)
	}
	inline, err := Read(strings.NewReader("spring = [ { label = 'x', width_mm = 1, thickness_mm = 1, length_mm = 20 } ]\r\n"), "s")
	if err != nil || inline.EndShakeMM != 1 || inline.Title != "" || len(inline.Springs) != 1 {
		t.Errorf("%v, %v", inline, err)
	}
}

// TestBroken makes one change to a sound file and wants what is said.
func TestBroken(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`"Every key, invented"`, `3`, `s.toml:1: title: found 3; want a text of 1 to 200 characters`},
		{`"Every key, invented"`, `"` + strings.Repeat("x", 201) + `"`, `s.toml:1: title: found 201 characters; want a text of 1 to 200 characters`},
		{"title =", "titel =", "s.toml:1: titel: unknown key; did you mean title?"},
		{"0.8", "-0.1", "s.toml:2: end_shake_mm: found -0.1; want a number from 0 to 20 mm"},
		{"0.8", "nan", "s.toml:2: end_shake_mm: found nan; want a number from 0 to 20 mm"},
		{"width_mm = 36", `width_mm = "36"`, `s.toml:5: spring.1.width_mm: found the string "36"; want a number from 0.5 to 500 mm without quotes`},
		{"width_mm = 36", `width_mm = "36,5"`, "without quotes and with a decimal point"},
		{"width_mm = 36", "width_mm = 36,5", "want a decimal point, as in 0.38, not a comma"},
		{"width_mm = 36", "width_mm = 0.4", "s.toml:5: spring.1.width_mm: found 0.4; want a number from 0.5 to 500 mm"},
		{"width_mm = 36\n", "", "s.toml:3: spring.1.width_mm: missing; want the width of the mainspring, a number from 0.5 to 500 mm"},
		{"width_mm = 36", "width = 36", "s.toml:5: spring.1.width: unknown key; did you mean width_mm?"},
		{"thickness_mm = 0.38", "thickness_mm = 11", "s.toml:6: spring.1.thickness_mm: found 11; want a number from 0.02 to 10 mm"},
		{"length_mm = 1650.5", "length_mm = inf", "s.toml:7: spring.1.length_mm: found inf; want a number from 20 to 100000 mm"},
		{"yield_mpa = 1620.0", "yield_mpa = 49", "s.toml:13: spring.2.yield_mpa: found 49; want a number from 50 to 5000 MPa"},
		{"modulus_gpa = 200", "modulus_gpa = 200000", "s.toml:14: spring.2.modulus_gpa: found 200000; want a number from 10 to 500 GPa"},
		{"may_be_cut = false", `may_be_cut = "no"`, `s.toml:15: spring.2.may_be_cut: found the string "no"; want true or false`},
		{"quantity = 4", "quantity = 4.5", "s.toml:16: spring.2.quantity: found 4.5; want a whole number from 1 to 100000"},
		{"quantity = 4", "quantity = 0", "s.toml:16: spring.2.quantity: found 0; want a whole number from 1 to 100000"},
		{"quantity = 4", "quantity = 100001", "s.toml:16: spring.2.quantity: found 100001; want a whole number from 1 to 100000"},
		{"quantity = 4", `quantity = "4"`, `s.toml:16: spring.2.quantity: found the string "4"; want a whole number from 1 to 100000`},
		{`"12.50 EUR"`, "12.50", "s.toml:17: spring.2.price: found 12.5; want a text of 1 to 64 characters"},
		{`"12.50 EUR"`, `"` + strings.Repeat("9", 65) + `"`, "s.toml:17: spring.2.price: found 65 characters; want a text of 1 to 64 characters"},
		{`label = "B"`, `label = " "`, `s.toml:9: spring.2.label: found the string " "; want a text of 1 to 64 characters`},
		{`label = "B"`, `label = "` + strings.Repeat("ä", 65) + `"`, "s.toml:9: spring.2.label: found 65 characters; want a text of 1 to 64 characters"},
		{`label = "B"`, `label = "a\u001bb"`, `s.toml:9: spring.2.label: found the control character '\x1b'; want plain text`},
		{`label = "B"`, `label = "A, the blued one"`, `s.toml:9: spring.2.label: found "A, the blued one" a second time, after line 4; want a label of its own for each spring`},
		{`label = "B"` + "\n", "", "s.toml:8: spring.2.label: missing; want a text of 1 to 64 characters"},
		{`label = "B"`, `label = "B"` + "\ncolour = 1", "s.toml:10: spring.2.colour: unknown key; the keys here are label, width_mm, thickness_mm, length_mm, yield_mpa, modulus_gpa, may_be_cut, quantity, price"},
		{"[[spring]]\nlabel = \"A", "[spring]\nlabel = \"A", "not valid TOML"},
		{"title = ", "title = = ", "s.toml:1: not valid TOML"},
	} {
		if !strings.Contains(full, c.old) {
			t.Fatalf("the file has no %q", c.old)
		}
		_, err := Read(strings.NewReader(strings.Replace(full, c.old, c.new, 1)), "s.toml")
		var faults scenario.Faults
		if got := message(err); !errors.As(err, &faults) || !strings.Contains(got, c.want) || len(faults) > 2 {
			t.Errorf("%.40q for %.40q: got %s\nwant %s", c.new, c.old, got, c.want)
		}
	}
}

func TestBounds(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "s: found no spring; want at least one spring: its label, width_mm, thickness_mm and length_mm, in a table [[spring]]"},
		{"title = 'x'\n[place]\n[[train]]\nname = 'going'\n", "s:3: train: this is a scenario, not a stock list; want at least one spring"},
		{"[[weights]]\ntrain = 'going'\n", "s:1: weights: this is a file of bench readings, not a stock list"},
		{"[[torque]]\n", "s:1: torque: this is a file of bench readings, not a stock list"},
		{"train = 3\n", "s:1: train: unknown key; the keys here are title, end_shake_mm, spring"},
		{"spring = []\n", "s: found no spring; want at least one spring"},
		{"[spring]\nlabel = 'x'\n", "s:1: spring: found a table; want tables [[spring]], each in double brackets"},
		{"spring = [ 3 ]\n", "s:1: spring: found an array; want tables [[spring]]"},
		{strings.Repeat("[[spring]]\n", MaxSprings+1), "s:1: spring: found 5001 springs; want at most 5000"},
		{strings.Repeat("#", scenario.MaxBytes+1), "s: found more than 1048576 bytes; want a stock list of at most 1048576 bytes"},
		{"x = " + strings.Repeat("[", 100), "s:1: found keys or values nested too deep"},
	} {
		_, err := Read(strings.NewReader(c.text), "s")
		if got := message(err); !strings.Contains(strings.Replace(got, "s:1: found no", "s: found no", 1), c.want) {
			t.Errorf("%.20q: got %s\nwant %s", c.text, got, c.want)
		}
	}
	broken := errors.New("broken pipe")
	for _, read := range []func() error{
		func() error { _, err := Read(iotest.ErrReader(broken), "s"); return err },
		func() error { _, err := ReadCSV(iotest.ErrReader(broken), "s"); return err },
	} {
		if err := read(); !errors.Is(err, broken) || !strings.Contains(err.Error(), "stock list: reading s") {
			t.Error(err)
		}
	}
}

func TestSamples(t *testing.T) {
	for _, name := range scenarios.StockNames() {
		text, _ := scenarios.StockText(name)
		list, err := Read(strings.NewReader(text), name)
		if err != nil || !strings.Contains(list.Title, "invented") || len(list.Springs) < 12 || !strings.Contains(text, "let-down key") {
			t.Errorf("%s: %v", name, err)
		}
	}
}
