package entry

import (
	"strings"

	"evenpull/sim/internal/keyline"
)

const wantPoint = "want a decimal point where this is one number, and a point and a 0 after the first where it is two"

// joined is a whole number with the one in the cell to its right, as they look where they
// were one with a decimal comma; "" where they are not both whole.
func (r *Row) joined(column int) string {
	at := r.rows.at[column]
	if at < 0 || at+1 >= len(r.cells) || !digits(r.cells[at]) || !digits(r.cells[at+1]) {
		return ""
	}
	return r.cells[at] + "," + r.cells[at+1]
}

// filled counts the cells that are not empty.
func (r *Row) filled() (n int) {
	for _, cell := range r.cells {
		if strings.TrimSpace(cell) != "" {
			n++
		}
	}
	return n
}

// digits tells whether a cell is digits and nothing else.
func digits(cell string) bool { return cell != "" && strings.Trim(cell, "0123456789") == "" }

// likely are the two cells of a row with too many that are likeliest to be one number
// with a decimal comma: whole ones, best a 0 with decimals after it, else those of which
// the second has the most digits; "" when two do as well.
func (r *Row) likely() (found string) {
	const most = keyline.MaxShown
	best := 0
	for i := 0; i+1 < len(r.cells); i++ {
		if !digits(r.cells[i]) || !digits(r.cells[i+1]) {
			continue
		}
		score := min(len(r.cells[i+1]), most)
		if r.cells[i] == "0" && score > 1 {
			score += most
		}
		if score == best {
			found = ""
		}
		if score > best {
			best, found = score, keyline.Clip(r.cells[i]+","+r.cells[i+1])
		}
	}
	return found
}
