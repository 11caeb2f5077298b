package page

import (
	"embed"
	"html/template"
	"io"
	"net/url"
	"regexp"
	"strings"
	plain "text/template"
)

//go:embed page.html page.md page.css letter.html texts.toml method.toml
var embedded embed.FS

// tools are the functions that templates of a page use.
func tools() template.FuncMap { return template.FuncMap{"inline": inline, "spoken": spoken} }

// HTML writes one page that needs nothing beside it: no script, no address. It fails where w
// does, or a picture is no SVG.
func HTML(w io.Writer, d *Document) error {
	t := template.New("page.html").Funcs(tools())
	return template.Must(t.ParseFS(embedded, "page.html", "page.css")).Execute(w, d)
}

// Markdown writes the document for an editor of one's own. Its pictures stand in
// files beside it, which the caller writes: a picture's name is its id with .svg, in the
// folder given. It fails where w does.
func Markdown(w io.Writer, d *Document, folder string) error {
	return markdown(folder).Execute(w, d)
}

// markdown is the template of a document whose pictures stand in a folder.
func markdown(folder string) *plain.Template {
	t := plain.New("page.md").Funcs(plain.FuncMap{"text": escape, "fence": fence, "says": inMarkdown, "plainly": plainly,
		"picture": func(id string) string { return (&url.URL{Path: folder + "/" + id + ".svg"}).String() }})
	return plain.Must(t.ParseFS(embedded, "page.md"))
}

// marks are what Markdown (CommonMark 0.31, and the tables of GFM) takes for its own within
// a line; what a cell of a table ends at is never a mark as a reference.
var marks = strings.NewReplacer("\\", "\\\\", "|", "&#124;", "<", "&lt;", ">", "&gt;", "&", "&amp;", "*", "\\*", "_", "\\_", "`", "\\`", "#", "\\#",
	"[", "\\[", "]", "\\]", "~", "\\~", "$", "\\$", "{", "\\{", "}", "\\}", "\n", " ", "\r", " ")

// opening begins a list, or underlines a heading, at the start of a line.
var opening = regexp.MustCompile(`^([0-9]*)([-+=.)])([-= ]|$)`)

// escape keeps a text from being taken for Markdown's marks, and on one line.
func escape(s string) string {
	return opening.ReplaceAllString(marks.Replace(strings.TrimSpace(s)), `$1\$2$3`)
}

// fence is what a text stands between that keeps its lines: longer than any in it.
func fence(s string) string {
	fence := "```"
	for strings.Contains(s, fence) {
		fence += "`"
	}
	return fence
}
