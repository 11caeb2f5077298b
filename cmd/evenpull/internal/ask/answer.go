package ask

import (
	"fmt"
	"slices"
	"strings"

	"evenpull/sim/scenario"
)

// slot is one value of an answer.
type slot struct {
	key     string   // under which it is written
	words   string   // what it is
	meaning string   // the same at length; "" for none
	accepts string   // what is taken, as "a number from 0.5 to 60 turns"
	without string   // what stands for it when it is not known; "" where it has to be known
	word    bool     // it is a word; else a number
	share   bool     // a number that may be given in percent
	list    bool     // as many numbers as there are
	other   []option // what else it may be
}

// says is what the slot is, as it is asked for.
func (s *slot) says() string {
	switch {
	case s.meaning == "":
		return s.words
	case strings.Contains(s.meaning, s.words):
		return s.meaning
	}
	return s.words + " (" + s.meaning + ")"
}

// option is a word that takes the place of a number, or stands beside it and gives it another
// key.
type option struct {
	word, key string
	literal   string // what is written; "": the number
}

// value is what was answered for a slot: a key with its value as TOML. The key is "" where
// it is not known.
type value struct {
	key, literal string
	v            float64 // of a number, in the unit of the slot's own key
	note         string  // what was answered, where that is not what is written
}

// answers reads what was answered in one row of slots or, where something parts them (a comma
// or a semicolon; a semicolon alone), in several. A unit and a colon before all of it hold for
// every number of its kind.
func answers(text string, slots []slot, parted string) (rows [][]value, err error) {
	unit := ""
	if head, tail, ok := strings.Cut(text, ":"); ok && slices.ContainsFunc(slots, func(s slot) bool { return s.measured(strings.TrimSpace(head)) }) {
		unit, text = strings.TrimSpace(head), tail
	}
	all, err := tokens(text)
	if err != nil {
		return nil, err
	}
	r := &row{unit: unit}
	for len(all) > 0 {
		end := slices.IndexFunc(all, func(t token) bool { return t.text == ";" || t.text == parted })
		if end < 0 {
			end = len(all)
		}
		item := slices.DeleteFunc(slices.Clone(all[:end]), token.between)
		all = all[min(end+1, len(all)):]
		if len(item) == 0 {
			continue
		}
		r.tokens, r.values = item, nil
		for i := range slots {
			for again := true; again; again = slots[i].list && len(r.tokens) > 0 {
				if err := r.take(&slots[i], slots[i+1:]); err != nil {
					return nil, err
				}
			}
		}
		if len(r.tokens) > 0 {
			return nil, fmt.Errorf("found %.60q after all that was asked; want %s", r.tokens[0].text, wanted(slots))
		}
		rows = append(rows, r.values)
	}
	switch {
	case len(rows) == 0:
		return nil, fmt.Errorf("found nothing; want %s", wanted(slots))
	case len(rows) > 1 && parted == "":
		return nil, fmt.Errorf("found several; want one: %s", wanted(slots))
	}
	return rows, r.oneUnit()
}

// wanted lists what is asked for.
func wanted(slots []slot) string {
	var all []string
	for i := range slots {
		all = append(all, slots[i].words)
	}
	return strings.Join(all, ", then ")
}

// row is one that is being read.
type row struct {
	tokens []token
	values []value
	unit   string // before all of the answer

	bare  []bare // the numbers without a unit
	other string // a number in another unit than its key's
	in    string // that unit
}

// bare is a number without a unit.
type bare struct {
	slot *slot
	text string
}

// next takes the next token away when it is one that is wanted.
func (r *row) next(is func(token) bool) (token, bool) {
	if len(r.tokens) == 0 || !is(r.tokens[0]) {
		return token{}, false
	}
	t := r.tokens[0]
	r.tokens = r.tokens[1:]
	return t, true
}

