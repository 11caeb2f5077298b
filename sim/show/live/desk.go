// Package live serves the trying bench: one page that answers as one drags. Everything in it
// comes from the program, and everything that is computed is computed here, by package trying:
// the page only draws. It answers whoever asks at the address that was printed, with its key,
// and nobody else.
package live

import (
	"context"
	"embed"
	"errors"
	"sync"

	"evenpull/sim"
	"evenpull/sim/bench/readings"
	"evenpull/sim/show/data"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/trying"
	"evenpull/sim/vary"
)

//go:embed page.html page.css page.js
var embedded embed.FS

// Desk is what is tried: a clock, and what goes with it.
type Desk struct {
	Title, Note, File string
	Trains            []*Train
	// Text is the scenario as its file has it, from which a trial is kept.
	Text string
	// Origin is that of what is tried; what is changed on the page comes to it.
	Origin data.Origin
	// Keep writes a new file, whole or not at all, and never over another.
	Keep func(ctx context.Context, name string, text string) error
}

// Train is one train on the bench.
type Train struct {
	*trying.Bench
	Name, Kind string
	Spring     string             // of the bench book, that is in the train; "" for none
	Readings   []readings.Reading // of it, running down

	notches []notch                       // strips of the dealer's list, by thickness
	offered func() (*choose.Study, error) // these strips, judged once; nil without a list
}

// NewTrain is a train without anything beside it.
func NewTrain(b *trying.Bench) *Train {
	t := &b.Found.Trains[b.Number]
	return &Train{Bench: b, Name: t.Name, Kind: t.Kind}
}

// Offer puts the strips of a dealer's list on the rules. They are judged when the page first
// asks.
func (t *Train) Offer(list *stock.Stock, judge func() (*choose.Study, error)) {
	for _, sp := range list.Springs {
		t.notches = append(t.notches, notch{sp.ThicknessMM, sp.Label})
	}
	t.offered = sync.OnceValues(judge)
}

// notch is a strip on the rule of the thickness.
type notch struct {
	At    float64 `json:"at"`
	Words string  `json:"words"`
}

// train is that of a name; "" the first.
func (d *Desk) train(name string) (*Train, error) {
	if name == "" {
		return d.Trains[0], nil
	}
	for _, t := range d.Trains {
		if t.Name == name {
			return t, nil
		}
	}
	return nil, errors.New("there is no such train")
}

// always are the inputs that have a rule from the start.
func (t *Train) always() []string {
	return []string{t.Key(trying.Thickness), t.Key(trying.Width), t.Key(trying.Length), t.Key(trying.SetUp)}
}

// start is what does not change while one drags.
type start struct {
	Title    string       `json:"title"`
	Note     string       `json:"note"`
	File     string       `json:"file"`
	Cautions []string     `json:"cautions"`
	Listed   bool         `json:"listed"` // there is a dealer's list to ask for
	Trains   []startTrain `json:"trains"`
}

type startTrain struct {
	Name     string    `json:"name"`
	Kind     string    `json:"kind"`
	Rules    []rule    `json:"rules"`
	Inputs   []input   `json:"inputs"`
	Readings []reading `json:"readings"`
	Found    *answer   `json:"found"`
}

type input struct {
	Key   string `json:"key"`
	Words string `json:"words"`
	Unit  string `json:"unit"`
}

type reading struct {
	Spring    string `json:"spring"`
	FuseeTurn number `json:"fusee_turn"`
	Torque    number `json:"torque_nm"`
	HalfWidth number `json:"half_width_nm"`
}

// strip is one of the dealer's list, and what it takes to try it.
type strip struct {
	Label string            `json:"label"`
	Says  string            `json:"says"`
	Size  string            `json:"size"`
	Done  string            `json:"done"` // how it is fitted
	Fits  bool              `json:"fits"`
	Order string            `json:"order"`
	Set   map[string]number `json:"set"`
}

// start gathers it, each train as it was found.
func (d *Desk) start(ctx context.Context) (*start, error) {
	s := &start{Title: d.Title, Note: d.Note, File: d.File}
	clock := sim.Clock{}
	for _, t := range d.Trains {
		q := request{Train: t.Name, Rules: t.always(), Brief: true}
		a, err := d.try(ctx, t, &q)
		if err != nil {
			return nil, err
		}
		s.Listed = s.Listed || t.offered != nil
		if r := a.of.Result(); r != nil {
			clock.Trains = append(clock.Trains, *r)
		}
		st := startTrain{Name: t.Name, Kind: t.Kind, Found: a, Inputs: t.inputs(), Readings: []reading{}}
		for _, key := range t.always() {
			st.Rules = append(st.Rules, a.Rules[key])
		}
		for i := range t.Readings {
			r := &t.Readings[i]
			st.Readings = append(st.Readings, reading{t.Spring, number(r.FuseeTurn), number(r.Mean), number(r.HalfWidth)})
		}
		s.Trains = append(s.Trains, st)
	}
	s.Cautions = words.Cautions(&clock)
	return s, nil
}

// inputs are all others of the train, which may get a rule.
func (t *Train) inputs() []input {
	list := []input{}
	for _, q := range t.Others() {
		list = append(list, input{q.Key, words.Input(q.Words, t.Name), q.Unit})
	}
	return list
}

// offer is what a dealer's list has for a train.
type offer struct {
	Stock   []strip `json:"stock"`
	NoStock string  `json:"no_stock"` // why it offers nothing
}

// list is that for every train.
func (d *Desk) list() map[string]offer {
	all := map[string]offer{}
	for _, t := range d.Trains {
		if t.offered != nil {
			stock, none := t.strips()
			all[t.Name] = offer{stock, none}
		}
	}
	return all
}

// strips are those of the dealer's list, the best first, and why there are none.
func (t *Train) strips() (list []strip, none string) {
	list = []strip{}
	st, err := t.offered()
	if err != nil {
		return list, words.Capital(vary.Why(err)) + "."
	}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		s := strip{Label: c.Label, Size: words.ChooseDimensions(c), Fits: c.Fits(), Set: map[string]number{}}
		if !s.Fits {
			s.Says = words.ChooseRefused(st, c)
			list = append(list, s)
			continue
		}
		s.Says, s.Done, s.Order = words.Judged(&c.Digest, words.Verdict), words.TryingStrip(c), words.ChooseOrder(c)
		for key, v := range t.Strip(c) {
			s.Set[key] = number(v)
		}
		list = append(list, s)
	}
	return list, ""
}
