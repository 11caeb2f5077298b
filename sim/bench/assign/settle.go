package assign

import (
	"context"
	"slices"
	"strings"
)

// Reading is one more reading, and how sure the choice would be with it.
type Reading struct {
	What   What
	Spring string  // that is to be read; "" for a weighing
	Train  string  // in which
	Sure   float64 // that the choice would be, were it known exactly
}

// What is to be read.
type What uint8

// What is to be read.
const (
	Nothing      What = iota // would make the choice surer
	Torque                   // of a spring in a train
	Weights                  // of a train, until it just runs
	TurnsToSolid             // of a spring in its barrel, from rest
)

var whats = [...]string{"", "torque", "weights", "solid_turns"}

// String is what is to be read, as results write it.
func (w What) String() string { return whats[min(int(w), len(whats)-1)] }

// Settled is the reading that would make the choice surer; nil where there is none.
func (st *Study) Settled() *Reading {
	if st.Settles.What == Nothing {
		return nil
	}
	return &st.Settles
}

// settleDraws are the draws for each reading that is thought of.
const settleDraws = 200

// settle finds the reading that would make the choice surest: what it tells is taken to be
// known, as it is given.
func (st *Study) settle(ctx context.Context, seed int64, all []outcome) error {
	draws := min(settleDraws, len(all)/len(st.Pairs))
	st.Settles = Reading{Sure: st.sure(all, draws)}
	for _, r := range st.thinkable() {
		known, err := st.sample(ctx, draws, seed, st.tells(r))
		if err != nil {
			return err
		}
		if r.Sure = st.sure(known, draws); r.Sure > st.Settles.Sure {
			st.Settles = r
		}
	}
	return nil
}

// thinkable are the readings of what is in the best choice and the next.
func (st *Study) thinkable() []Reading {
	var list []Reading
	for _, at := range slices.Concat(st.Best, st.Second) {
		p := &st.Pairs[at]
		for _, r := range []Reading{{What: Torque, Spring: p.Label, Train: p.Train}, {What: Weights, Train: p.Train}, {What: TurnsToSolid, Spring: p.Label, Train: p.ReadIn}} {
			if !slices.Contains(list, r) {
				list = append(list, r)
			}
		}
	}
	return list
}

// tells is what a reading makes known. Torque read in a train holds its line and fusee too.
func (st *Study) tells(r Reading) known {
	return func(pair int, key string) bool {
		p := &st.Pairs[pair]
		_, below, _ := strings.Cut(key, ".")
		table, of, _ := strings.Cut(below, ".")
		switch r.What {
		case Torque:
			return p.Label == r.Spring && p.Train == r.Train && (table == "mainspring" && of != "packing" || table == "line" || table == "fusee" || table == "barrel")
		case Weights:
			return p.Train == r.Train && table == "demand"
		case TurnsToSolid:
			return p.Label == r.Spring && of == "packing"
		}
		return false
	}
}
