package text

import (
	"strings"
	"unicode/utf8"
)

// Grid is a table whose columns are as wide as their widest cell. The last
// column is wrapped to the page when the table has two.
type Grid struct {
	rows    [][]string
	flush   map[int]bool // columns flush right
	columns int
}

// Row adds a row.
func (g *Grid) Row(cells ...string) {
	g.rows = append(g.rows, cells)
	g.columns = max(g.columns, len(cells))
}

// Right sets columns, counted from 0, flush right.
func (g *Grid) Right(columns ...int) {
	g.flush = make(map[int]bool, len(columns))
	for _, c := range columns {
		g.flush[c] = true
	}
}

// Rows gives the cells, row by row.
func (g *Grid) Rows() [][]string { return g.rows }

// IsRight tells whether a column is flush right.
func (g *Grid) IsRight(column int) bool { return g.flush[column] }

// Write writes the table.
func (g *Grid) Write(p *Page) {
	widths := make([]int, g.columns)
	for _, row := range g.rows {
		for i, cell := range row {
			widths[i] = max(widths[i], visible(cell))
		}
	}
	for _, row := range g.rows {
		if g.columns == 2 {
			p.Wrap(g.pad(row[0], 0, widths[0])+"  ", row[1])
			continue
		}
		var b strings.Builder
		for i, cell := range row {
			if i > 0 {
				b.WriteString("  ")
			}
			b.WriteString(g.pad(cell, i, widths[i]))
		}
		p.Line(b.String())
	}
}

func (g *Grid) pad(cell string, column, width int) string {
	space := strings.Repeat(" ", width-visible(cell))
	if g.flush[column] {
		return space + cell
	}
	return cell + space
}

// visible is the number of characters that show, without colours.
func visible(cell string) int {
	n := utf8.RuneCountInString(cell)
	for {
		_, after, found := strings.Cut(cell, "\x1b[")
		if !found {
			return n
		}
		code, rest, _ := strings.Cut(after, "m")
		n -= len("\x1b[") + len(code) + len("m")
		cell = rest
	}
}
