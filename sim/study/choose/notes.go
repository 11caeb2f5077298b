package choose

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"
)

// rubs is the end shake (mm) below which a spring rubs on the caps of the barrel, as
// for the end float of a run (common practice, no source).
const rubs = 0.2

// notes tell what is odd about what was asked for.
func (st *Study) notes() {
	st.Notes = []string{}
	if note := st.outside(); note != "" {
		st.Notes = append(st.Notes, note)
	}
	if st.EndShake < rubs {
		st.Notes = append(st.Notes, fmt.Sprintf("an end shake of %s mm is less than %s mm: a spring that fills what is left will rub on the caps of the barrel; about 1 mm is wanted (common practice, no source)", plain(st.EndShake), plain(rubs)))
	}
}

// noteSetUp tells when the present spring would do, set up otherwise.
func (st *Study) noteSetUp(s *scenario.Scenario, number int) error {
	best, err := setup.Run(context.Background(), s, number)
	switch {
	case errors.Is(err, setup.ErrNoRoom):
		return nil
	case err == nil && best.Cures():
		st.Notes = append(st.Notes, "before a spring is ordered, try the present one with another set-up, which costs nothing: "+best.Words())
	}
	return err
}

// outside tells that the target is none that suits; "" when it is.
func (st *Study) outside() string {
	t, b := &st.Target, st.Train.Bands
	liked, basis := st.Train.Liked()
	if basis == rules.ByNothing {
		if t.Reserve >= b.Thin && t.Reserve <= b.Suits {
			return ""
		}
		return fmt.Sprintf("the reserve aimed at, %s, lies outside the band that suits, %s to %s: %s", words.Figure(t.Reserve), words.Figure(b.Thin), words.Figure(b.Suits), missed(t.Reserve < b.Thin))
	}
	if t.Mean >= liked.Lo && t.Mean <= liked.Hi {
		return ""
	}
	return fmt.Sprintf("the mean aimed at, %s N·m, lies outside the torques that suit, %s to %s N·m: %s", words.Figure(t.Mean), words.Figure(liked.Lo), words.Figure(liked.Hi), missed(t.Mean < liked.Lo))
}

// missed says what comes of a target below or above what suits.
func missed(below bool) string {
	if below {
		return "a spring that meets it is too weak"
	}
	return "a spring that meets it is too strong"
}

// cautions are those of a change of springs.
func (st *Study) cautions() {
	who, stored := "the present spring", st.Present.Stored
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Refused == "" && c.Fitted && c.Stored > stored {
			who, stored = "the strongest of these springs, "+c.Label+",", c.Stored
		}
	}
	st.Cautions = []string{
		strings.Replace(words.Caution(stored), "this spring", who, 1),
		"Line, gut or chain carries the whole pull of the spring: slacken it only once the spring is fully let down.",
		"The spring that was found may be part of the clock's history: keep it, labelled, with the clock, and change nothing else on a historic part that cannot be undone; ask a conservator where in doubt.",
	}
}
