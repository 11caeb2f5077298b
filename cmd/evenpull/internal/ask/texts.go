package ask

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/scenario"
)

// quoted writes a text as TOML.
func quoted(text string) string { return strconv.Quote(text) }

// head is what stands above both files.
func (s *session) head(p *page, what string) {
	what += ` as it was answered to "evenpull init --ask". Every key ends in its unit, and may end in any other of its kind. `
	for _, line := range folded(what+s.Caution, 88) {
		p.line("# " + line)
	}
	p.line("")
}

// scenario is the text of the scenario so far: of trains by their names alone, or, once one is
// begun, of those that are.
func (s *session) scenario() *page {
	p := &page{}
	s.head(p, "A clock,")
	list := s.clock()
	p.writer = "title"
	if a := s.given["title"]; a == nil || a.unknown {
		p.line(`title = "My clock"  # not known: a plain title stands for it`)
	} else {
		list[0].put(p, a)
	}
	trains := s.trains()
	begun := slices.DeleteFunc(slices.Clone(trains), func(train string) bool { n, _ := s.answered(train); return n == 0 })
	if len(begun) > 0 {
		trains = begun
	}
	for _, train := range trains {
		p.writer, p.table = "", ""
		p.line("")
		p.line("[[train]]")
		p.writer = "trains"
		p.line("name = " + quoted(train))
		if kind := s.kind(train); kind != "" {
			if s.given[train+".kind"] != nil {
				p.writer = train + ".kind"
			}
			p.line("kind = " + quoted(kind))
		}
		s.putAll(p, list[2:], train+".")
	}
	p.writer = ""
	return p
}

// answered is how many of the questions of a train have been, and how many there are.
func (s *session) answered(train string) (n, of int) {
	list := s.train(train)
	for _, q := range list {
		if s.given[train+"."+q.id] != nil {
			n++
		}
	}
	return n, len(list)
}

// putAll writes the answers to the questions whose names begin so; a group of which something
// is not known is left out.
func (s *session) putAll(p *page, list []question, begins string) {
	broken := map[string]*question{}
	for i := range list {
		q := &list[i]
		if a := s.given[q.id]; a != nil && a.unknown && q.group != "" && q.must() && strings.HasPrefix(q.id, begins) {
			broken[q.group] = q
		}
	}
	for i := range list {
		q := &list[i]
		a := s.given[q.id]
		if why := broken[q.group]; a == nil || !strings.HasPrefix(q.id, begins) || why != nil && why.id != q.id {
			continue
		}
		q.put(p, a)
	}
}

// book is the text of the bench book so far; "" in its page when nothing was measured.
func (s *session) book() *page {
	p := &page{}
	list := s.bench()
	some := false
	for _, q := range list {
		a := s.given[q.id]
		some = some || q.table != "" && a != nil && !a.unknown
	}
	if !some {
		return p
	}
	s.head(p, "What was measured at the bench,")
	title := "My clock"
	if a := s.given["title"]; a != nil && !a.unknown {
		title = a.text
	}
	p.writer = "title"
	p.line("title = " + quoted(title))
	for _, train := range s.trains() {
		p.table = ""
		s.putAll(p, list, "weights."+train+".")
	}
	s.sizes(p)
	for _, label := range s.labels() {
		p.table = ""
		s.putAll(p, list, "spring."+label+".")
	}
	p.writer = ""
	return p
}

// sizes writes the springs of which something is known that the scenario does not tell.
func (s *session) sizes(p *page) {
	a := s.given["springs"]
	if a == nil {
		return
	}
	p.writer = "springs"
	for _, row := range a.rows {
		label := unquoted(row[0])
		read, first := s.given["spring."+label+".readings"], s.given["spring."+label+".first"]
		if read == nil || read.unknown {
			continue
		}
		own := slices.Clone(row[1:])
		if first != nil && first.rows[0][0].key == solid && short(read.rows, s.number(s.readIn(label)+".turns")) {
			own = append(own, first.rows[0][0])
		}
		if own = slices.DeleteFunc(own, func(v value) bool { return v.key == "" }); len(own) == 0 {
			continue
		}
		p.line("")
		p.line("[[spring]]")
		p.line("label = " + row[0].literal)
		p.line("train = " + quoted(s.readIn(label)))
		for _, v := range own {
			p.line(v.key + " = " + v.literal)
		}
	}
}

// judge reads both texts as they are so far. Of what is wrong it gives the first that an
// answer has a part in, and the question that it answered. Whole: nothing may be missing.
func (s *session) judge(whole bool) (owner string, err error) {
	p := s.scenario()
	sc, err := scenario.Read(strings.NewReader(p.b.String()), "")
	if owner, err := blamed(p, err, whole); err != nil {
		return owner, err
	}
	known := slices.DeleteFunc(s.trains(), func(train string) bool { n, of := s.answered(train); return n < of })
	if sc != nil && len(known) > 0 {
		if _, err := sim.Compile(sc, known...); err != nil {
			return blamed(p, err, whole)
		}
	}
	if p = s.book(); p.b.Len() == 0 {
		return "", nil
	}
	b, err := book.Read(strings.NewReader(p.b.String()), "", nil)
	if err == nil && sc != nil && s.placed() {
		err = b.Beside(sc)
	}
	return blamed(p, err, whole)
}

// placed tells whether it is known of all readings where they stand, as far as it is asked.
func (s *session) placed() bool {
	return !slices.ContainsFunc(s.bench(), func(q question) bool { return strings.HasSuffix(q.id, ".first") && s.given[q.id] == nil })
}

// blamed finds the answer that is at fault. While answers are still to come, what is wrong with
// a table as a whole is no fault: the rest of it may come.
func blamed(p *page, err error, whole bool) (owner string, told error) {
	var faults scenario.Faults
	var apart *sim.Error
	switch {
	case err == nil:
		return "", nil
	case errors.As(err, &apart):
		faults = scenario.Faults{apart.Fault}
	case !errors.As(err, &faults):
		return "", err
	}
	for _, f := range faults {
		if whole {
			owner = p.below(f.Line)
		} else {
			owner = p.owner(f.Line)
		}
		if whole || owner != "" {
			return owner, fmt.Errorf("%s: %s", f.Key, strings.TrimSuffix(f.Found+"; "+f.Want, "; "))
		}
	}
	return "", nil
}

// finished gives the texts when all is answered, or what is wrong and the question to be asked
// again.
func (s *session) finished() (Texts, error) {
	owner, err := s.judge(true)
	if err != nil {
		s.redo = cmp.Or(owner, "trains")
		return Texts{}, err
	}
	return Texts{s.scenario().b.String(), s.book().b.String()}, nil
}
