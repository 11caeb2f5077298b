package mainspring

// End is how the outer end of a strip is held on the wall of the barrel.
type End uint8

const (
	Hooked End = iota // on a hook, about which it is free to turn
	Braced            // riveted, or held along the wall by a brace
)
