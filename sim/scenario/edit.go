package scenario

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Change is a quantity to be written into the text of a scenario.
type Change struct {
	Key    string
	Value  float64
	Remark string // to stand behind it, one line; "" for none
}

// ErrEdit tells that a value cannot be written where it stands.
var ErrEdit = errors.New("this value cannot be written into the text by itself: change it by hand")

// Edit gives the text of a sound scenario with quantities changed and everything
// else, comments included, as it was. A value that was only assumed gets a line of
// its own in its table. Each change is proved by reading the text again: ErrEdit
// when another value would change with it.
func Edit(text string, changes []Change) (string, error) {
	for _, c := range changes {
		edited, err := written(text, c)
		if err != nil {
			return "", fmt.Errorf("%s: %w", c.Key, err)
		}
		text = edited
	}
	return text, nil
}

func written(text string, c Change) (string, error) {
	s, err := Read(strings.NewReader(text), "the scenario")
	if err != nil {
		return "", err
	}
	tg, err := s.resolve(c.Key, false)
	if err != nil {
		return "", err
	}
	value := strconv.FormatFloat(c.Value, 'g', -1, 64)
	if !strings.ContainsAny(value, ".e") {
		value += ".0"
	}
	lines := strings.Split(text, "\n")
	as, unlike := s.writtenAs(tg.fieldSpot())
	at, stands := s.lines[tg.fieldSpot()]
	if other, ok := s.lines[tg.spot(inPlaceOf(tg.f.key))]; !stands && ok && inPlaceOf(tg.f.key) != "" {
		return s.prove(c, lines, other, func(line string) []string {
			_, comment, _ := strings.Cut(line, "#")
			indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
			return []string{remarked(indent+tg.f.key+" = "+value, strings.TrimSpace(comment), c.Remark)}
		})
	}
	if !stands {
		key := tg.f.key + " = " + value
		return s.prove(c, lines, s.lines.Find(tg.spot("")), func(line string) []string { return []string{line + "\n" + remarked(key, "", c.Remark)} })
	}
	return s.prove(c, lines, at, func(line string) []string {
		if unlike { // a value in the unit of the format stands under its key
			line = strings.Replace(line, as, tg.f.key, 1)
		}
		return replaced(line, value, c.Remark)
	})
}

// inPlaceOf is what was counted of a spring in place of the value that a KEY states.
func inPlaceOf(key string) string {
	return map[string]string{"yield_mpa": "free_coils", "packing": "solid_turns"}[key]
}

// numberToken is a TOML number.
var numberToken = regexp.MustCompile(`[-+]?[0-9][0-9_]*(\.[0-9_]+)?([eE][-+]?[0-9]+)?`)

// replaced gives the line with each of its numbers, in turn, replaced.
func replaced(line, value, remark string) []string {
	var all []string
	for _, at := range numberToken.FindAllStringIndex(line, -1) {
		rest := line[at[1]:]
		comment := ""
		if i := strings.IndexByte(rest, '#'); i >= 0 {
			rest, comment = rest[:i], strings.TrimSpace(rest[i+1:])
		}
		all = append(all, remarked(line[:at[0]]+value+strings.TrimRight(rest, " \t\r"), comment, remark))
	}
	return all
}

// remarked puts a remark, and the comment that was there, behind a line.
func remarked(line, comment, remark string) string {
	switch {
	case remark == "" && comment == "":
		return line
	case comment == "":
		return line + "  # " + remark
	case remark == "":
		return line + "  # " + comment
	}
	return line + "  # " + remark + "; " + comment
}

// prove tries the alternatives for a line, counted from 1, and takes the first
// that changes the one quantity and nothing else.
func (s *Scenario) prove(c Change, lines []string, at int, alternatives func(string) []string) (string, error) {
	if at < 1 || at > len(lines) {
		return "", ErrEdit
	}
	was := lines[at-1]
	for _, line := range alternatives(was) {
		lines[at-1] = line
		text := strings.Join(lines, "\n")
		if edited, err := Read(strings.NewReader(text), "the scenario"); err == nil && s.differsBy(edited, c) {
			return text, nil
		}
	}
	lines[at-1] = was
	return "", ErrEdit
}

// differsBy tells whether two scenarios are alike but for one quantity, which has
// its new value, and what is derived from it.
func (s *Scenario) differsBy(edited *Scenario, c Change) bool {
	changed := s.Clone()
	if changed.SetNumber(c.Key, c.Value) != nil {
		return false
	}
	all, again := changed.Quantities(), edited.Quantities()
	if len(all) != len(again) {
		return false
	}
	for i := range all {
		a, err1 := changed.Value(all[i].Key)
		b, err2 := edited.Value(again[i].Key)
		if err1 != nil || err2 != nil || all[i].Key != again[i].Key || *a != *b {
			return false
		}
	}
	return true
}
