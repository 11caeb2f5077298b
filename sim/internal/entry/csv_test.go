package entry

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"

	"evenpull/sim/scenario"
)

// shelf is a file for the tests: what lies on a shelf.
var shelf = Columns{Noun: "a shelf list", Names: []string{"label", "width_mm", "count", "sold"}, Least: 2}

// readShelf spells what a text holds, a row a line.
func readShelf(text string) (string, error) {
	var out strings.Builder
	end := "not reached"
	err := shelf.Read(strings.NewReader(text), "s.csv", func(r *Row) bool {
		label := r.Text(0, 5)
		width, okWidth := r.Number(1, Range(1, 10, "mm"), ", or more by agreement")
		count, okCount := 7, true
		if r.Cell(2) != "" {
			count, okCount = r.Whole(2, -1, 3)
		}
		fmt.Fprintln(&out, r.Line, label, width, okWidth, count, okCount, r.Truth(3, true))
		return label != "stop"
	}, func(whole *Row) {
		end = "reached"
		if out.Len() == 0 {
			whole.Report(-1, "found no row", "want one")
			whole.Report(1, "found no width", "want one")
		}
	})
	return out.String() + end, err
}

func TestRows(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"all columns":   {"label,width_mm,count,sold\na,1,-1,false\nb,10,3,true\n", "2 a 1 true -1 true false\n3 b 10 true 3 true true\nreached"},
		"any order":     {"sold,width_mm,label,count\nfalse,1.5,a,0\n", "2 a 1.5 true 0 true false\nreached"},
		"few columns":   {"width_mm,label\n2,abcde\n", "2 abcde 2 true 7 true true\nreached"},
		"spaces, empty": {" label ,width_mm,count,sold\n a , 2 ,,\n", "2 a 2 true 7 true true\nreached"},
		"BOM, CRLF":     {"\ufefflabel,width_mm\r\n\r\na,2\r\n", "3 a 2 true 7 true true\nreached"},
		"quotes":        {"label,width_mm\n\"a,b\",\"2\"\nc,3\n", "2 a,b 2 true 7 true true\n3 c 3 true 7 true true\nreached"},
		"remarks":       {"\ufeff# command: run\n# title: a \"b, c\r\n#\n\nlabel,width_mm\na,2\n", "6 a 2 true 7 true true\nreached"},
		"no remarks":    {"label,width_mm\n#3,2\n# c,3\n", "2 #3 2 true 7 true true\n3 # c 3 true 7 true true\nreached"},
		"stopped":       {"label,width_mm\nstop,2\nb,99,1\n", "2 stop 2 true 7 true true\nreached"},
	} {
		if got, err := readShelf(c.text); got != c.want || err != nil {
			t.Errorf("%s: got %s, %v, want %s", name, got, err, c.want)
		}
	}
}

