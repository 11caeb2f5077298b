package live

import (
	"context"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strings"

	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/study/trying"
	"evenpull/sim/vary"
)

// run answers POST /run.
func (d *Desk) run(ctx context.Context, q *request) (*answer, error) {
	t, err := d.train(q.Train)
	if err != nil {
		return nil, err
	}
	return d.try(ctx, t, q)
}

type checked struct {
	Value number `json:"value"`
	Fault string `json:"fault"`
}

// typed is what stands in a number box.
type typed struct {
	Train string `json:"train"`
	Key   string `json:"key"`
	Text  string `json:"text"`
}

// check answers POST /check.
func (d *Desk) check(_ context.Context, q *typed) (*checked, error) {
	t, err := d.train(q.Train)
	if err != nil {
		return nil, err
	}
	v, err := t.Read(q.Key, q.Text)
	if err != nil {
		q, _ := t.Found.Quantity(q.Key)
		return &checked{Value: number(math.NaN()), Fault: words.Capital(t.called(&q)) + ": " + err.Error() + "."}, nil
	}
	return &checked{Value: number(v)}, nil
}

type ordered struct {
	Order string `json:"order"`
	Fault string `json:"fault"`
}

// order answers POST /order.
func (d *Desk) order(ctx context.Context, q *request) (*ordered, error) {
	q.Draws, q.Tracks, q.Brief = nil, []string{}, true
	a, err := d.run(ctx, q)
	if err != nil {
		return nil, err
	}
	if a.Fault != "" {
		return &ordered{Fault: a.Fault}, nil
	}
	line, not := words.TryingOrder(a.of.Result())
	return &ordered{line, not}, nil
}

type kept struct {
	Kept  string `json:"kept"`
	Says  string `json:"says"`
	Fault string `json:"fault"`
}

// fileName is what a trial may be kept as: a file in the folder that the program was started
// in, and no hidden one.
var fileName = regexp.MustCompile(`^[\pL\pN_][\pL\pN_ .-]{0,80}\.toml$`)

// keep answers POST /keep.
func (d *Desk) keep(ctx context.Context, q *request) (*kept, error) {
	if !strings.HasSuffix(q.Name, ".toml") {
		q.Name += ".toml"
	}
	if !fileName.MatchString(q.Name) || filepath.Base(q.Name) != q.Name {
		return &kept{Fault: "The name of a file is wanted, of letters, digits, spaces, dots and hyphens."}, nil
	}
	t, err := d.train(q.Train)
	if err != nil {
		return nil, err
	}
	q.Draws, q.Tracks, q.Brief = new(int), []string{}, true
	a, err := d.try(ctx, t, q)
	if err != nil {
		return nil, err
	}
	if a.Fault != "" {
		return &kept{Fault: a.Fault}, nil
	}
	text, err := d.text(t, a.of)
	if err == nil {
		err = d.Keep(ctx, q.Name, text)
	}
	if err != nil {
		return &kept{Fault: err.Error() + "."}, nil
	}
	return &kept{Kept: q.Name, Says: fmt.Sprintf("Kept as %s. To run it: evenpull run %s", q.Name, quoted(q.Name))}, nil
}

func quoted(name string) string {
	if strings.Contains(name, " ") {
		return `"` + name + `"`
	}
	return name
}

var errKeep = errors.New("this trial cannot be written into the scenario line by line: what was counted or timed there tells something else of it; change the file by hand")

// text is the scenario's own with what the trial has otherwise, by hand or by what a bench
// book says of the train, which must come to the same.
func (d *Desk) text(t *Train, a *trying.Answer) (string, error) {
	original, err := scenario.Read(strings.NewReader(d.Text), d.File)
	if err != nil {
		return "", err
	}
	var changes []scenario.Change
	for _, q := range a.Trial.Quantities() {
		now, err := a.Trial.Value(q.Key)
		if err != nil || !q.Given || !vary.Concerns(a.Trial, t.Number, q.Key) || strings.HasPrefix(q.Key, "tolerance.") {
			continue // what nobody gave follows
		}
		c := scenario.Change{Key: q.Key, Value: *now, Remark: "by the bench book"}
		if _, moved := a.Values[q.Key]; moved {
			c.Remark = "tried"
		}
		if before, err := original.Value(q.Key); err == nil {
			if *before == *now {
				continue
			}
			c.Remark += fmt.Sprintf("; before %.6g", *before)
		}
		changes = append(changes, c)
	}
	text, err := scenario.Edit(d.Text, changes)
	if err != nil {
		return "", errKeep
	}
	return text, t.same(text, a)
}

// same makes sure that a text comes to what was tried.
func (t *Train) same(text string, a *trying.Answer) error {
	s, err := scenario.Read(strings.NewReader(text), "the scenario")
	if err != nil {
		return err
	}
	r, err := sim.RunTrain(s, t.Number, sim.Options{Step: sim.QuarterTurn})
	if err != nil {
		return err
	}
	if of := a.Result(); !near(r.Torque.Mean, of.Torque.Mean) || !near(r.Need.Used, of.Need.Used) || r.Verdict.Code != of.Verdict.Code {
		return errKeep
	}
	return nil
}

// near tells whether two figures are one but for rounding, or both not known.
func near(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*math.Abs(b) || math.IsNaN(a) && math.IsNaN(b)
}
