package cut

import (
	"evenpull/sim"
	"evenpull/sim/rules"
)

// Answer tells whether a cone suits a spring.
type Answer uint8

const (
	NotJudged    Answer = iota // no need is known
	AsItIs                     // nothing is wrong
	WithSetUp                  // with the set-up advised, nothing cut
	OtherSpring                // another spring comes first
	NewCone                    // with the cone that was found, of a train that had none
	answersCount = iota
)

// String is the answer as results write it.
func (a Answer) String() string {
	return [answersCount]string{"not judged", "as it is", "with another set-up", "no", "with a new cone"}[min(a, NewCone)]
}

// Suits answers whether the cone suits the spring, by the verdict that a run has.
func (st *Study) Suits() Answer {
	now := st.Now.Standing()
	switch {
	case st.None():
		return OtherSpring
	case st.Wanted != nil && now.Sound():
		return NewCone
	case now.Code == rules.Unjudged:
		return NotJudged
	case now.Sound():
		return AsItIs
	case st.First() == rules.AnotherSetUp:
		return WithSetUp
	}
	return OtherSpring
}

// Shown tells whether the cone to cut is to be shown: where cutting is advised, there is no
// other way to a cone, or it was asked for.
func (st *Study) Shown() bool { return st.FromBlank || st.Anyway || st.Advised() }

// First is what is to be done first for the train, as the search for a set-up has it.
func (st *Study) First() rules.Step {
	now, then := st.standings()
	return st.Now.Advice.First(&now, &then)
}

// SetUp is the train with nothing but its set-up changed: to the one advised, else
// to the least uneven. Nil where the fusee cannot be wound fully with any.
func (st *Study) SetUp() *sim.Digest {
	switch {
	case st.Search == nil:
		return nil
	case st.Search.Advised != nil:
		return st.Search.Advised
	}
	return &st.Search.Best
}

// standings are those as it is and with another set-up; where none can be had the
// present one is the only one.
func (st *Study) standings() (now, setUp rules.Standing) {
	now = st.Now.Standing()
	if d := st.SetUp(); d != nil {
		return now, d.Standing()
	}
	return now, now
}

// Finding is what the rules say of the cone to cut. Nothing comes off the present
// cone where a new one is made.
func (st *Study) Finding() rules.Finding {
	if st.Nothing {
		return rules.Finding{Rule: rules.NothingFirst}
	}
	return st.finding(&st.After)
}

func (st *Study) finding(w *Way) rules.Finding {
	now, setUp := st.standings()
	after, off := w.Standing(), w.Share
	if st.FromBlank {
		off = 0
	}
	return st.Now.Advice.Cutting(&now, &setUp, &after, off)
}

// Advised tells whether the cone to cut is advised at all.
func (st *Study) Advised() bool { return st.Finding().Advised }
