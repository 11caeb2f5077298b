package book

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/sim/scenario"
)

func TestReadCSV(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		text string
		want [][]float64
	}{
		"plain":          {"turn,repeat,torque_nm\n0,1,0.5\n1,1,0.52\n0,2,0.51\n", [][]float64{{0.5, 0.52}, {0.51}}},
		"any order":      {"torque_nm,turn,repeat\n0.5,0,1\n0.51,0,2\n0.52,1,1\n", [][]float64{{0.5, 0.52}, {0.51}}},
		"missing":        {"turn,repeat,torque_nm\n2,1,0.5\n0,1,-\n", [][]float64{{nan, nan, 0.5}}},
		"CRLF and BOM":   {"\ufeffturn,repeat,torque_nm\r\n0,1,0.5\r\n\r\n1,1,0.6", [][]float64{{0.5, 0.6}}},
		"quotes, spaces": {"\"turn\", repeat ,torque_nm\n\"0\", 1 ,\"0.5\"\n", [][]float64{{0.5}}},
	} {
		got, err := ReadCSV(strings.NewReader(c.text), "r.csv")
		if err != nil || fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s: %v (%v), want %v", name, got, err, c.want)
		}
	}
}

func TestBrokenCSV(t *testing.T) {
	const head = "turn,repeat,torque_nm\n"
	for _, c := range []struct{ text, want string }{
		{"", "r.csv:1: found no line; want the header turn,repeat,torque_nm"},
		{"turn;repeat;torque_nm\n0;1;0,5\n", `r.csv:1: found "turn;repeat;torque_nm"; want commas between columns and a decimal point`},
		{"turn\trepeat\ttorque_nm\n", `r.csv:1: found "turn\trepeat\ttorque_nm"; want commas between columns and a decimal point`},
		{"turn,repeat\n", "r.csv:1: torque_nm: missing; want the columns turn, repeat, torque_nm"},
		{"turn,turn,torque_nm\n", "r.csv:1: turn: found the column a second time; want each column once"},
		{"turn,repeat,torque\n", "r.csv:1: torque: unknown column; did you mean torque_nm?"},
		{"turn,repeat,torque_nm,who\n", "r.csv:1: who: unknown column; the columns are turn, repeat, torque_nm"},
		{head, "r.csv: found no reading; want at least one reading in each repeat"},
		{head + "0,1,0,5\n", "r.csv:2: found 4 columns; want 3, as in the header: commas between columns and a decimal point"},
		{head + "0,1,0,5400\n", "r.csv:2: found 4 columns; want 3, as in the header: commas between columns and a decimal point, such as 0.5400 for 0,5400"},
		{"t\x00u\x00r\x00n\x00", "r.csv: found a text in UTF-16; want readings: save it again as comma-separated values (CSV) in UTF-8"},
		{head + "0,1\n", "r.csv:2: found 2 columns; want 3, as in the header"},
		{head + "0,1,\"0,5\"\n", `r.csv:2: torque_nm: found "0,5"; want a number from 0 to 10000 N·m, or - for a missing reading, with a decimal point: 0.5`},
		{head + "0,1,-0.5\n1,1,NaN\n2,1,\n", `r.csv:2: torque_nm: found "-0.5"; want a number from 0 to 10000 N·m, or - for a missing reading` + "\n" +
			`r.csv:3: torque_nm: found "NaN"; want a number from 0 to 10000 N·m, or - for a missing reading` + "\n" +
			`r.csv:4: torque_nm: found ""; want a number from 0 to 10000 N·m, or - for a missing reading`},
		{head + "0.5,0,0.5\n", `r.csv:2: turn: found "0.5"; want a whole number from 0 to 64` + "\n" + `r.csv:2: repeat: found "0"; want a whole number from 1 to 200`},
		{head + "65,201,0.5\n", `r.csv:2: turn: found "65"; want a whole number from 0 to 64` + "\n" + `r.csv:2: repeat: found "201"; want a whole number from 1 to 200`},
		{head + "3,2,0.5\n3,1,0.5\n3,2,0.6\n", "r.csv:4: turn: found turn 3 of repeat 2 a second time, after line 2; want each reading once"},
		{head + "0,1,0.5\n0,3,0.5\n", "r.csv: repeat: found no reading of repeat 2; want repeats numbered from 1 without a gap, and at least one reading in each repeat"},
		{head + "0,1,\"0.5\n", "r.csv:2: not valid CSV: "},
		{head + "0,1,0\"5\n1,x,0.5\n", "r.csv:2: not valid CSV: "},
		{strings.Repeat("x", scenario.MaxBytes+1), "r.csv: found more than 1048576 bytes; want readings of at most 1048576 bytes"},
	} {
		_, err := ReadCSV(strings.NewReader(c.text), "r.csv")
		if got := message(err); got != c.want && !(strings.HasSuffix(c.want, ": ") && strings.HasPrefix(got, c.want) && !strings.Contains(got, "\n")) {
			t.Errorf("%.40q: got %s\nwant %s", c.text, got, c.want)
		}
	}
}
