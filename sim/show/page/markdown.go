package page

import (
	"fmt"
	"io"
	"strings"
)

// Markdown writes the document for an editor of one's own. Its pictures stand in
// files beside it: a picture's name is its id with .svg, in the folder given.
func Markdown(w io.Writer, d *Document, folder string) error {
	m := markdown{folder: folder}
	m.line("# %s", escape(d.Heading()))
	for i := range d.Clocks {
		if note := d.Clocks[i].Note; note != "" {
			m.line("*%s*", escape(note))
		}
	}
	m.line("## Verdicts")
	for i := range d.Clocks {
		for k := range d.Clocks[i].Parts {
			m.verdict(&d.Clocks[i].Parts[k], d.of(i))
		}
		if d.Clocks[i].Order != nil {
			m.table(d.Clocks[i].Order)
		}
	}
	if d.Compare != nil {
		m.line("## Side by side")
		m.table(&d.Compare.Results)
		m.table(&d.Compare.Inputs)
	}
	for i := range d.Clocks {
		for k := range d.Clocks[i].Parts {
			m.part(&d.Clocks[i].Parts[k], d.of(i))
		}
	}
	if d.Bench != nil {
		m.line("## Bench record: %s", escape(d.Bench.Title))
		m.picture(&d.Bench.Readings)
		m.line("```text\n%s\n```", strings.TrimRight(d.Bench.Text, "\n"))
		if d.Bench.Assign != "" {
			m.line("### Which barrel belongs to which train")
			m.line("```text\n%s\n```", strings.TrimRight(d.Bench.Assign, "\n"))
		}
	}
	m.line("## Assumed, since the scenario does not say")
	for i := range d.Clocks {
		m.list(d.Clocks[i].Assumed)
	}
	m.line("## Equations and sources")
	m.list(d.Equations)
	m.line("## Limits of the model")
	m.list(d.Limits)
	m.line("## Words")
	for _, w := range d.Words {
		fmt.Fprintf(&m, "- **%s**: %s\n", escape(w[0]), escape(w[1]))
	}
	m.WriteByte('\n')
	m.line("## Cautions")
	for _, c := range d.Cautions {
		m.line("%s", escape(c))
	}
	m.line("## Making it again")
	m.line("Made on %s by evenpull %s with", escape(d.Date), escape(d.Version))
	m.line("```sh\n%s\n```", d.Command)
	_, err := io.WriteString(w, m.String())
	return err
}

// of tells whose train it is, when there are several clocks.
func (d *Document) of(clock int) string {
	if len(d.Clocks) < 2 {
		return ""
	}
	return " of " + d.Clocks[clock].Title
}

// markdown is a document on its way.
type markdown struct {
	strings.Builder
	folder string
}

// line writes a paragraph.
func (m *markdown) line(format string, args ...any) { fmt.Fprintf(m, format+"\n\n", args...) }

func (m *markdown) list(items []string) {
	for _, s := range items {
		fmt.Fprintf(m, "- %s\n", escape(s))
	}
	m.WriteByte('\n')
}

func (m *markdown) verdict(p *Part, of string) {
	m.line("### %s train%s: %s", escape(p.Name), escape(of), p.Verdict)
	var items []string
	items = append(items, p.Reasons...)
	for _, f := range p.Faults {
		items = append(items, "Fault: "+f)
	}
	for _, n := range p.Notes {
		items = append(items, "Note: "+n)
	}
	items = append(items, "The spring it has: "+p.Has)
	if p.SetUp != "" {
		items = append(items, "Set-up: "+p.SetUp)
	}
	if p.ToOrder != "" {
		items = append(items, "To order: "+p.ToOrder)
	}
	m.list(items)
}

func (m *markdown) part(p *Part, of string) {
	m.line("## %s train%s", escape(p.Name), escape(of))
	m.picture(&p.Drawing)
	for _, row := range p.Figures.Rows {
		if row[0] != "" {
			fmt.Fprintf(m, "- **%s**: %s\n", escape(row[0]), escape(row[1]))
		} else {
			fmt.Fprintf(m, "  %s\n", escape(row[1]))
		}
	}
	m.WriteByte('\n')
	m.picture(&p.Torque)
	m.table(&p.Rows)
	m.table(&p.Arbors)
	m.table(&p.All)
	m.line("### What if the spring were thicker or thinner, all else as it is")
	m.list(p.Sensitivity)
	m.picture(&p.Sweep)
	if p.Springs != nil {
		m.line("### What to order")
		m.list(p.Order)
		m.table(p.Springs)
	}
	m.line("### What matters most")
	m.table(&p.Inputs)
	m.picture(&p.Rank)
}

func (m *markdown) picture(p *Picture) {
	m.line("![%s](%s/%s.svg)", strings.NewReplacer("[", "(", "]", ")").Replace(escape(p.Alt)), m.folder, p.ID)
}

// table writes a table; several rows of headings become one.
func (m *markdown) table(t *Table) {
	m.line("**%s**", escape(t.Caption))
	columns := 0
	for _, row := range t.Rows {
		columns = max(columns, len(row))
	}
	head := make([]string, columns)
	for _, row := range t.Rows[:min(t.Heads, len(t.Rows))] {
		for i, cell := range row {
			head[i] = strings.TrimSpace(head[i] + " " + cell)
		}
	}
	m.row(head)
	rule := make([]string, columns)
	for i := range rule {
		rule[i] = "---"
		if t.IsRight(i) {
			rule[i] = "---:"
		}
	}
	fmt.Fprintf(m, "|%s|\n", strings.Join(rule, "|"))
	for _, row := range t.Rows[min(t.Heads, len(t.Rows)):] {
		m.row(row)
	}
	m.WriteByte('\n')
}

func (m *markdown) row(cells []string) {
	for i := range cells {
		fmt.Fprintf(m, "| %s ", escape(cells[i]))
	}
	m.WriteString("|\n")
}

// escape keeps a text from being taken for marks, and on one line.
func escape(s string) string {
	return strings.NewReplacer("\\", "\\\\", "|", "\\|", "<", "&lt;", "*", "\\*", "_", "\\_", "`", "\\`", "#", "\\#", "[", "\\[", "]", "\\]", "\n", " ", "\r", " ").Replace(s)
}
