package stock

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"evenpull/sim/scenario"
)

const sheetFull = "label,width_mm,thickness_mm,length_mm,yield_mpa,modulus_gpa,may_be_cut\n"

const sheetPriced = "label,width_mm,thickness_mm,length_mm,price,quantity\n"

func TestReadCSV(t *testing.T) {
	a, b := Spring{"A, blued", 36, 0.38, 1650.5, nan, nan, true, 0, ""}, Spring{"B", 30, 0.4, 1500, 1620, 200, false, 0, ""}
	for name, c := range map[string]struct {
		text string
		want []Spring
	}{
		"all columns":  {sheetFull + "\"A, blued\",36,0.38,1650.5,,,\nB,30,0.40,1500,1620,200,false\n", []Spring{a, b}},
		"few columns":  {"label,width_mm,thickness_mm,length_mm\n\"A, blued\",36,0.38,1650.5\n", []Spring{a}},
		"any order":    {"may_be_cut,length_mm,label,yield_mpa,thickness_mm,width_mm,modulus_gpa\nfalse,1500,B,1620,0.4,30,200\n", []Spring{b}},
		"CRLF, BOM":    {"\ufeff" + strings.ReplaceAll(sheetFull, "\n", "\r\n") + "\r\nB, 30 ,0.40,1.5e3,1620,200,false", []Spring{b}},
		"remarks":      {"# title: what the shop has, A to Z\n# files.name: old.csv\n" + sheetFull + "#1,36,0.38,1650.5,,,\n", []Spring{{"#1", 36, 0.38, 1650.5, nan, nan, true, 0, ""}}},
		"priced":       {sheetPriced + "A,36,0.38,1650,\"CHF 12.50, each\",3\nB,30,0.4,1500,,\nC,30,0.4,1500,5 EUR,1\n", []Spring{{"A", 36, 0.38, 1650, nan, nan, true, 3, "CHF 12.50, each"}, {"B", 30, 0.4, 1500, nan, nan, true, 0, ""}, {"C", 30, 0.4, 1500, nan, nan, true, 1, "5 EUR"}}},
		"inches":       {"label,width_in,thickness_in,length_cm,yield_ksi,modulus_gpa\nA,1.25,0.02,165.05,,\nB,1,0.02,150,200,200\n", []Spring{{"A", 31.75, 0.508, 1650.5, nan, nan, true, 0, ""}, {"B", 25.4, 0.508, 1500, 200 * 6.894757293168361, 200, true, 0, ""}}},
		"true spelled": {sheetFull + "\"A, blued\",36,0.38,1650.5,,,true\n", []Spring{a}},
	} {
		got, err := ReadCSV(strings.NewReader(c.text), "s.csv")
		if err != nil || fmt.Sprint(got.Springs) != fmt.Sprint(c.want) || got.EndShakeMM != EndShakeMM || got.Source != "s.csv" {
			t.Errorf("%s: %v (%v), want %v", name, got, err, c.want)
		}
	}
}

