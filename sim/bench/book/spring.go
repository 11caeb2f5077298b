package book

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// fuseeTurn is the range of a turn of the fusee.
var fuseeTurn = entry.Range(0, scenario.MaxTurns, "turns")

// spring reads one table of what was measured of a spring.
func (t *table) spring() Spring {
	t.Known(slices.Concat([]string{"label", "train", "solid_at_turn", "date", "by", "instrument"}, scenario.StripKeys())...)
	s := Spring{Noted: t.noted(), Label: t.Text("label", scenario.MaxName, true), SolidAtTurn: math.NaN()}
	if _, there := t.Tree["train"]; there {
		s.Train = t.name("train")
	}
	if _, there := t.Tree["solid_at_turn"]; there {
		s.SolidAtTurn = t.Number("solid_at_turn", fuseeTurn, math.NaN())
	}
	values, faults := scenario.ReadStrip(t.Tree)
	for _, f := range faults {
		t.Report(f.Key, f.Found, f.Want)
	}
	s.Strip = values
	return s
}

// readIn finds the train of a spring that does not say it, and asks where several may be
// meant, or the spring was read in none.
func (t *table) readIn(s *Spring, torques []Torque) {
	var trains, labels []string
	for i := range torques {
		if labels = append(labels, torques[i].Spring); torques[i].Spring == s.Label {
			trains = append(trains, torques[i].Train)
		}
	}
	switch {
	case s.Label == "" || slices.Contains(labels, ""):
	case len(trains) == 0 && len(labels) > 0:
		want := "want a [[torque]] with its readings, or the table left out"
		if near := scenario.Nearest(s.Label, labels); near != "" {
			want = "did you mean " + strconv.Quote(near) + "?"
		}
		t.Report("label", "found "+strconv.Quote(s.Label)+", which no [[torque]] has", want)
	case s.Train == "" && len(trains) == 1:
		s.Train = trains[0]
	case s.Train == "" && !math.IsNaN(s.SolidAtTurn):
		t.Report("train", "missing", "want the train in which it went solid at that turn")
	case s.Train != "" && len(trains) > 0 && !slices.Contains(trains, s.Train):
		t.Report("train", fmt.Sprintf("found %s, in which no [[torque]] has the spring %s", s.Train, s.Label), "want "+strings.Join(trains, " or "))
	}
}

// letter reads the head of the letter.
func (t *table) letter() (l Letter) {
	v, there := t.Tree["letter"]
	if !there {
		return l
	}
	head, ok := t.Sub("letter")
	if !ok {
		t.Wrong("letter", v, "want one table [letter] in single brackets")
		return l
	}
	in := table{Table: head, rd: t.rd}
	in.Known("workshop", "owner", "clock", "date")
	return Letter{Workshop: in.Text("workshop", scenario.MaxTitle, false), Owner: in.Text("owner", scenario.MaxTitle, false),
		Clock: in.Text("clock", scenario.MaxTitle, false), Date: in.date()}
}

// noted reads when, by whom and with what an entry was taken.
func (t *table) noted() Noted {
	return Noted{Date: t.date(), By: t.Text("by", scenario.MaxTitle, false), Instrument: t.Text("instrument", scenario.MaxTitle, false)}
}

// date reads a day, with quotes or without.
func (t *table) date() string {
	switch v := t.Tree["date"].(type) {
	case nil:
		return ""
	case time.Time:
		return v.Format(time.DateOnly)
	case string:
		if _, err := time.Parse(time.DateOnly, strings.TrimSpace(v)); err == nil {
			return strings.TrimSpace(v)
		}
	}
	t.Wrong("date", t.Tree["date"], `want year, month and day, such as "2024-05-31"`)
	return ""
}
