package ask

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// token is a number or a word of an answer, or what stands between its items.
type token struct {
	text   string
	number bool
	v      float64
}

// between tells whether the token parts items.
func (t token) between() bool { return t.text == "," || t.text == ";" }

var (
	numberAtStart = regexp.MustCompile(`^[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?`)
	wordAtStart   = regexp.MustCompile(`^[^\s,;0-9][^\s,;]*`)
	byAtStart     = regexp.MustCompile(`^[x×/]\s*[-+.?0-9]`) // 32 x 0.38, 96/8
	commaDecimal  = regexp.MustCompile(`[-+0-9]*[0-9],[0-9]+`)
)

// tokens takes an answer apart. Numbers may be parted by blanks, x, × or /; a unit may
// follow its number at once.
func tokens(s string) (all []token, err error) {
	if at := commaDecimal.FindString(s); at != "" {
		return nil, fmt.Errorf("found %s; want a decimal point, or a blank after the comma between two values", at)
	}
	for rest := strings.TrimSpace(s); rest != ""; rest = strings.TrimSpace(rest) {
		after := len(all) > 0 && !all[len(all)-1].between()
		switch {
		case rest[0] == ',' || rest[0] == ';':
			all, rest = append(all, token{text: rest[:1]}), rest[1:]
		case after && byAtStart.MatchString(rest):
			_, n := utf8.DecodeRuneInString(rest)
			rest = rest[n:]
		default:
			t := token{text: numberAtStart.FindString(rest)}
			if t.text != "" {
				t.v, err = strconv.ParseFloat(t.text, 64)
				t.number = err == nil && !math.IsInf(t.v, 0)
			}
			if !t.number {
				t.text = wordAtStart.FindString(rest)
			}
			if t.text == "" {
				t.text = strings.Fields(rest)[0]
			}
			all, rest = append(all, t), rest[len(t.text):]
		}
	}
	return all, nil
}

// literal writes a number as TOML.
func literal(v float64) string {
	if a := math.Abs(v); a >= 1e15 || a != 0 && a < 1e-6 {
		return strconv.FormatFloat(v, 'e', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// plainNumber is a number that TOML takes as it was typed.
var plainNumber = regexp.MustCompile(`^-?(0|[1-9][0-9]{0,15})(\.[0-9]+)?$`)

// typed writes a number as TOML with the digits that were typed: the last of them tells how
// finely a meter was read.
func typed(t token) string {
	if plainNumber.MatchString(t.text) {
		return t.text
	}
	return literal(t.v)
}