// take reads the value of a slot; after are those behind it.
func (r *row) take(s *slot, after []slot) error {
	if len(r.tokens) == 0 && s.without != "" {
		r.values = append(r.values, value{})
		return nil
	}
	if _, unknown := r.next(func(t token) bool { return t.text == "?" }); unknown {
		if s.without == "" {
			return fmt.Errorf("%s: found ?, and it has to be known; want %s", s.words, s.accepts)
		}
		r.values = append(r.values, value{})
		return nil
	}
	if len(r.tokens) == 0 {
		return fmt.Errorf("%s: found nothing; want %s", s.words, s.accepts)
	}
	o, named := s.option(r.tokens[0])
	if named {
		r.tokens = r.tokens[1:]
		if o.literal != "" {
			r.values = append(r.values, value{key: o.key, literal: o.literal})
			return nil
		}
	}
	if s.word {
		t, _ := r.next(func(token) bool { return true })
		r.values = append(r.values, value{key: s.key, literal: quoted(t.text)})
		return nil
	}
	t, ok := r.next(func(t token) bool { return t.number })
	if !ok {
		return s.noNumber(r.tokens)
	}
	v, err := r.number(s, o, named, t, after)
	r.values = append(r.values, v)
	return err
}

// option finds what else the slot may be by the word for it.
func (s *slot) option(t token) (option, bool) {
	for _, o := range s.other {
		if strings.EqualFold(o.word, t.text) {
			return o, true
		}
	}
	return option{}, false
}

// noNumber tells what was found in place of a number.
func (s *slot) noNumber(found []token) error {
	if len(found) == 0 {
		return fmt.Errorf("%s: found no number; want %s", s.words, s.accepts)
	}
	want := s.accepts
	if cure := scenario.Cure(found[0].text); cure != "" {
		want = "a number " + cure
	}
	return fmt.Errorf("%s: found %.60q; want %s", s.words, found[0].text, want)
}

// measured tells whether a word is a unit that the slot takes.
func (s *slot) measured(word string) bool {
	key, _ := scenario.Spelt(s.key, word)
	return key != "" && !s.word
}

// number is a number with the unit behind it; o is the option that was named before it.
func (r *row) number(s *slot, o option, named bool, t token, after []slot) (value, error) {
	val := value{key: s.key, v: t.v}
	if named {
		val.key = o.key
	}
	unit, given := r.next(func(u token) bool {
		o, is := s.option(u)
		if u.number || u.text == "?" || scenario.Cure(u.text) != "" || is && o.literal != "" {
			return false
		}
		return is && !named || s.measured(u.text) || s.share && u.text == "%" || len(after) == 0 || !after[0].takesWord(u)
	})
	other, is := s.option(unit)
	as, by := scenario.Spelt(val.key, unit.text)
	switch {
	case given && s.share && unit.text == "%":
		val.v, val.note = t.v/100, t.text+" %"
	case given && is && !named:
		val.key, val.note = other.key, t.text+" "+unit.text
	case given && as != "":
		val.key, val.v = as, t.v*by
	case given:
		return val, fmt.Errorf("found the unit %.60q; want %s", unit.text, s.units())
	case r.unit != "":
		if as, by := scenario.Spelt(val.key, r.unit); as != "" {
			val.key, val.v, given = as, t.v*by, true
		}
	}
	switch {
	case !given:
		r.bare = append(r.bare, bare{s, t.text})
	case as != "" && by != 1:
		r.other, r.in = t.text+" "+unit.text, unit.text
	}
	val.literal = typed(t)
	if s.share {
		val.literal = literal(val.v)
	}
	return val, nil
}

// takesWord tells whether the slot takes a word that is no number.
func (s *slot) takesWord(t token) bool {
	_, is := s.option(t)
	return s.word || is || len(s.other) > 0
}

// units are those that the slot takes.
func (s *slot) units() string {
	words := scenario.UnitWords(s.key)
	for _, o := range s.other {
		words = append(words, o.word)
	}
	if s.share {
		words = append(words, "%")
	}
	if len(words) == 0 {
		return "no unit: " + s.accepts
	}
	return strings.Join(words, ", ")
}

// oneUnit refuses a number without a unit beside one in another unit than is asked for: it
// may be meant in either.
func (r *row) oneUnit() error {
	for _, b := range r.bare {
		if b.slot.measured(r.in) {
			return fmt.Errorf("found %s without a unit beside %s; want the unit with each number, or once before all, as in: %s: 1.5 0.8", b.text, r.other, r.in)
		}
	}
	return nil
}
