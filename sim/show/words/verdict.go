package words

import (
	"strings"

	"evenpull/sim/rules"
)

// Verdict is the word of a verdict in capitals.
func Verdict(c rules.Code) string {
	if c == rules.Unjudged {
		return "NOT JUDGED"
	}
	return strings.ToUpper(c.String())
}

// Small is the word of a verdict in small letters.
func Small(c rules.Code) string { return strings.ToLower(Verdict(c)) }

// Does is a verdict as a verb after "it".
func Does(c rules.Code) string { return DoesLoudly(c, rules.Code.String) }

// DoesLoudly is Does with the word as shown makes it.
func DoesLoudly(c rules.Code, shown func(rules.Code) string) string {
	switch c {
	case rules.Stops, rules.Suits:
		return shown(c)
	case rules.Unjudged:
		return "is not judged"
	}
	return "is " + shown(c)
}