func TestRowsRefused(t *testing.T) {
	const head = "label,width_mm,count,sold\n"
	full := strings.Repeat(" ", scenario.MaxBytes-len(head))
	for _, c := range []struct{ text, want string }{
		{"# label,width_mm\n#\n", "1: found no line; want the header label,width_mm,count,sold"},
		{"", "1: found no line; want the header label,width_mm,count,sold"},
		{"label;width_mm\n", `1: found "label;width_mm"; want commas between columns and a decimal point`},
		{"label\twidth_mm\n", `1: found "label\twidth_mm"; want commas between columns and a decimal point`},
		{"label\n", "1: width_mm: missing; want the columns label, width_mm"},
		{"width_mm,count\n", "1: label: missing; want the columns label, width_mm"},
		{"label,width_mm,label,who,widht_mm\n", "1: label: found the column a second time; want each column once|1: who: unknown column; the columns are label, width_mm, count, sold|" +
			"1: widht_mm: unknown column; did you mean width_mm?"},
		{"label,width_mm,a b\n", `1: "a b": unknown column; the columns are label, width_mm, count, sold`},
		{head, ": found no row; want one|: width_mm: found no width; want one"},
		{head + "a\n", "2: found 1 column; want 4, as in the header"},
		{head + "a,2,1\n", "2: found 3 columns; want 4, as in the header"},
		{head + "a,2,5,1,true\n", "2: found 5 columns; want 4, as in the header: commas between columns and a decimal point"},
		{head + "a,\"2,5\",1,\n", `2: width_mm: found "2,5"; want a number from 1 to 10 mm, or more by agreement, with a decimal point: 2.5`},
		{head + "a,1,25,1,true\n", "2: found 5 columns; want 4, as in the header: commas between columns and a decimal point, such as 1.25 for 1,25"},
		{head + "a,0,25,1,true\n", "2: found 5 columns; want 4, as in the header: commas between columns and a decimal point, such as 0.25 for 0,25"},
		{head + "0,1,0,5400,true\n", "2: found 5 columns; want 4, as in the header: commas between columns and a decimal point, such as 0.5400 for 0,5400"},
		{head + "a,1," + strings.Repeat("2", 99) + ",1,true\n", "2: found 5 columns; want 4, as in the header: commas between columns and a decimal point, such as 1." + strings.Repeat("2", 38) + "… for 1," + strings.Repeat("2", 38) + "…"},
		{head + "a,0.99,-2,no\n", `2: width_mm: found "0.99"; want a number from 1 to 10 mm, or more by agreement|2: count: found "-2"; want a whole number from -1 to 3|2: sold: found "no"; want true or false`},
		{head + "a,10.01,4,TRUE\n", `2: width_mm: found "10.01"; want a number from 1 to 10 mm, or more by agreement|2: count: found "4"; want a whole number from -1 to 3|2: sold: found "TRUE"; want true or false`},
		{head + "a,NaN,1.0,\n", `2: width_mm: found "NaN"; want a number from 1 to 10 mm, or more by agreement|2: count: found "1.0"; want a whole number from -1 to 3`},
		{head + ",2,,\nabcdef,2,,\nä\x1b,2,,\n", `2: label: found ""; want a text of 1 to 5 characters|3: label: found 6 characters; want a text of 1 to 5 characters|` +
			`4: label: found the control character '\x1b'; want plain text`},
		{head + "\"a\nb\",2,,\nc,x,,\n", `2: label: found the control character '\n'; want plain text|4: width_mm: found "x"; want a number from 1 to 10 mm, or more by agreement`},
		{head + "a,2,,\n" + full, ": found more than 1048576 bytes; want a shelf list of at most 1048576 bytes"},
	} {
		_, err := readShelf(c.text)
		want := "s.csv:" + strings.TrimPrefix(strings.ReplaceAll(c.want, "|", "\ns.csv:"), ":")
		want = strings.ReplaceAll(want, "s.csv::", "s.csv:")
		var faults scenario.Faults
		if !errors.As(err, &faults) || err.Error() != want {
			t.Errorf("%.40q: got %v\nwant %s", c.text, err, want)
		}
	}
	for text, want := range map[string]string{"\"": "s.csv:1: not valid CSV: ", head + "a,\"2\n": "s.csv:2: not valid CSV: ", head + "a\"b,2,,\nc,x,,\n": "s.csv:2: not valid CSV: "} {
		if got, err := readShelf(text); err == nil || !strings.HasPrefix(err.Error(), want) || strings.Contains(err.Error(), "\n") || !strings.HasSuffix(got, "not reached") {
			t.Errorf("%q: %s, %v", text, got, err)
		}
	}
	if got, err := readShelf(head + full); err == nil || strings.Contains(err.Error(), "more than") || got != "not reached" {
		t.Errorf("a file of just MaxBytes: %s, %v", got, err)
	}
	broken := errors.New("broken pipe")
	if err := shelf.Read(iotest.ErrReader(broken), "s.csv", nil, nil); !errors.Is(err, broken) || err.Error() != "shelf list: reading s.csv: broken pipe" {
		t.Error(err)
	}
}
