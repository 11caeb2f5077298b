package topics

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// Width is that of a terminal, in columns.
const Width = 80

// Plain sets a Markdown text for a terminal: headings underlined, paragraphs and lists
// filled, tables in columns, code and what else is indented as it is.
func Plain(text string) string {
	var p plain
	for line := range strings.Lines(Bare(text)) {
		p.line(strings.TrimRight(line, "\n"))
	}
	p.flush()
	return p.out.String()
}

// plain is a text half set.
type plain struct {
	out  strings.Builder
	mark string // before the first line of what is being filled, the others as far in
	text string // what is being filled
	rows [][]string
	code bool
}

var item = regexp.MustCompile(`^(- |[0-9]+\. )`)

func (p *plain) line(s string) {
	fence := strings.HasPrefix(s, "```")
	switch {
	case fence:
		p.flush()
		p.code = !p.code
	case p.code:
		p.write(strings.TrimRight("  "+s, " "))
	case strings.HasPrefix(s, "#"):
		p.heading(s)
	case strings.HasPrefix(s, "|"):
		p.row(s)
	case s == "":
		p.flush()
		p.write("")
	case item.MatchString(s):
		p.flush()
		p.mark = item.FindString(s)
		p.text = s[len(p.mark):]
	case strings.HasPrefix(s, " ") && p.mark == "":
		p.flush()
		p.write(s)
	default:
		p.text = strings.TrimSpace(p.text + " " + strings.TrimSpace(s))
	}
}

func (p *plain) write(s string) { p.out.WriteString(s + "\n") }

// heading underlines that of the text with =, those below it with -.
func (p *plain) heading(s string) {
	p.flush()
	under := "-"
	if strings.HasPrefix(s, "# ") {
		under = "="
	}
	s = strings.TrimLeft(s, "# ")
	p.write(s)
	p.write(strings.Repeat(under, utf8.RuneCountInString(s)))
}

// row takes a row of a table but for the line below its head.
func (p *plain) row(s string) {
	if strings.Trim(s, "|-: ") == "" {
		return
	}
	var cells []string
	for cell := range strings.SplitSeq(strings.Trim(s, "|"), "|") {
		cells = append(cells, spaces(strings.Join(pieces(cell), " ")))
	}
	p.rows = append(p.rows, cells)
}

// flush writes what was being filled.
func (p *plain) flush() {
	indent := strings.Repeat(" ", utf8.RuneCountInString(p.mark))
	at := p.mark
	words := pieces(p.text)
	for i, word := range words {
		switch {
		case i == 0:
		case utf8.RuneCountInString(at)+1+utf8.RuneCountInString(word) > Width:
			p.write(spaces(at))
			at = indent
		default:
			at += " "
		}
		at += word
	}
	if len(words) > 0 {
		p.write(spaces(at))
	}
	p.table()
	p.mark, p.text, p.rows = "", "", nil
}

// table writes the rows in columns, with a line below the head.
func (p *plain) table() {
	wide := map[int]int{}
	for _, row := range p.rows {
		for i, cell := range row {
			wide[i] = max(wide[i], utf8.RuneCountInString(cell))
		}
	}
	for n, row := range p.rows {
		var cells, lines strings.Builder
		for i, cell := range row {
			cells.WriteString(cell + strings.Repeat(" ", wide[i]-utf8.RuneCountInString(cell)+2))
			lines.WriteString(strings.Repeat("-", wide[i]) + "  ")
		}
		p.write(strings.TrimRight(cells.String(), " "))
		if n == 0 {
			p.write(strings.TrimRight(lines.String(), " "))
		}
	}
}

var (
	code   = regexp.MustCompile("`[^`]*`|\"evenpull [^\"]*\"")
	stress = regexp.MustCompile(`\*\*|\*\b|\b\*`)
)

const together = "\x00" // a space that no line ends at

// pieces are the words of a text, without its marks: what is to be typed as a whole stands
// between quotes, and code on one line when it is short.
func pieces(s string) []string {
	s = code.ReplaceAllStringFunc(s, func(c string) string {
		c = strings.Trim(c, "`")
		if strings.HasPrefix(c, "evenpull ") {
			c = `"` + c + `"`
		}
		if utf8.RuneCountInString(c) <= Width/2 {
			c = strings.ReplaceAll(c, " ", together)
		}
		return c
	})
	s = strings.ReplaceAll(s, " %", together+"%")
	return strings.Fields(stress.ReplaceAllString(s, ""))
}

func spaces(s string) string { return strings.ReplaceAll(s, together, " ") }
