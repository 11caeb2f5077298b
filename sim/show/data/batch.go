package data

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"math"
	"strings"

	"evenpull/sim/show/words"
	"evenpull/sim/study/batch"
)

// Batch writes the rows of a batch as they come: as CSV, or as JSON Lines.
type Batch struct {
	of  *batch.Batch
	out *bufio.Writer
}

// NewBatch writes the rows of a batch.
func NewBatch(w io.Writer, of *batch.Batch) *Batch { return &Batch{of, bufio.NewWriterSize(w, 1<<16)} }

// Header writes where a table comes from and the names of its columns; a line of JSON that
// says the first is the header of JSON Lines.
func (b *Batch) Header(from Origin, lines bool) error {
	if lines {
		b.out.WriteString(`{"evenpull":`)
		if err := b.compact(origin().node(&from)); err != nil {
			return err
		}
		b.out.WriteString("}\n")
		return nil
	}
	if err := from.remarks(b.out); err != nil {
		return err
	}
	names := append(append([]string{}, b.of.Header()...), b.of.Told()...)
	return putLine(b.out, len(names), func(i int) string { return names[i] })
}

// Fields are the columns of the table: those that set a KEY have its unit, and what is carried
// through may be anything.
func (b *Batch) Fields() (fields []Field) {
	for _, name := range b.of.Header() {
		f := Field{Name: name, Type: "any", Words: "as it came in"}
		if q, err := b.of.Quantity(name); err == nil {
			f = Field{name, "number", q.Unit, "input: " + q.Words}
		}
		fields = append(fields, f)
	}
	told := map[string]Field{
		"sure":    {"", "number", "", "share of the draws that end in the same verdict"},
		"else":    {"", "string", "", "the verdict that comes up next among them"},
		"train":   {"", "string", "", "the train"},
		"verdict": {"", "string", "", "stops, thin, suits, strong or overdriven; empty when no need is known"},
		"faults":  {"", "string", "", "what does not fit or is unsafe whatever the torque"},
		"fault":   {"", "string", "", "why the row could not be run; what follows is empty then"},
	}
	of := b.of.Of()
	for i := range of {
		told[of[i].Name] = Field{"", "number", of[i].Unit, of[i].Words}
	}
	for _, name := range b.of.Told() {
		f := told[name]
		f.Name = name
		fields = append(fields, f)
	}
	return fields
}

// CSV writes a row as a line.
func (b *Batch) CSV(r *batch.Row) error {
	told := b.told(r)
	return putLine(b.out, len(r.Cells)+len(told), func(i int) string {
		if i < len(r.Cells) {
			return r.Cells[i]
		}
		if list, ok := told[i-len(r.Cells)].([]string); ok {
			return strings.Join(list, "; ")
		}
		return cell(told[i-len(r.Cells)])
	})
}

// Line writes a row as an object on a line of its own: texts as they came in, then what it
// came to.
func (b *Batch) Line(r *batch.Row) error {
	told, names := b.told(r), b.of.Told()
	b.out.WriteByte('{')
	for i, name := range append(append([]string{}, b.of.Header()...), names...) {
		if i > 0 {
			b.out.WriteByte(',')
		}
		var v any
		if i < len(r.Cells) {
			v = r.Cells[i]
		} else {
			v = told[i-len(r.Cells)]
		}
		if x, ok := v.(float64); ok && (math.IsNaN(x) || math.IsInf(x, 0)) || v == "" && i >= len(r.Cells) {
			v = nil
		}
		text, err := json.Marshal(v)
		if err != nil {
			return err
		}
		head, err := json.Marshal(name)
		if err != nil {
			return err
		}
		b.out.Write(head)
		b.out.WriteByte(':')
		b.out.Write(text)
	}
	_, err := b.out.WriteString("}\n")
	return err
}

// Flush writes what is held back.
func (b *Batch) Flush() error { return b.out.Flush() }

// told are the values of the columns that come out.
func (b *Batch) told(r *batch.Row) []any {
	d := &r.Digest
	ran := r.Fault == ""
	all := []any{r.Train, words.Either(ran, d.Verdict.Code.String(), "")}
	if b.of.Sure() {
		sure := math.NaN()
		if ran {
			sure = drawn(d, d.Verdict.Sureness.Same)
		}
		all = append(all, sure, words.Either(ran, d.Verdict.Sureness.Else.String(), ""))
	}
	faults := []string{}
	if ran {
		faults = words.Faults(d)
	}
	all = append(all, faults, r.Fault)
	of := b.of.Of()
	for i := range of {
		v := math.NaN()
		if ran {
			v = of[i].Of(d)
		}
		all = append(all, v)
	}
	return all
}

// compact writes a node on one line.
func (b *Batch) compact(n node) error {
	var indented, short bytes.Buffer
	if err := write(&indented, n); err != nil {
		return err
	}
	if err := json.Compact(&short, indented.Bytes()); err != nil {
		return err
	}
	_, err := short.WriteTo(b.out)
	return err
}
