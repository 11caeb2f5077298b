package page

import (
	"fmt"
	"strings"
)

// Study is what another command kept, as a page shows it.
type Study struct {
	Name    string   // of its folder, which heads it
	Says    []string // what was found, a line each
	Command string   // that makes it again
	SVG     []byte   // its picture; nil for none
}

// studies put each study into a section of its own.
func (d *Document) studies(of []Study) {
	for i, st := range of {
		id := fmt.Sprintf("study-%d", i+1)
		blocks := []Block{}
		for _, line := range st.Says {
			blocks = append(blocks, paragraph("", line))
		}
		if st.SVG != nil {
			p := &Picture{ID: id + "-picture", Alt: strings.Join(st.Says, " "), SVG: st.SVG}
			d.Pictures = append(d.Pictures, p)
			blocks = append(blocks, Block{Picture: p})
		}
		blocks = append(blocks, Block{Quoted: &Quoted{st.Command}})
		d.Sections = append(d.Sections, Section{ID: id, Title: headed(st.Name), Blocks: blocks})
	}
}

// headed is the name of a folder as a heading: thickness-and-set-up is Thickness and set up.
func headed(name string) string {
	words := strings.Join(strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune("-_ ", r) }), " ")
	if words == "" {
		return name
	}
	first := []rune(words)
	return strings.ToUpper(string(first[:1])) + string(first[1:])
}