// TestWholeNumbers: a list of whole numbers is asked about only where decimal commas make
// sense and nothing speaks against them.
func TestWholeNumbers(t *testing.T) {
	for _, text := range []string{sheetFull + "A,36,1,2500,1650,,\nB,30.5,1,2500,1650,,\n", sheetFull + "A,36.0,1,2500,1650,,\n", sheetFull + "A,36,1,2500,,,\n", "label,width_mm,thickness_mm,length_mm\nA,36,1,2500\n"} {
		if st, err := ReadCSV(strings.NewReader(text), "s.csv"); err != nil || st.Springs[0].ThicknessMM != 1 {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestBrokenCSV(t *testing.T) {
	const head = "label,width_mm,thickness_mm,length_mm\n"
	rows := strings.Builder{}
	for i := range MaxSprings + 1 {
		fmt.Fprintf(&rows, "%d,36,0.38,1650\n", i)
	}
	for _, c := range []struct{ text, want string }{
		{"", "s.csv:1: found no line; want the header label,width_mm,thickness_mm,length_mm,yield_mpa,modulus_gpa,may_be_cut,quantity,price"},
		{"label;width_mm;thickness_mm\nA;36;0,38\n", `s.csv:1: found "label;width_mm;thickness_mm"; want commas between columns and a decimal point`},
		{"label\twidth_mm\n", `s.csv:1: found "label\twidth_mm"; want commas between columns and a decimal point`},
		{"label,width_mm,thickness_mm\n", "s.csv:1: length_mm: missing; want the columns label, width_mm, thickness_mm, length_mm"},
		{"label,width_mm,width_mm,thickness_mm,length_mm\n", "s.csv:1: width_mm: found the column a second time; want each column once"},
		{"label,width,thickness_mm,length_mm\n", "s.csv:1: width: unknown column; did you mean width_mm?"},
		{"label,width_mm,thickness_mm,length_mm,colour\n", "s.csv:1: colour: unknown column; the columns are label, width_mm, thickness_mm, length_mm, yield_mpa, modulus_gpa, may_be_cut, quantity, price"},
		{"label,width_in,thickness_mm,length_mm\nA,36,0.38,1650\n", `s.csv:2: width_in: found "36"; want a number from 0.5 to 500 mm`},
		{"label,width_in,width_mm,thickness_mm,length_mm\n", "s.csv:1: width_mm: found the column a second time; want each column once"},
		{sheetPriced + "A,36,0.38,1650,,2.5\n", `s.csv:2: quantity: found "2.5"; want a whole number from 1 to 100000`},
		{sheetPriced + "A,36,0.38,1650,,0\n", `s.csv:2: quantity: found "0"; want a whole number from 1 to 100000`},
		{sheetPriced + "A,36,0.38,1650," + strings.Repeat("9", 65) + ",1\n", "s.csv:2: price: found 65 characters; want a text of 1 to 64 characters"},
		{sheetPriced + "A,36,0.38,1650,a\x1bb,1\n", `s.csv:2: price: found the control character '\x1b'; want plain text`},
		{head, "s.csv: found no spring; want at least one spring: its label, width_mm, thickness_mm and length_mm, a row each below the header"},
		{head + "A,36,0,38,1650\n", "s.csv:2: found 5 columns; want 4, as in the header: commas between columns and a decimal point, such as 0.38 for 0,38"},
		{head + "A,36,0,3800,1650\n", "s.csv:2: found 5 columns; want 4, as in the header: commas between columns and a decimal point, such as 0.3800 for 0,3800"},
		{sheetFull + "A,36,0,38,1650,,\n", "s.csv:2: thickness_mm: found 0,38; want a decimal point where this is one number, and a point and a 0 after the first where it is two"},
		{sheetFull + "A,36,1,2500,1650,,\n", "s.csv:2: width_mm: found 36,1; want a decimal point where this is one number, and a point and a 0 after the first where it is two"},
		{head + "A,36,−0.38,\"1\u00a0650\"\n", `s.csv:2: thickness_mm: found "−0.38"; want a number from 0.02 to 10 mm, typed plainly: -0.38` + "\n" + `s.csv:2: length_mm: found "1\u00a0650"; want a number from 20 to 100000 mm, typed plainly: 1650`},
		{head + "A,“36”,0.38,1650\n", `s.csv:2: width_mm: found "“36”"; want a number from 0.5 to 500 mm, typed plainly: 36`},
		{"PK\x03\x04 xl/workbook.xml", "s.csv: found a spreadsheet (.xlsx); want a stock list: open it in the program that it is of, and save it as comma-separated values (CSV) in UTF-8"},
		{head + "Z\xfcrich,36,0.38,1650\n", "s.csv:2: found a byte that is not UTF-8, as in a text in Latin-1 or Windows-1252; want a stock list: save it again as comma-separated values (CSV) in UTF-8"},
		{head + "a\u202eb,36,0.38,1650\n", `s.csv:2: label: found the character U+202E, which cannot be printed; want plain text`},
		{head + "A\n", "s.csv:2: found 1 column; want 4, as in the header"},
		{head + "A,36,0.38\n", "s.csv:2: found 3 columns; want 4, as in the header"},
		{head + "A,36,\"0,38\",1650\n", `s.csv:2: thickness_mm: found "0,38"; want a number from 0.02 to 10 mm, with a decimal point: 0.38`},
		{head + "A,NaN,,1e9\n", `s.csv:2: width_mm: found "NaN"; want a number from 0.5 to 500 mm` + "\n" +
			`s.csv:2: thickness_mm: found ""; want a number from 0.02 to 10 mm` + "\n" + `s.csv:2: length_mm: found "1e9"; want a number from 20 to 100000 mm`},
		{head + ",36,0.38,1650\n", `s.csv:2: label: found ""; want a text of 1 to 64 characters`},
		{head + "A,36,0.38,1650\nB,36,0.38,1650\nA,30,0.4,1500\n", `s.csv:4: label: found "A" a second time, after line 2; want a label of its own for each spring`},
		{head + strings.Repeat("x", 65) + ",36,0.38,1650\n", "s.csv:2: label: found 65 characters; want a text of 1 to 64 characters"},
		{head + "a\x1bb,36,0.38,1650\n", `s.csv:2: label: found the control character '\x1b'; want plain text`},
		{sheetFull + "A,36,0.38,1650,49,501,no\n", `s.csv:2: yield_mpa: found "49"; want a number from 50 to 5000 MPa` + "\n" +
			`s.csv:2: modulus_gpa: found "501"; want a number from 10 to 500 GPa` + "\n" + `s.csv:2: may_be_cut: found "no"; want true or false`},
		{head + "A,36,0.38,\"1650\n", "s.csv:2: not valid CSV: "},
		{"\"", "s.csv:1: not valid CSV: "},
		{head + rows.String(), "s.csv:5002: found more than 5000 springs; want at most 5000"},
		{strings.Repeat("x", scenario.MaxBytes+1), "s.csv: found more than 1048576 bytes; want a stock list of at most 1048576 bytes"},
	} {
		_, err := ReadCSV(strings.NewReader(c.text), "s.csv")
		var faults scenario.Faults
		got := message(err)
		if prefix := strings.HasSuffix(c.want, ": ") && strings.HasPrefix(got, c.want) && !strings.Contains(got, "\n"); !errors.As(err, &faults) || got != c.want && !prefix {
			t.Errorf("%.40q: got %s\nwant %s", c.text, got, c.want)
		}
	}
}
