package page

import (
	"fmt"
	"path/filepath"
	"strings"

	"evenpull/sim/show/words"
)

// cite tells how to refer to the document: what made it from what.
func (d *Document) cite() Block {
	var from []string
	for _, c := range d.clocks {
		from = append(from, fmt.Sprintf("%s, SHA-256 %s", filepath.Base(c.Scenario.Source), c.Scenario.Checksum()))
	}
	built := words.Either(d.Commit == "", "", ", commit "+d.Commit)
	return paragraph("To cite it:", fmt.Sprintf("“%s”, a study by evenpull %s%s, %s, made by that command from %s. Equations have the same number in every study: equation (9) of evenpull.",
		d.Title, d.Version, built, d.Date, strings.Join(from, "; ")))
}
