package keyline

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Join appends a part to a spot.
func Join(spot, part string) string {
	if spot == "" {
		return Plain(part)
	}
	return spot + "." + Plain(part)
}

// Plain gives a key as it may stand bare, in quotes when it may not, and cut
// short when it is far longer than any key of the format.
func Plain(key string) string {
	if key != "" && len(key) <= MaxShown && !strings.ContainsFunc(key, notBare) {
		return key
	}
	return strconv.Quote(Clip(key))
}

// notBare tells whether a letter cannot stand in a bare key (TOML 1.0.0, keys).
func notBare(r rune) bool {
	return !('a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9' || r == '-' || r == '_')
}

// Enclosing cuts the last part off a spot; "" is the whole text.
func Enclosing(spot string) string {
	return spot[:max(0, strings.LastIndexByte(spot, '.'))]
}

// Clip cuts a long text short for a message.
func Clip(s string) string {
	if utf8.RuneCountInString(s) <= MaxShown {
		return s
	}
	return string([]rune(s)[:MaxShown]) + "…"
}
