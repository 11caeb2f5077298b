package keyline

import (
	"strconv"
	"strings"
)

// value passes over a value and notes what is inside arrays and inline tables.
func (x *indexer) value(spot string, depth int) {
	switch c := x.peek(); {
	case c == '"' || c == '\'':
		x.text()
	case (c == '[' || c == '{') && depth >= MaxNesting:
		x.tooDeep()
		x.nested()
	case c == '[':
		x.array(spot, depth+1)
	case c == '{':
		x.inline(spot, depth+1)
	case depth == 0:
		x.skip("#\n")
	default:
		x.skip(",]}#\n")
	}
}

// array passes over [ … ].
func (x *indexer) array(spot string, depth int) {
	i := 0
	x.members(']', func() {
		item := Join(spot, strconv.Itoa(i))
		x.note(item)
		x.value(item, depth)
		i++
	})
}

// inline passes over { … }.
func (x *indexer) inline(spot string, depth int) {
	x.members('}', func() { x.keyValue(spot, depth) })
}

// members passes over a bracketed value and calls member at each member.
func (x *indexer) members(end byte, member func()) {
	x.next()
	for x.pos < len(x.src) {
		x.blank()
		before := x.pos
		switch x.peek() {
		case end:
			x.next()
			return
		case ',':
			x.next()
		default:
			member()
		}
		if x.pos == before {
			x.next()
		}
	}
}

// nested passes over a bracketed value without looking at what it holds.
func (x *indexer) nested() {
	for open := 0; x.pos < len(x.src); {
		switch x.peek() {
		case '[', '{':
			open++
			x.next()
		case ']', '}':
			open--
			x.next()
		case '"', '\'':
			x.text()
		case '#':
			x.skip("\n")
		default:
			x.next()
		}
		if open <= 0 {
			return
		}
	}
}

// text passes over a string of any of the four kinds.
func (x *indexer) text() {
	q := x.peek()
	long := strings.Repeat(string(q), 3)
	if !strings.HasPrefix(x.src[x.pos:], long) {
		x.next()
		x.textEnd(q, string(q), true)
		return
	}
	x.pos += 3
	x.textEnd(q, long, false)
	for range 2 { // up to two quotes more belong to the text
		if x.peek() == q {
			x.next()
		}
	}
}

// textEnd passes over the rest of a string, up to and with its end.
func (x *indexer) textEnd(q byte, end string, oneLine bool) {
	for x.pos < len(x.src) {
		switch c := x.peek(); {
		case c == '\\' && q == '"':
			x.next()
			x.next()
		case c == '\n' && oneLine:
			return
		case strings.HasPrefix(x.src[x.pos:], end):
			x.pos += len(end)
			return
		default:
			x.next()
		}
	}
}
