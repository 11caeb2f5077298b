package scenario

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"evenpull/sim/internal/keyline"

	parser "github.com/BurntSushi/toml"
)

// Tree reads at most MaxBytes of TOML and tells where its keys stand, before
// any of them is judged. Source names the text in messages, noun what it is.
// What is wrong with it comes back as Faults; any other error is the reader's
// own.
func Tree(r io.Reader, source, noun string) (map[string]any, keyline.Index, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, nil, fmt.Errorf("%s: reading %s: %w", noun, source, err)
	}
	if len(data) > MaxBytes {
		return nil, nil, Faults{{Source: source, Found: fmt.Sprintf("found more than %d bytes", MaxBytes),
			Want: fmt.Sprintf("want a %s of at most %d bytes", noun, MaxBytes)}}
	}
	text := string(data)
	lines, deep := keyline.Read(text)
	if deep > 0 { // the parser's time grows with the square of the depth
		return nil, nil, Faults{{Source: source, Line: deep, Found: "found keys or values nested too deep",
			Want: fmt.Sprintf("want at most %d levels", keyline.MaxNesting)}}
	}
	tree, err := parse(text, source)
	if err != nil {
		return nil, nil, err
	}
	return tree, lines, nil
}

// decimalComma is a value with a comma where TOML has a point.
var decimalComma = regexp.MustCompile(`=\s*[-+]?[0-9]+,[0-9]`)

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
func parse(text, source string) (tree map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			tree, err = nil, Faults{{Source: source, Found: fmt.Sprintf("not valid TOML: %v", r)}}
		}
	}()
	if _, err := parser.Decode(text, &tree); err != nil {
		f := Fault{Source: source, Found: "not valid TOML: " + err.Error()}
		var pe parser.ParseError
		if errors.As(err, &pe) {
			f.Line, f.Found = pe.Position.Line, "not valid TOML: "+strings.TrimSpace(pe.Message)
			if decimalComma.MatchString(line(text, f.Line)) {
				f.Want = "want a decimal point, as in 0.38, not a comma"
			}
		}
		return nil, Faults{f}
	}
	return tree, nil
}

// Describe names a TOML value after the word "found", cut short when it is long.
func Describe(v any) string { return describe(v) }

// Number takes a TOML integer or finite float; of anything else it gives NaN
// and false.
func Number(v any) (float64, bool) { return toNumber(v) }

// Exactly writes a number as one would type it, with all its digits.
func Exactly(v float64) string { return figure(v) }

// ValidName tells whether a text can stand for a train in a KEY: up to 64
// letters, digits, - and _.
func ValidName(s string) bool { return validName(s) }

// Unprintable gives the first character of a text of one line that would upset
// a terminal or a page, or 0.
func Unprintable(s string) rune { return unprintable(s, false) }
