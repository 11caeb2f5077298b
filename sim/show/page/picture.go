package page

import (
	"fmt"
	"html/template"
	"regexp"
)

// Picture is a drawing as SVG, with what it shows in words.
type Picture struct {
	ID, Caption, Alt string
	SVG              []byte
	own              bool // it is drawn no wider than it was made
}

// drawn is an SVG: its width, the box it is drawn in, and what stands within it.
var drawn = regexp.MustCompile(`(?s)<svg(?: width="([0-9.]+(?:pt|mm))")?[^>]* viewBox="([^"]*)"[^>]*>(.*)`)

// inline is a picture within a page: without the head of a file, named for those
// who cannot see it, as wide as there is room.
func inline(p *Picture) (template.HTML, error) {
	m := drawn.FindSubmatch(p.SVG)
	if m == nil {
		return "", fmt.Errorf("the picture %s is no SVG, or cut off", p.ID)
	}
	wide := ""
	if p.own && len(m[1]) > 0 {
		wide = fmt.Sprintf(` style="max-width:%s"`, m[1])
	}
	return template.HTML(fmt.Sprintf(`<svg id="%s" viewBox="%s" role="img" aria-labelledby="%[1]s-t"%[5]s><title id="%[1]s-t">%[3]s</title>%[4]s`,
		p.ID, m[2], template.HTMLEscapeString(p.Alt), m[3], wide)), nil
}

// pictureName is the name of a picture's file, also of one that is not drawn any more.
var pictureName = regexp.MustCompile(`^(train-[0-9]+-torque|clock-[0-9]+-train-[0-9]+-(drawing|run|thickness|torque|rank)|bench-readings(-[0-9]+)?)\.svg$`)

// IsPicture tells whether a file's name is one that a picture of a document has.
func IsPicture(file string) bool { return pictureName.MatchString(file) }
