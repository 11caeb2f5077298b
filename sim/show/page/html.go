package page

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"regexp"
	"strings"
)

//go:embed page.html
var pageHTML string

//go:embed page.css
var pageCSS string

// Heading is the title of the document.
func (d *Document) Heading() string {
	titles := make([]string, len(d.Clocks))
	for i := range titles {
		titles[i] = d.Clocks[i].Title
	}
	return strings.Join(titles, " / ")
}

// Style is the page's own style sheet.
func (d *Document) Style() template.CSS { return template.CSS(pageCSS) }

// IsRight tells whether a column is flush right.
func (t Table) IsRight(column int) bool { return column < len(t.Right) && t.Right[column] }

// HTML writes one page that needs nothing beside it: no script, no address.
func HTML(w io.Writer, d *Document) error {
	t, err := template.New("page").Funcs(template.FuncMap{"svg": inline}).Parse(pageHTML)
	if err != nil {
		return err
	}
	return t.Execute(w, d)
}

// inline is a picture within a page: without the head of a file, named for those
// who cannot see it, as wide as there is room.
func inline(p Picture) (template.HTML, error) {
	_, body, found := bytes.Cut(p.SVG, []byte("<svg"))
	if !found {
		return "", fmt.Errorf("the picture %s is no SVG", p.ID)
	}
	attributes, body, found := bytes.Cut(body, []byte(">"))
	if !found {
		return "", fmt.Errorf("the picture %s is cut off", p.ID)
	}
	view := ""
	if _, rest, ok := bytes.Cut(attributes, []byte(`viewBox="`)); ok {
		box, _, _ := bytes.Cut(rest, []byte(`"`))
		view = string(box)
	}
	// A reader without the font that text was measured in gets one as narrow.
	body = bytes.ReplaceAll(body, []byte("font-family:Liberation Serif"), []byte("font-family:'Liberation Serif','Times New Roman',Tinos,Times,serif"))
	id := template.HTMLEscapeString(p.ID)
	return template.HTML(fmt.Sprintf(`<svg id="%s" viewBox="%s" role="img" aria-labelledby="%s-t"><title id="%s-t">%s</title>%s`,
		id, template.HTMLEscapeString(view), id, id, template.HTMLEscapeString(p.Alt), body)), nil
}

// pictureName is the name of a picture's file.
var pictureName = regexp.MustCompile(`^(clock-[0-9]+-train-[0-9]+-(drawing|torque|thickness|rank)|bench-readings)\.svg$`)

// IsPicture tells whether a file's name is one that a picture of a document has.
func IsPicture(file string) bool { return pictureName.MatchString(file) }

// Pictures are all pictures of the document, by their ids.
func (d *Document) Pictures() []Picture {
	var all []Picture
	for i := range d.Clocks {
		for _, p := range d.Clocks[i].Parts {
			all = append(all, p.Drawing, p.Torque, p.Sweep, p.Rank)
		}
	}
	if d.Bench != nil {
		all = append(all, d.Bench.Readings)
	}
	return all
}
