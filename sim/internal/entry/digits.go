package entry

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"evenpull/sim/internal/unit"
)

// numeral is a TOML number, its decimals and its exponent.
var numeral = regexp.MustCompile(`[0-9][0-9_]*(?:\.([0-9_]+))?(?:[eE]([-+]?[0-9]+))?`)

// LastDigit is what the last digit of a number stands for, as it is written: 0.01 of 0.46
// and of 0.50. Of several numbers in a text it is the least; NaN where there is none.
func LastDigit(text string) float64 {
	least := math.NaN()
	for _, n := range numeral.FindAllStringSubmatch(text, -1) {
		decimals := len(strings.ReplaceAll(n[1], "_", ""))
		exponent, err := strconv.Atoi("0" + strings.TrimPrefix(n[2], "+"))
		if strings.HasPrefix(n[2], "-") {
			exponent, err = strconv.Atoi(n[2])
		}
		if digit := math.Pow10(exponent - decimals); err == nil && !(digit >= least) {
			least = digit
		}
	}
	return least
}

// LastDigit is that of the numbers in the lists that stand under a key, in the unit that the
// key would have as whole; NaN where they cannot be seen.
func (t *Table) LastDigit(key, whole string) float64 {
	_, text := t.file.from(t.Line(key))
	at := regexp.MustCompile(`(` + regexp.QuoteMeta(key) + `\w*)["']?\s*=`).FindStringSubmatchIndex(text)
	if !t.Stands(key) || at == nil {
		return math.NaN()
	}
	by := unit.Factor(text[at[2]:at[3]], whole)
	if by == 0 {
		by = 1
	}
	return LastDigit(bracketed(text[at[1]:])) * by
}

// from gives the text from a line on, and what comes before.
func (f *file) from(line int) (before, text string) {
	at := 0
	for range line - 1 {
		at += strings.IndexByte(f.text[at:], '\n') + 1
	}
	return f.text[:at], f.text[at:]
}

// bracketed is the value in brackets that a text begins with, without its comments.
func bracketed(text string) string {
	var b strings.Builder
	for depth := 0; text != ""; text = text[1:] {
		switch text[0] {
		case '[':
			depth++
		case ']':
			depth--
		case '#':
			text = text[max(0, strings.IndexByte(text, '\n')):]
		}
		if b.WriteByte(text[0]); depth == 0 && text[0] == ']' {
			break
		}
	}
	return b.String()
}
