package data

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
)

// JSON writes a document, indented, with a newline at its end. The items of its
// lists are written one by one, so that long lists take no memory.
func (o Object[T]) JSON(w io.Writer, t *T) error {
	p := printer{out: bufio.NewWriter(w)}
	for i := range o {
		m := &o[i]
		p.begin(i, "{", "  ")
		p.value(appendValue(p.flat[:0], m.name), "")
		p.out.WriteString(": ")
		if m.list == nil || t == nil {
			p.value(m.write(p.flat[:0], t), "  ")
			continue
		}
		n, item := m.list(t)
		for k := range n {
			p.begin(k, "[", "    ")
			p.value(item(p.flat[:0], k), "    ")
		}
		p.out.WriteString([...]string{"[]", "\n  ]"}[min(n, 1)])
	}
	p.out.WriteString("\n}\n")
	return errors.Join(p.err, p.out.Flush())
}

// printer writes the values of a document, indented.
type printer struct {
	out  *bufio.Writer
	flat []byte // memory for a value
	deep bytes.Buffer
	err  error // the first of a value; those of out show when it is flushed
}

// begin begins the item with the given number, the first after a bracket.
func (p *printer) begin(number int, bracket, indent string) {
	if number > 0 {
		bracket = ","
	}
	p.out.WriteString(bracket + "\n" + indent)
}

// value writes a value below lines that are indented so.
func (p *printer) value(flat []byte, indent string) {
	p.flat = flat
	p.deep.Reset()
	if err := json.Indent(&p.deep, flat, indent, "  "); err != nil && p.err == nil {
		p.err = err
	}
	p.out.Write(p.deep.Bytes())
}
