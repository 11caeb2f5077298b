package assign

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

type number = text.Number

type pairJSON struct {
	Spring      string  `json:"spring"`
	Train       string  `json:"train"`
	ReadIn      string  `json:"read_in"`
	Carried     bool    `json:"carried_over"`
	Mean        number  `json:"mean_nm"`
	Min         number  `json:"min_nm"`
	ReserveMin  number  `json:"reserve_min"`
	ReserveMean number  `json:"reserve_mean"`
	Unevenness  number  `json:"unevenness"`
	TurnsLost   number  `json:"turns_lost"`
	Verdict     *string `json:"verdict"`
	Sure        bool    `json:"sure"`
	Off         number  `json:"off_middle"`
	Why         *string `json:"not_carried_over"`
}

type choiceJSON struct {
	Spring string `json:"spring"`
	Train  string `json:"train"`
}

// JSON writes the machine-readable study.
func JSON(w io.Writer, st *Study) error {
	doc := struct {
		Title    string       `json:"title"`
		Pairs    []pairJSON   `json:"pairs"`
		Best     []choiceJSON `json:"best"`
		Next     []choiceJSON `json:"next"`
		NearTie  bool         `json:"near_tie"`
		Notes    []string     `json:"notes"`
		Cautions []string     `json:"cautions"`
	}{Title: st.Title, Pairs: []pairJSON{}, Best: listed(st.Best), Next: listed(st.Next), NearTie: st.NearTie, Notes: append([]string{}, st.Notes()...), Cautions: []string{st.Caution}}
	for i := range st.Pairs {
		p := &st.Pairs[i]
		j := pairJSON{Spring: p.Spring, Train: p.Train, ReadIn: p.ReadIn, Carried: p.Carried, Mean: number(p.Mean), Min: number(p.Min),
			ReserveMin: number(p.ReserveMin), ReserveMean: number(p.ReserveMean), Unevenness: number(p.Unevenness), TurnsLost: number(p.TurnsLost),
			Verdict: text.Code(p.Verdict), Sure: p.Sure, Off: number(p.Off)}
		if p.Why != "" {
			j.Why = &p.Why
		}
		doc.Pairs = append(doc.Pairs, j)
	}
	return text.JSON(w, doc)
}

func listed(list []Choice) []choiceJSON {
	all := make([]choiceJSON, len(list))
	for i, c := range list {
		all[i] = choiceJSON(c)
	}
	return all
}

// CSV writes the pairs, comma-separated with a header (RFC 4180).
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"spring", "train", "read_in", "carried_over", "mean_nm", "min_nm", "reserve_mean", "reserve_min", "unevenness", "verdict", "sure", "best"}}
	for i := range st.Pairs {
		p := &st.Pairs[i]
		lines = append(lines, []string{p.Spring, p.Train, p.ReadIn, fmt.Sprint(p.Carried), text.Cell(p.Mean), text.Cell(p.Min), text.Cell(p.ReserveMean), text.Cell(p.ReserveMin),
			text.Cell(p.Unevenness), p.Verdict.String(), fmt.Sprint(p.Sure), fmt.Sprint(slices.Contains(st.Best, Choice{p.Spring, p.Train}))})
	}
	return out.WriteAll(lines)
}

// Text writes a study for people.
type Text struct{ Colour bool }

// Write writes it: the choice, what speaks against it, then every pair.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	if st.Title != "" {
		p.Wrap("", st.Title)
		p.Line("")
	}
	p.Line("The choice that suits best")
	var g text.Grid
	for _, c := range st.Best {
		q := st.find(c)
		g.Row("  spring "+c.Spring, "to the "+c.Train+" train:", p.Verdict(q.Verdict), fmt.Sprintf("reserve mean %s, least %s", words.Two(q.ReserveMean), words.Two(q.ReserveMin)))
	}
	g.Write(p)
	for _, s := range st.Notes() {
		p.Wrap("  * note: ", s)
	}
	p.Line("")
	st.table(p)
	p.Line("")
	p.Wrap("Caution: ", "Barrels are moved with their springs let down. "+st.Caution)
	return p.Flush()
}

func (st *Study) find(c Choice) *Pair {
	for i := range st.Pairs {
		if p := &st.Pairs[i]; p.Spring == c.Spring && p.Train == c.Train {
			return p
		}
	}
	return nil
}

func (st *Study) table(p *text.Page) {
	var g text.Grid
	g.Row("  spring", "train", "read in", "mean", "least", "unevenness", "reserve", "reserve", "off the", "verdict")
	g.Row("", "", "", "N·m", "N·m", "%", "mean", "least", "middle, %", "")
	for i := range st.Pairs {
		q := &st.Pairs[i]
		mark := "  "
		if slices.Contains(st.Best, Choice{q.Spring, q.Train}) {
			mark = "> "
		}
		in := q.ReadIn
		if q.Carried {
			in += ", carried over"
		}
		verdict := q.Verdict.String()
		if !q.Sure {
			verdict += ", not sure"
		}
		if q.TurnsLost > 0 {
			verdict += "; binds, " + words.Figure(q.TurnsLost) + " turns lost"
		}
		off := words.Minus(fmt.Sprintf("%+.0f", 100*q.Off))
		if math.IsNaN(q.Off) || math.IsInf(q.Off, 0) {
			off = "–"
		}
		g.Row(mark+q.Spring, q.Train, in, words.Figure(q.Mean), words.Figure(q.Min), words.Share(q.Unevenness), words.Two(q.ReserveMean), words.Two(q.ReserveMin), off, verdict)
	}
	g.Right(3, 4, 5, 6, 7, 8)
	g.Write(p)
}

// Notes are what is worth knowing beside the choice, in plain words.
func (st *Study) Notes() []string {
	var notes []string
	if st.NearTie {
		notes = append(notes, "another choice is nearly as good: "+st.said(st.Next))
	} else if st.Next != nil {
		notes = append(notes, "the next best would be "+st.said(st.Next))
	}
	if st.Unsure {
		notes = append(notes, "a verdict marked as not sure changes within the 95 % interval of the readings, or with what the weights leave open: measure these again")
	}
	if n, m := len(st.Springs), len(st.Needs); n != m {
		notes = append(notes, fmt.Sprintf("%s and %s: some are left over", words.Count(n, "spring"), words.Count(m, "train")))
	}
	asRead, why := false, ""
	for i := range st.Pairs {
		p := &st.Pairs[i]
		asRead = asRead || !p.Carried && p.ReadIn != p.Train
		if why == "" && p.Why != "" {
			why = fmt.Sprintf("spring %s in the %s train: %s", p.Spring, p.Train, p.Why)
		}
	}
	switch {
	case why != "":
		notes = append(notes, "where readings could not be carried over they stand as they were read in another train; "+why)
	case asRead:
		notes = append(notes, "a spring read in another train stands as it was read there: its torque hangs on that train's fusee; with --scenario it is carried over to each train's own")
	case st.scenario:
		notes = append(notes, "readings are carried over to another train's fusee in the barrel of that train and with the set-up that the scenario gives it")
	}
	return notes
}

// said is a choice in words.
func (st *Study) said(list []Choice) string {
	words := make([]string, len(list))
	for i, c := range list {
		words[i] = fmt.Sprintf("%s to the %s train (%s)", c.Spring, c.Train, st.find(c).Verdict)
	}
	return strings.Join(words, ", ")
}
