package stock

import (
	"fmt"
	"io"

	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// ReadCSV reads a stock list from comma-separated values (RFC 4180) of at most
// scenario.MaxBytes: a header, then a spring a row. The columns label, width_mm,
// thickness_mm and length_mm have to be there, yield_mpa, modulus_gpa, may_be_cut,
// quantity and price may be, in any order; a cell of these left empty is not given. The
// end shake is EndShakeMM. What is wrong comes back as scenario.Faults, all at once;
// any other error is the reader's own.
func ReadCSV(r io.Reader, source string) (*Stock, error) {
	st := &Stock{Source: source, EndShakeMM: EndShakeMM}
	first := labels{}
	take := func(row *entry.Row) bool {
		if len(st.Springs) == MaxSprings {
			row.Report(-1, fmt.Sprintf("found more than %d springs", MaxSprings), fmt.Sprintf("want at most %d", MaxSprings))
			return false
		}
		st.Springs = append(st.Springs, springIn(row, first))
		return true
	}
	end := func(whole *entry.Row) {
		if len(st.Springs) == 0 {
			whole.Report(-1, "found no spring", wanted+", a row each below the header")
		}
	}
	if err := (entry.Columns{Noun: "a stock list", Names: names, Least: least}).Read(r, source, take, end); err != nil {
		return nil, err
	}
	return st, nil
}

// springIn takes one spring.
func springIn(row *entry.Row, first labels) Spring {
	s := blank()
	s.Label = row.Text(labelKey, scenario.MaxName)
	if found, want := first.again(s.Label, row.Line); found != "" {
		row.Report(labelKey, found, want)
	}
	for i, n := range numbers {
		if column := labelKey + 1 + i; !n.optional || row.Cell(column) != "" {
			*n.at(&s), _ = row.Number(column, n.within, "")
		}
	}
	s.MayBeCut = row.Truth(cutKey, true)
	if row.Cell(quantityKey) != "" {
		s.Quantity, _ = row.Whole(quantityKey, 1, MostOf)
	}
	if row.Cell(priceKey) != "" {
		s.Price = row.Text(priceKey, scenario.MaxName)
	}
	return s
}
