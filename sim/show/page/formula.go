package page

import (
	"html/template"
	"slices"
	"strings"
	"unicode"
)

// A formula is written on one line as it stands in Markdown: κ_a = 1//√(r² + k h s/π), a sign
// and what follows its underscore, √( ) and ^( ) with what belongs to them, and // where a
// page sets one over the other. Letters by themselves or in pairs are signs; longer words
// are functions and words.

// plainly is a formula on one line, for Markdown and for those who have it read to them.
func plainly(formula string) string { return strings.ReplaceAll(formula, "//", "/") }

// setter sets a formula rune by rune.
type setter struct {
	left  []rune
	signs []string // that were met, with what follows their underscore
}

// piece is a factor or an operator, set; of brackets what stands in them too.
type piece struct {
	html, within string
	factor       bool
}

// formula is one set for a page, with its signs.
func formula(text string) (template.HTML, []string) {
	s := setter{left: []rune(text)}
	set := s.row()
	return template.HTML(set), s.signs
}

// words that are not two signs, though short, and signs that stand upright.
var upright = []string{"ln", "if", "or", "at", "to", "π", "e"}

// over begins what is set one over the other, and ends ends it.
const (
	over = `<span class="over"><span>`
	ends = `</span></span>`
)

// row sets up to a closing bracket or the end.
func (s *setter) row() string {
	var row []piece
	all := s.left
	for len(s.left) > 0 && s.left[0] != ')' {
		switch {
		case strings.HasPrefix(string(s.left[:min(2, len(s.left))]), "//"):
			s.left = s.left[2:]
			above, under := row[len(row)-1], s.next()
			row[len(row)-1] = piece{html: over + above.bare() + `</span><span>` + under.bare() + ends, factor: true}
		case strings.ContainsRune("²³⁴!", s.left[0]) && len(row) > 0:
			row[len(row)-1].html += string(s.left[0])
			row[len(row)-1].within = ""
			s.left = s.left[1:]
		case strings.ContainsRune("∫∮", s.left[0]):
			row = append(row, s.integral())
		case s.left[0] == '^' && len(row) > 0:
			s.left = s.left[1:]
			row[len(row)-1].html += "<sup>" + s.next().bare() + "</sup>"
			row[len(row)-1].within = ""
		default:
			row = append(row, s.next())
		}
	}
	return joined(row, len(s.left) > 0 && len(all)-len(s.left) < brief)
}

// brief is the length of what stands in brackets up to which it stays on a line.
const brief = 16

// bare is what stands in brackets that are not needed where a line or a place sets it apart.
func (p piece) bare() string {
	if p.within != "" {
		return p.within
	}
	return p.html
}

// joined puts pieces beside each other. A line may end before an operator with a space on
// both sides, or after a comma, unless they are to be kept together.
func joined(row []piece, together bool) string {
	var b strings.Builder
	for i, p := range row {
		if p.html != " " {
			b.WriteString(p.html)
			if p.html == "/" {
				b.WriteString("\u2060") // a line does not end there
			}
			continue
		}
		before, after := i > 0 && row[i-1].factor, i+1 < len(row) && row[i+1].factor
		switch {
		case before && after:
			b.WriteString("\u202f") // between factors
		case !together && (before || i > 0 && (row[i-1].html == "," || row[i-1].html == ";")):
			b.WriteString(" ")
		default:
			b.WriteString("\u00a0")
		}
	}
	return b.String()
}

// next sets what comes next: a factor, a space, or any one sign.
func (s *setter) next() piece {
	r := s.left[0]
	switch {
	case unicode.IsLetter(r):
		return piece{html: s.letters(), factor: true}
	case unicode.IsDigit(r):
		return piece{html: s.run(func(r rune) bool { return unicode.IsDigit(r) || r == '.' }), factor: true}
	case r == '√':
		s.left = s.left[1:]
		return piece{html: `<span class="root">√<span>` + s.next().bare() + `</span></span>`, factor: true}
	case r == '(':
		s.left = s.left[1:]
		within := s.row()
		s.left = s.left[min(1, len(s.left)):]
		if one := strings.TrimPrefix(within, over); one != within && !s.raised() && !strings.Contains(strings.TrimSuffix(one, ends), ends) {
			return piece{html: within, factor: true} // what is set one over the other needs no brackets
		}
		return piece{html: "(" + within + ")", within: within, factor: true}
	}
	s.left = s.left[1:]
	return piece{html: template.HTMLEscapeString(string(r)), factor: strings.ContainsRune("∞½¼∂[]|", r)}
}

func (s *setter) run(of func(rune) bool) string {
	n := slices.IndexFunc(s.left, func(r rune) bool { return !of(r) })
	if n < 0 {
		n = len(s.left)
	}
	run := string(s.left[:n])
	s.left = s.left[n:]
	return template.HTMLEscapeString(run)
}

// raised tells whether a power follows.
func (s *setter) raised() bool { return len(s.left) > 0 && strings.ContainsRune("^²³⁴", s.left[0]) }

// integral sets the sign with the ends that follow it.
func (s *setter) integral() piece {
	html := `<span class="integral">` + string(s.left[0]) + `</span>`
	s.left = s.left[1:]
	from, to := "", ""
	if len(s.left) > 1 && s.left[0] == '_' {
		s.left = s.left[1:]
		from = s.next().bare()
	}
	if len(s.left) > 1 && s.left[0] == '^' {
		s.left = s.left[1:]
		to = s.next().bare()
	}
	if from != "" {
		html += `<span class="ends"><span>` + to + `</span><span>` + from + `</span></span>`
	}
	return piece{html: html}
}

// letters sets a word, or signs and what stands below the last of them.
func (s *setter) letters() string {
	word := s.run(unicode.IsLetter)
	signs := []rune(word)
	if len(signs) > 2 || slices.Contains(upright, word) {
		return word
	}
	html, below := "", ""
	if len(signs) == 2 && signs[0] == 'd' { // the differential of a sign
		html, signs = "d", signs[1:]
	}
	html += "<i>" + string(signs) + "</i>"
	if len(s.left) > 0 && s.left[0] == '′' {
		html, s.left = html+"′", s.left[1:]
	}
	if len(s.left) > 0 && s.left[0] == '_' {
		s.left = s.left[1:]
		below = s.run(func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '∞' })
		html += "<sub>" + below + "</sub>"
		below = "_" + below
	}
	for i, r := range signs {
		if i == len(signs)-1 {
			s.signs = append(s.signs, string(r)+below)
		} else {
			s.signs = append(s.signs, string(r))
		}
	}
	return html
}
