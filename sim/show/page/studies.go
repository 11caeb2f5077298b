package page

import (
	"fmt"
	"strings"

	"evenpull/sim/show/words"
)

// Study is what another command kept, as a page shows it.
type Study struct {
	Name    string   // of its folder, which heads it
	Of      string   // what it is of: the title of its scenario
	Says    []string // what was found, a line each
	Command string   // that makes it again
	SVG     []byte   // its picture, as this program draws it; nil for none
}

// studies put each study into a section of its own.
func (d *Document) studies(of []Study) {
	for i, st := range of {
		id := fmt.Sprintf("study-%d", i+1)
		blocks := inPieces(st.Says)
		if st.SVG != nil {
			blocks = append(blocks, d.figure(&Picture{ID: id + "-picture", Caption: st.Of, Alt: headed(st.Name), SVG: st.SVG, own: true}))
		} else {
			blocks = append(blocks, paragraph("", "Of: "+st.Of))
		}
		blocks = append(blocks, Block{Quoted: &Quoted{st.Command}})
		d.Sections = append(d.Sections, Section{ID: id, Title: headed(st.Name), Class: "study", Blocks: blocks})
	}
}

// inPieces is a finding as a terminal has it, set for a page: the sentence, then its reasons and
// faults, each in one piece again.
func inPieces(lines []string) (blocks []Block) {
	var pieces []string
	for i, line := range lines {
		begins := i == 0 || strings.HasPrefix(line, "  - ") || strings.HasPrefix(line, "  ! ")
		if line = strings.TrimSpace(line); begins {
			pieces = append(pieces, line)
		} else {
			pieces[len(pieces)-1] += " " + line
		}
	}
	if len(pieces) == 0 {
		return nil
	}
	blocks = append(blocks, paragraph("", pieces[0]))
	var list []Item
	for _, piece := range pieces[1:] {
		mark, text, _ := strings.Cut(piece, " ")
		if fault, is := strings.CutPrefix(text, "fault "); mark == "!" && is {
			list = append(list, items("fault", "Fault", fault)...)
		} else {
			list = append(list, items("", words.Either(mark == "!", "Note:", ""), text)...)
		}
	}
	if len(list) > 0 {
		blocks = append(blocks, Block{List: list})
	}
	return blocks
}

// headed is the name of a folder as a heading, with blanks for what stands between its words:
// underlines where it has any, else hyphens.
func headed(name string) string {
	between := words.Either(strings.Contains(name, "_"), "_", "-")
	text := []rune(strings.TrimSpace(strings.ReplaceAll(name, between, " ")))
	if len(text) == 0 {
		return name
	}
	return strings.ToUpper(string(text[:1])) + string(text[1:])
}
