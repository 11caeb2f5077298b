package report

import (
	"strings"
	"unicode/utf8"
)

// grid is a table whose columns are as wide as their widest cell. The last
// column is wrapped to the page when the table has two.
type grid struct {
	rows    [][]string
	flush   map[int]bool // columns flush right
	columns int
}

func (g *grid) row(cells ...string) {
	g.rows = append(g.rows, cells)
	g.columns = max(g.columns, len(cells))
}

func (g *grid) right(columns ...int) {
	g.flush = make(map[int]bool, len(columns))
	for _, c := range columns {
		g.flush[c] = true
	}
}

func (g *grid) write(p *page) {
	widths := make([]int, g.columns)
	for _, row := range g.rows {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range g.rows {
		if g.columns == 2 {
			p.wrap(g.pad(row[0], 0, widths[0])+"  ", row[1])
			continue
		}
		var b strings.Builder
		for i, cell := range row {
			if i > 0 {
				b.WriteString("  ")
			}
			b.WriteString(g.pad(cell, i, widths[i]))
		}
		p.line(b.String())
	}
}

func (g *grid) pad(cell string, column, width int) string {
	space := strings.Repeat(" ", width-utf8.RuneCountInString(cell))
	if g.flush[column] {
		return space + cell
	}
	return cell + space
}
