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
	const bare = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"
	if key != "" && strings.Trim(key, bare) == "" && len(key) <= MaxShown {
		return key
	}
	return strconv.Quote(Clip(key))
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
