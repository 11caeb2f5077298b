// Package keyline tells on which line of a TOML text each key stands, which the
// parser does not.
//
// A place in a text is a spot: its keys and positions from 0, joined by dots,
// such as train.0.mesh.1.wheel. Keys that cannot stand bare are in quotes.
package keyline

import (
	"strconv"
	"strings"
)

// Bounds of the line index, so that no text can make it large or deep. A key
// beyond maxIndexed is put down to the nearest enclosing one.
const (
	maxIndexed = 1 << 16 // entries
	MaxNesting = 16      // parts of a key, and arrays within arrays
	MaxShown   = 40      // characters of a wrong key or value that a message shows
)

// Index gives the line, counted from 1, of each key of a TOML text by its spot.
type Index map[string]int

// Find gives the line of a spot or of the nearest enclosing one that has a
// line: 1 at the top of a file, 0 when there is no file.
func (ix Index) Find(spot string) int {
	if ix == nil {
		return 0
	}
	for spot != "" {
		if line, ok := ix[spot]; ok {
			return line
		}
		spot = Enclosing(spot)
	}
	return 1
}

// Read reads the keys of a valid TOML text; of an invalid one it makes
// what it can. It always ends and never fails. Deep is the first line with a
// key or value nested deeper than MaxNesting, or 0. The time taken grows with
// the length of the text.
func Read(src string) (at Index, deep int) {
	x := &indexer{src: strings.TrimPrefix(src, "\ufeff"), line: 1, at: Index{}, tables: map[string]int{}}
	for x.blank(); x.pos < len(x.src); x.blank() {
		before := x.pos
		if x.peek() == '[' {
			x.header()
		} else {
			x.keyValue(x.base, 0)
		}
		if x.pos == before {
			x.next()
		}
	}
	return x.at, x.deep
}

type indexer struct {
	src    string
	pos    int
	line   int
	base   string         // spot of the table that keys now belong to
	tables map[string]int // how many of each array of tables were opened
	at     Index
	deep   int // first line nested too deep
}

// peek gives the next byte, 0 at the end.
func (x *indexer) peek() byte {
	if x.pos < len(x.src) {
		return x.src[x.pos]
	}
	return 0
}

func (x *indexer) next() {
	if x.peek() == '\n' {
		x.line++
	}
	x.pos = min(x.pos+1, len(x.src))
}

// skip passes over all bytes up to one of the set, or the end.
func (x *indexer) skip(until string) {
	for x.pos < len(x.src) && strings.IndexByte(until, x.src[x.pos]) < 0 {
		x.next()
	}
}

func (x *indexer) space() {
	for c := x.peek(); c == ' ' || c == '\t'; c = x.peek() {
		x.next()
	}
}

// blank passes over white space, new lines and comments.
func (x *indexer) blank() {
	for x.pos < len(x.src) {
		switch x.peek() {
		case ' ', '\t', '\r', '\n':
			x.next()
		case '#':
			x.skip("\n")
		default:
			return
		}
	}
}

func (x *indexer) tooDeep() {
	if x.deep == 0 {
		x.deep = x.line
	}
}

// note puts down the present line for a spot, the first time it is met.
func (x *indexer) note(spot string) {
	if _, ok := x.at[spot]; !ok && len(x.at) < maxIndexed {
		x.at[spot] = x.line
	}
}

// inArray gives the spot of the last opened item if spot is an array of
// tables, and spot itself if not.
func (x *indexer) inArray(spot string) string {
	if n := x.tables[spot]; n > 0 {
		return spot + "." + strconv.Itoa(n-1)
	}
	return spot
}

// header reads [a.b] or [[a.b]] and makes it the base.
func (x *indexer) header() {
	x.next()
	array := x.peek() == '['
	if array {
		x.next()
	}
	parts := x.key()
	spot := ""
	for i, part := range parts {
		spot = Join(spot, part)
		x.note(spot)
		if i < len(parts)-1 {
			spot = x.inArray(spot)
		}
	}
	if array {
		x.tables[spot]++
		spot = x.inArray(spot)
	}
	delete(x.at, spot) // a table's own header counts, not an earlier mention
	x.note(spot)
	x.base = spot
	x.skip("\n")
}

// keyValue reads key = value of the table at base.
func (x *indexer) keyValue(base string, depth int) {
	for _, part := range x.key() {
		base = Join(base, part)
		x.note(base)
	}
	x.space()
	if x.peek() != '=' {
		return
	}
	x.next()
	x.space()
	x.value(base, depth)
}

// key reads a dotted key.
func (x *indexer) key() []string {
	var parts []string
	for {
		x.space()
		part := x.part()
		if len(parts) < MaxNesting {
			parts = append(parts, part)
		} else {
			x.tooDeep()
		}
		x.space()
		if x.peek() != '.' {
			return parts
		}
		x.next()
	}
}

// part reads one part of a dotted key, bare or in quotes.
func (x *indexer) part() string {
	start := x.pos
	if c := x.peek(); c == '"' || c == '\'' {
		x.text()
		return unquote(x.src[start:x.pos])
	}
	x.skip(" \t.=[]{},#\r\n\"'")
	return x.src[start:x.pos]
}

// goEscapes spells those escapes of TOML that Go has not, or means otherwise.
var goEscapes = strings.NewReplacer(`\\`, `\\`, `\e`, `\u001b`, `\x`, `\u00`)

func unquote(s string) string {
	if len(s) < 2 {
		return s
	}
	if s[0] == '"' {
		if u, err := strconv.Unquote(goEscapes.Replace(s)); err == nil {
			return u
		}
	}
	return s[1 : len(s)-1]
}
