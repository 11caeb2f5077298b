package page

import (
	"embed"
	"html/template"
	"io"
	"strings"
	plain "text/template"
)

//go:embed page.html page.md page.css texts.toml
var embedded embed.FS

// HTML writes one page that needs nothing beside it: no script, no address.
func HTML(w io.Writer, d *Document) error {
	t := template.New("page.html").Funcs(template.FuncMap{"inline": inline})
	return template.Must(t.ParseFS(embedded, "page.html", "page.css")).Execute(w, d)
}

// Markdown writes the document for an editor of one's own. Its pictures stand in
// files beside it: a picture's name is its id with .svg, in the folder given.
func Markdown(w io.Writer, d *Document, folder string) error {
	t := plain.New("page.md").Funcs(plain.FuncMap{"text": escape, "folder": func() string { return folder }})
	return plain.Must(t.ParseFS(embedded, "page.md")).Execute(w, d)
}

// escape keeps a text from being taken for Markdown's marks, and on one line.
func escape(s string) string {
	return strings.NewReplacer("\\", "\\\\", "|", "\\|", "<", "&lt;", "*", "\\*", "_", "\\_", "`", "\\`", "#", "\\#", "[", "\\[", "]", "\\]", "\n", " ", "\r", " ").Replace(strings.TrimSpace(s))
}
