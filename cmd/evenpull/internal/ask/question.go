package ask

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"evenpull/sim/scenario"
)

// question is one that is asked: a row of values, or several rows.
type question struct {
	id     string
	part   string // what it is a part of; how many are left is told of that
	asks   string // what is asked, where the words of its values do not say it
	why    string // why it matters, in half a line
	such   string // an answer
	slots  []slot
	parted string // what parts several rows: "," or ";"; "" for one row
	line   bool   // the whole line is the answer, a text
	group  string // what is left out as a whole when this is not known; "" for nothing
	spring bool   // who answers it handles a spring
	table  string // its values stand in, as the file has it
	judge  func(rows [][]value) error
	write  func(p *page, rows [][]value) // in place of a line for each value
}

// input is the slot of an input of the scenario: what it is and takes is told by the table of
// inputs.
func input(name string) slot {
	f, ok := scenario.Input(name)
	if !ok {
		panic("ask: no input " + name) // a slip of ours, which every test would show
	}
	without := f.Default
	switch without {
	case "required":
		without = ""
	case "optional":
		without = "it is left out"
	default:
		without = strings.Trim(without, `"`) + " stands for it"
	}
	words := f.Words
	if at := max(strings.LastIndex(words, " of the "), strings.LastIndex(words, " of a ")); at > 0 {
		words = words[:at] // the part that is asked about says the rest
	}
	meaning, _, _ := strings.Cut(f.Meaning, ";") // what stands for it is told apart
	return slot{key: f.Key, words: words, meaning: meaning, accepts: f.Accepts, without: without, word: f.Type == "choice" || f.Type == "name"}
}

// called is the slot with words of our own.
func (s slot) called(words string) slot { s.words, s.meaning = words, ""; return s }

// maybe is the slot when its value need not be known.
func (s slot) maybe(without string) slot { s.without = without; return s }

// or is the slot with other things that it may be.
func (s slot) or(other ...option) slot { s.other = append(s.other, other...); return s }

// must tells whether the question has to be answered for what it belongs to.
func (q *question) must() bool {
	return !q.line && slices.ContainsFunc(q.slots, func(s slot) bool { return s.without == "" })
}

// unknown says what becomes of it when it is not known; "" where it has to be known.
func (q *question) unknown() string {
	switch {
	case q.group != "" && q.must():
		return q.group
	case q.must():
		return ""
	case q.line:
		return "a plain title stands for it"
	}
	return q.slots[0].without
}

// read reads an answer.
func (q *question) read(text string) ([][]value, error) {
	if what := scenario.Unprintable(text); what != "" {
		return nil, fmt.Errorf("found %s; want plain text", what)
	}
	if !utf8.ValidString(text) {
		return nil, errors.New("found a byte that is not UTF-8; want plain text")
	}
	if q.line {
		return [][]value{{{literal: text}}}, nil
	}
	rows, err := answers(text, q.slots, q.parted)
	if err == nil && q.judge != nil {
		err = q.judge(rows)
	}
	return rows, err
}

// put writes the answer, or that it is not known.
func (q *question) put(p *page, a *answer) {
	p.writer = q.id
	switch {
	case a.unknown && q.group != "" && q.must():
		p.line("# not known: the " + q.slots[0].words + "; " + q.unknown())
	case a.unknown:
		p.in(q.table)
		for _, s := range q.slots {
			p.line(fmt.Sprintf("# %s: not known; %s", s.key, s.without))
		}
	case q.write != nil:
		p.in(q.table)
		q.write(p, a.rows)
	default:
		p.in(q.table)
		for i, v := range a.rows[0] {
			if s := q.slots[min(i, len(q.slots)-1)]; v.key != "" {
				p.line(v.key + " = " + v.literal + "  # " + remark(cmp.Or(s.meaning, s.words), v))
			} else {
				p.line(fmt.Sprintf("# %s: not known; %s", s.key, s.without))
			}
		}
	}
	p.writer = ""
}

// remark is what stands behind a value.
func remark(words string, v value) string {
	if v.note != "" {
		return words + "; from " + v.note
	}
	return words
}

// page is a file that is being written.
type page struct {
	b      strings.Builder
	table  string   // that its last line stands in
	writer string   // the question that writes
	owners []string // of the lines, the questions that wrote them
}

func (p *page) line(s string) {
	p.b.WriteString(s + "\n")
	p.owners = append(p.owners, p.writer)
}

// in begins a table, unless the last line stands in it.
func (p *page) in(table string) {
	if table == p.table {
		return
	}
	if p.table = table; table != "" {
		writer := p.writer
		p.writer = "" // of what is wrong with a table as a whole
		p.line("")
		p.line(table)
		p.writer = writer
	}
}

// owner is the question that wrote a line, counted from 1; "" for none.
func (p *page) owner(line int) string {
	if line < 1 || line > len(p.owners) {
		return ""
	}
	return p.owners[line-1]
}

// below is the question that wrote the line or the first below it that one wrote.
func (p *page) below(line int) string {
	for ; line < len(p.owners) && p.owner(line) == ""; line++ {
	}
	return p.owner(line)
}

// inline writes a row as a table within a line.
func inline(row []value) string {
	var all []string
	for _, v := range row {
		if v.key != "" {
			all = append(all, v.key+" = "+v.literal)
		}
	}
	return "{ " + strings.Join(all, ", ") + " }"
}
