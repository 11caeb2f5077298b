// Package words makes the sentences that people read: the reasons of a verdict, what does not
// fit, what is worth knowing, what a study found and what is advised. It takes codes and
// figures and decides nothing. Figures are put into the units of the trade and rounded to the
// digits that they bear. Functions of one study are in one file; a text has no line breaks,
// which package text makes. Wording may change with any version.
package words

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"evenpull/sim/vary"
)

// told gathers sentences.
type told []string

// add adds a sentence: see say.
func (t *told) add(format string, a ...any) { *t = append(*t, say(format, a...)) }

// when adds a sentence where it holds.
func (t *told) when(holds bool, format string, a ...any) {
	if holds {
		t.add(format, a...)
	}
}

// where is a sentence, or a part of one, where it holds; else "". cmp.Or of several is
// the first that holds.
func where(holds bool, format string, a ...any) string {
	return Either(holds, say(format, a...), "")
}

// Either is the first text where it holds, and else the second.
func Either(holds bool, this, that string) string {
	if holds {
		return this
	}
	return that
}

// say makes a sentence as fmt.Sprintf does, with %v of a number as Figure writes it.
func say(format string, a ...any) string {
	for i, v := range a {
		if f, is := v.(float64); is {
			a[i] = figure(f)
		}
	}
	return fmt.Sprintf(format, a...)
}

// figure is a number in the arguments of say.
type figure float64

// Format writes %v as Figure does, and any other verb as that of a number.
func (f figure) Format(to fmt.State, verb rune) {
	if verb == 'v' {
		io.WriteString(to, Figure(float64(f)))
		return
	}
	fmt.Fprintf(to, fmt.FormatString(to, verb), float64(f))
}

// Count is a number of things, which take an s when there are several.
func Count(n int, thing string) string {
	return fmt.Sprintf("%d %s", n, thing) + Either(n == 1, "", "s")
}

// numbers are whole numbers, a first one counted on to each, as in "1, 2 and 3".
func numbers(list []int, first int) string {
	texts := make([]string, len(list))
	for i, v := range list {
		texts[i] = strconv.Itoa(v + first)
	}
	return listed(texts)
}

// listed are things in a row, the last after "and".
func listed(things []string) string {
	last := max(len(things)-1, 0)
	return strings.Join(things[:last], ", ") + where(last > 0, " and ") + strings.Join(things[last:], "")
}

// Why tells why something cannot be built; "" without an error.
func Why(err error) string { return vary.Why(err) }

// Capital is a text that begins a sentence.
func Capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return Either(size > 0, string(unicode.ToUpper(first)), "") + s[size:]
}
