package choose

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"evenpull/sim/show/text"
)

var csvHeader = []string{"rank", "label", "verdict", "width_mm", "thickness_mm", "length_mm", "spacers_mm", "cut_to_mm", "set_up_turns", "mean_nm",
	"reserve.mean", "reserve.min", "unevenness", "turns_available", "turns_left", "turns_lost", "stored_energy_j", "loses", "faults"}

// CSV writes the candidates, the best first, comma-separated with a header (RFC
// 4180). What does not apply is empty.
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	if err := out.Write(csvHeader); err != nil {
		return err
	}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		line := []string{strconv.Itoa(c.Rank), c.Label, c.word(), text.Cell(c.WidthMM), text.Cell(c.ThicknessMM), text.Cell(c.LengthMM), text.Cell(c.Spacers)}
		for _, v := range c.figures() {
			line = append(line, text.Cell(v))
		}
		if err := out.Write(append(line, c.Loses, strings.Join(c.Faults, "; "))); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// Warn writes what a CSV has no room for, the notes and the cautions, for people.
func Warn(w io.Writer, st *Study) error {
	p := text.New(w, false)
	for _, s := range st.Notes {
		p.Wrap("! ", s)
	}
	for _, s := range st.Cautions {
		p.Wrap("Caution: ", s)
	}
	return p.Flush()
}
