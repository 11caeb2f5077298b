// Package ask asks at the terminal for what a scenario and a bench book hold, one question at
// a time, and gives the texts of both. What a value is, its unit and its range are told by the
// table of inputs of package scenario, and every answer is judged by the readers of the two
// files; here stand the order of the bench, and why each answer matters.
package ask

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evenpull/sim/scenario"
)

// Options are how it is asked.
type Options struct {
	Caution string // printed before springs are handled
	Echo    bool   // answers are printed, as they are not where they come from a file
}

// Texts are those that were made.
type Texts struct {
	Scenario string
	Book     string // "" when nothing was measured
}

// ErrEnd is the fault of input that ended before all was answered.
var ErrEnd = errors.New("the answers ended")

// answer is what was answered to a question.
type answer struct {
	text    string
	rows    [][]value
	unknown bool
}

// session is what is known so far.
type session struct {
	Options
	in     *bufio.Scanner
	out    *bufio.Writer
	given  map[string]*answer // by question
	redo   string             // the question that is asked next although it was answered; "" for none
	warned string             // the part before which the caution was printed
	wrong  int                // answers that were not taken
	first  string             // what was said of the first of these
}

// Ask asks for everything and gives the texts, which read without a fault.
func Ask(in io.Reader, out io.Writer, o Options) (Texts, error) {
	s := &session{Options: o, in: bufio.NewScanner(io.LimitReader(in, scenario.MaxBytes)), out: bufio.NewWriter(out), given: map[string]*answer{}}
	s.in.Buffer(nil, scenario.MaxBytes)
	s.say("", intro)
	for {
		list := s.questions()
		i := s.next(list)
		if i < 0 {
			t, err := s.finished()
			if err == nil {
				return t, s.out.Flush()
			}
			s.refuse(err)
			continue
		}
		if err := s.ask(list, i); err != nil {
			return Texts{}, errors.Join(err, s.out.Flush())
		}
	}
}

const intro = `Answer in the unit that is named, or with any unit of its kind: 38, 3.8 cm, 1.5 in (once before all: "in: 1.5 0.8"). An empty line or ? says that it is not known; "back" goes one question back. Nothing is written before the end; Ctrl-C leaves without writing.`

func (s *session) questions() []question { return append(s.clock(), s.bench()...) }

// next is the number of the question to be asked: the one that is to be asked again, else the
// first without an answer; −1 when all have one.
func (s *session) next(list []question) int {
	i := slices.IndexFunc(list, func(q question) bool { return q.id == s.redo })
	if s.redo == "" || i < 0 {
		i = slices.IndexFunc(list, func(q question) bool { return s.given[q.id] == nil })
	}
	return i
}

// ask asks one question once.
func (s *session) ask(list []question, i int) error {
	q := &list[i]
	s.show(list, i)
	text, err := s.line()
	switch {
	case err != nil:
		return s.ended(q, err)
	case strings.EqualFold(text, "back") && i == 0:
		s.refuse(errors.New("this is the first question"))
		return nil
	case strings.EqualFold(text, "back"):
		s.redo = list[i-1].id
		return nil
	}
	a := &answer{text: text, unknown: text == "" || text == "?" || strings.EqualFold(apostrophes.Replace(text), "dont know")}
	switch {
	case text == "=" && s.given[q.id] != nil:
		a = s.given[q.id]
	case a.unknown && q.unknown() == "":
		s.refuse(fmt.Errorf("this has to be known: %s: %s", q.slots[0].words, q.slots[0].accepts))
		return nil
	case !a.unknown:
		if a.rows, err = q.read(text); err != nil {
			s.refuse(err)
			return nil
		}
	}
	s.redo = ""
	before := s.given[q.id]
	s.given[q.id] = a
	if owner, err := s.judge(false); err != nil {
		s.redo = owner
		if owner == q.id {
			s.given[q.id] = before
		}
		s.refuse(err)
	}
	return nil
}

var apostrophes = strings.NewReplacer("'", "", "’", "")

// line reads a line of what is answered; those that begin with # are passed over.
func (s *session) line() (string, error) {
	if err := s.out.Flush(); err != nil {
		return "", err
	}
	for s.in.Scan() {
		text := strings.TrimSpace(s.in.Text())
		if strings.HasPrefix(text, "#") {
			continue
		}
		if s.Echo {
			fmt.Fprintln(s.out, strings.Map(shown, text))
		}
		return text, nil
	}
	if err := s.in.Err(); err != nil {
		return "", err
	}
	return "", ErrEnd
}

// shown is a character of an answer as it is printed again.
func shown(r rune) rune {
	if unicode.IsPrint(r) {
		return r
	}
	return '·'
}

// ended says at which question, and what was not taken before.
func (s *session) ended(q *question, err error) error {
	fmt.Fprintln(s.out)
	if !errors.Is(err, ErrEnd) {
		return err
	}
	at := q.asks
	if at == "" {
		at = "the " + q.slots[0].words
	}
	err = fmt.Errorf("%w at a question of %s: %s", err, strings.ToLower(q.part[:1])+q.part[1:], at)
	if s.wrong > 0 {
		err = fmt.Errorf("%w (answers not taken before: %d, the first: %s)", err, s.wrong, s.first)
	}
	return err
}

// refuse says what was wrong.
func (s *session) refuse(err error) {
	if s.wrong++; s.wrong == 1 {
		s.first = err.Error()
	}
	s.say("! ", err.Error())
}

// show prints a question.
func (s *session) show(list []question, i int) {
	q := &list[i]
	after := 0
	for _, other := range list[i+1:] {
		if other.part == q.part {
			after++
		}
	}
	left := "the last question here"
	if after > 0 {
		left = fmt.Sprintf("%d more after this", after)
	}
	fmt.Fprintf(s.out, "\n%s (%s)\n", q.part, left)
	if q.spring && s.warned != q.part && s.Caution != "" {
		s.warned = q.part
		s.say("! ", s.Caution)
	}
	if q.asks != "" {
		s.say("  ", q.asks)
	}
	if !q.line {
		for _, t := range q.slots {
			says := t.says() + ": " + t.accepts
			if t.without != "" {
				says += "; if not known, " + t.without
			}
			s.say("  - ", says)
		}
	}
	if q.must() && q.unknown() != "" {
		s.say("  ", "If it is not known, "+q.unknown()+".")
	}
	s.say("  ", "Why: "+q.why+".")
	fmt.Fprintf(s.out, "  Such as: %s\n", q.such)
	if a := s.given[q.id]; a != nil {
		s.say("  ", `Before it was "`+a.text+`"; = leaves it.`)
	}
	fmt.Fprint(s.out, "> ")
}

// say prints a text with a mark before its first line and as much room before the others.
func (s *session) say(mark, text string) {
	for _, line := range folded(text, 80-len(mark)) {
		fmt.Fprintln(s.out, mark+line)
		mark = strings.Repeat(" ", len(mark))
	}
}

// folded breaks a text into lines of up to a number of characters, where its words allow.
func folded(text string, width int) (lines []string) {
	line, at := "", 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		if at > 0 && at+1+n > width {
			lines, line, at = append(lines, line), "", 0
		}
		if at > 0 {
			line, at = line+" ", at+1
		}
		line, at = line+word, at+n
	}
	return append(lines, line)
}
