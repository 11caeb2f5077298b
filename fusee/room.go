package fusee

// Room is memory for profiles that are made one after the other: each holds until the next
// is made there. A nil Room has new memory for each.
type Room struct{ pieces []piece }

// take is room for n pieces, whatever is in it.
func (r *Room) take(n int) []piece {
	if r == nil {
		return make([]piece, n)
	}
	if cap(r.pieces) < n {
		r.pieces = make([]piece, n)
	}
	return r.pieces[:n]
}
