// Package document reads a TOML text into plain values, tells where its keys stand and
// spells values in messages.
package document

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"evenpull/sim/internal/keyline"

	parser "github.com/BurntSushi/toml"
)

// Fault is what is wrong with a text as a whole.
type Fault struct {
	Line        int // counted from 1; 0 when there is none
	Found, Want string
}

// Error says what was found.
func (f *Fault) Error() string { return f.Found }

// Read reads at most so many bytes of TOML and tells where its keys stand, before any
// of them is judged. Source names the text in messages, noun what it is, with its
// article. What is wrong with it comes back as a Fault; any other error is the reader's
// own.
func Read(r io.Reader, source, noun string, most int) (map[string]any, keyline.Index, error) {
	text, err := Text(r, source, noun, "plain text", most)
	if err != nil {
		return nil, nil, err
	}
	lines, deep := keyline.Read(text)
	if deep > 0 { // the parser's time grows with the square of the depth
		return nil, nil, &Fault{Line: deep, Found: "found keys or values nested too deep", Want: fmt.Sprintf("want at most %d levels", keyline.MaxNesting)}
	}
	tree, err := parse(text)
	if err != nil {
		return nil, nil, err
	}
	return tree, lines, nil
}

var errValue = errors.New("not one TOML value")

// Value reads one TOML value.
func Value(text string) (any, error) {
	text = "v = " + text
	if _, deep := keyline.Read(text); deep > 0 || strings.ContainsAny(text, "\n\r") {
		return nil, errValue
	}
	tree, err := parse(text)
	return tree["v"], err
}

// decimalComma is a value with a comma where TOML has a point.
var decimalComma = regexp.MustCompile(`=\s*[-+]?[0-9]+,[0-9]`)

// typeset are the characters that word processors and spreadsheets put in place of plain
// ones, and what stands for them in a number.
var typeset = []struct{ characters, want, plain string }{
	{"“”„‟«»‘’‚‹›", "want straight quotes, \" or '", ""},
	{"\u00a0\u2007\u2009\u202f\u200b\ufeff", "want plain spaces, or none", ""},
	{"−–—", "want a plain -", "-"},
}

// typedPlainly is a text without what typesetting put into it.
func typedPlainly(s string) string {
	for _, t := range typeset {
		for _, r := range t.characters {
			s = strings.ReplaceAll(s, string(r), t.plain)
		}
	}
	return s
}

// cure is what would be accepted in place of a line that the parser refuses, as far as
// its message tells; "" when it does not.
func cure(message, line string) string {
	if decimalComma.MatchString(line) {
		return "want a decimal point, as in 0.38, not a comma"
	}
	if strings.Contains(message, "newline") && strings.ContainsAny(line, typeset[0].characters) {
		return typeset[0].want // one of a pair is a straight one
	}
	if strings.Contains(message, "got ';'") {
		return "want commas between values, and decimal points"
	}
	for _, t := range typeset {
		for _, r := range t.characters {
			if strings.Contains(message, strconv.QuoteRune(r)) {
				return t.want
			}
		}
	}
	switch {
	case strings.Contains(message, "cannot be used as an array"):
		return "want the same brackets at each of them: [[…]] for what there are several of"
	case strings.Contains(message, "already been defined"):
		return "want it once"
	}
	for _, m := range miswritten {
		if m.line.MatchString(line) {
			return m.want
		}
	}
	return ""
}

// miswritten are lines that are no TOML, and what is.
var miswritten = []struct {
	line *regexp.Regexp
	want string
}{
	{regexp.MustCompile(`^\s*[a-z_0-9]+\s*:`), "want = between a key and its value"},
	{regexp.MustCompile(`=\s*[0-9.]+\s*%`), "want a share, such as 0.9 for 90 %"},
	{regexp.MustCompile(`=\s*([0-9]+\s+)?[0-9]+\s*/\s*[0-9]`), "want a decimal number, such as 0.375 for 3/8"},
	{regexp.MustCompile(`=\s*[-+]?[0-9.]+\s*["a-zA-Z]`), "want the number alone: its key ends in its unit, such as thickness_mm or thickness_in"},
	{regexp.MustCompile(`=\s*(?i:yes|no|on|off|true|false)\s*(#|$)`), "want true or false"},
	{regexp.MustCompile(`=\s*[A-Za-z]`), "want a text in straight quotes, or a number"},
}

// line gives the line with a number, counted from 1, or nothing.
func line(text string, number int) string {
	lines := strings.Split(text, "\n")
	if number < 1 || number > len(lines) {
		return ""
	}
	return lines[number-1]
}

// parse reads TOML. A panic of the parser is its own fault, not the user's,
// yet no input may end the program.
func parse(text string) (tree map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			tree, err = nil, &Fault{Found: fmt.Sprintf("not valid TOML: %v", r)}
		}
	}()
	if _, err := parser.Decode(text, &tree); err != nil {
		f := &Fault{Found: "not valid TOML: " + clean(err.Error())}
		var pe parser.ParseError
		if errors.As(err, &pe) {
			f.Line, f.Found = pe.Position.Line, "not valid TOML: "+clean(strings.TrimSpace(pe.Message))
			at := line(text, f.Line)
			f.Want = cure(f.Found, at)
			if comma := decimalComma.FindString(at); comma != "" { // what the parser says of it is no help
				f.Found = "not valid TOML: found a comma in a number"
			}
		}
		return nil, f
	}
	return tree, nil
}
