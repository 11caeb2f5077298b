package page

import (
	"html/template"
	"io"
	plain "text/template"

	"evenpull/sim/show/words"
	"evenpull/sim/study/letter"
)

// Letter makes the page for the owner of a clock. The version is that of the program.
func Letter(st *letter.Study, version string) *Document {
	d := &Document{Origin: Origin{Version: version}, Title: words.LetterTitle(st)}
	for _, line := range words.LetterHead(st) {
		d.Head = append(d.Head, paragraph("", line))
	}
	for _, p := range words.LetterParts(st) {
		var blocks []Block
		for _, s := range p.Says {
			blocks = append(blocks, paragraph("", s))
		}
		d.add(p.ID, p.Title, blocks...)
	}
	return d
}

// LetterHTML writes a letter as one page, set for a side of A4, with the errors of HTML.
func LetterHTML(w io.Writer, d *Document) error {
	t := template.New("letter.html").Funcs(tools())
	return template.Must(t.ParseFS(embedded, "page.html", "letter.html", "page.css")).Execute(w, d)
}

// LetterMarkdown writes a letter for an editor of one's own, with the errors of Markdown.
func LetterMarkdown(w io.Writer, d *Document) error {
	const letter = "{{range .Head}}{{template \"item\" .Text}}  \n{{end}}\n# {{text .Title}}\n\n{{range .Sections}}{{template \"section\" .}}{{end}}"
	t := markdown("")
	return plain.Must(t.New("letter").Parse(letter)).Execute(w, d)
}
