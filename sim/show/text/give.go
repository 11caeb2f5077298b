package text

import (
	"io"

	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
)

// Give writes which strip of one list goes to which train.
func Give(w io.Writer, all *choose.Shared, o Options) error {
	p := o.page(w)
	p.Wrap("", words.GiveHead(*all))
	p.Line("")
	for i := range *all {
		s := &(*all)[i]
		p.Wrap("- ", words.Give(s, p.Verdict))
		if order := words.GiveOrder(s); order != "" {
			p.Wrap("  order: ", order)
		}
		p.list("  ! ", words.ChooseNotes(s.Study))
	}
	p.Line("")
	p.Wrap("", "evenpull choose --train NAME tells of the whole list in a train, and why each spring stands where it does")
	return p.end(words.GiveCautions(*all)...)
}
