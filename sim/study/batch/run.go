package batch

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"

	"golang.org/x/sync/errgroup"
)

const (
	together = 256 // rows that a goroutine takes at once
	judged   = 4   // likewise, where each is drawn many times
	kept     = 32  // models that one keeps
)

// job is some rows on their way: done is closed when they are run.
type job struct {
	rows []Row
	done chan struct{}
}

// Run runs the rows that next gives, io.EOF after the last, and hands them on in their
// order. It fails with the errors of next and of emit, and of ctx; a row that cannot be
// run has its fault, and the others go on.
func (b *Batch) Run(ctx context.Context, next func() ([]string, error), emit func(*Row) error) error {
	cores := runtime.GOMAXPROCS(0)
	group, ctx := errgroup.WithContext(ctx)
	work, order := make(chan *job), make(chan *job, 2*cores)
	group.Go(func() error {
		defer close(order)
		defer close(work)
		return b.deal(ctx, next, work, order)
	})
	for range cores {
		group.Go(func() error {
			w := b.worker()
			for j := range work {
				for i := range j.rows {
					if err := w.run(ctx, &j.rows[i]); err != nil {
						return err
					}
				}
				close(j.done)
			}
			return nil
		})
	}
	group.Go(func() error { return collect(ctx, order, emit) })
	return group.Wait()
}

// together is how many rows a goroutine takes at once, so that all have some and none is long
// about them.
func (b *Batch) together() int {
	if b.o.Draws > 0 {
		return judged
	}
	return together
}

// deal reads rows and gives them out, some at a time.
func (b *Batch) deal(ctx context.Context, next func() ([]string, error), work, order chan<- *job) error {
	for {
		j := &job{done: make(chan struct{})}
		var err error
		for most := b.together(); len(j.rows) < most && err == nil; {
			var cells []string
			if cells, err = next(); err == nil {
				j.rows = append(j.rows, Row{Cells: cells})
			}
		}
		if len(j.rows) > 0 {
			for _, to := range []chan<- *job{order, work} {
				select {
				case to <- j:
				case <-ctx.Done():
					return ctx.Err()
				}
			}
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// collect hands the rows on as they came in.
func collect(ctx context.Context, order <-chan *job, emit func(*Row) error) error {
	for j := range order {
		select {
		case <-j.done:
		case <-ctx.Done():
			return ctx.Err()
		}
		for i := range j.rows {
			if err := emit(&j.rows[i]); err != nil {
				return err
			}
		}
	}
	return nil
}

// worker runs rows, for one goroutine.
type worker struct {
	b      *Batch
	models map[string]*model
	values []float64
}

// model is a train in which the numbers of the table vary, the texts as they are.
type model struct {
	*vary.Model
	train  string
	number int
	of     *scenario.Scenario
	err    error // why there is none
}

func (b *Batch) worker() *worker {
	return &worker{b: b, models: map[string]*model{}, values: make([]float64, len(b.keys))}
}

// run runs a row. It fails with the error of ctx alone.
func (w *worker) run(ctx context.Context, row *Row) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	m, err := w.model(row.Cells)
	row.Train = m.train
	if err == nil {
		err = w.put(m, row.Cells)
	}
	if err == nil {
		r, failed := m.Run(w.values)
		if err = failed; err == nil {
			row.Digest = r.Digest
		}
	}
	if err != nil {
		row.Fault = vary.Why(err)
		return nil
	}
	if w.b.o.Draws > 0 {
		return w.judge(ctx, m, row)
	}
	return nil
}

// model is that for the scenario and the texts of a row.
func (w *worker) model(cells []string) (*model, error) {
	b := w.b
	var sets []string
	for i, c := range b.columns {
		if c.key != "" && !c.numeric && strings.TrimSpace(cells[i]) != "" {
			sets = append(sets, c.key+"="+cells[i])
		}
	}
	name := ""
	if b.named >= 0 {
		name = strings.TrimSpace(cells[b.named])
	}
	id := strings.Join(append([]string{name}, sets...), "\x00")
	if m, ok := w.models[id]; ok {
		return m, m.err
	}
	if len(w.models) >= kept {
		clear(w.models)
	}
	m := &model{}
	m.err = m.make(b, name, sets)
	w.models[id] = m
	return m, m.err
}

func (m *model) make(b *Batch, name string, sets []string) (err error) {
	m.of = b.base
	if name != "" {
		if m.of, err = b.o.Open(name); err != nil {
			return err
		}
	}
	if len(sets) > 0 {
		m.of = m.of.Clone()
		if err := vary.Apply(m.of, sets); err != nil {
			return err
		}
	}
	if m.number, err = b.train(m.of); err != nil {
		return err
	}
	m.train = m.of.Trains[m.number].Name
	for _, key := range b.keys {
		if !vary.Concerns(m.of, m.number, key) {
			return fmt.Errorf("%s is no input of the %s train", key, m.train)
		}
	}
	if m.Model, err = vary.New(m.of, m.number, vary.Length, b.keys...); err != nil {
		return err
	}
	return nil
}

// put reads the numbers of a row; an empty cell is the scenario's own.
func (w *worker) put(m *model, cells []string) error {
	for i, c := range w.b.columns {
		if !c.numeric {
			continue
		}
		text := strings.TrimSpace(cells[i])
		if text == "" {
			w.values[c.number] = m.Nominal()[c.number]
			continue
		}
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			want := "want a number"
			if cure := document.Cure(text); cure != "" {
				want += ", " + cure
			}
			return fmt.Errorf("%s: found %.40q; %s", c.key, text, want)
		}
		w.values[c.number] = v
	}
	return nil
}

// judge tells how sure the verdict of a row is.
func (w *worker) judge(ctx context.Context, m *model, row *Row) error {
	s := m.of.Clone()
	var sets []string
	for i, key := range w.b.keys {
		if w.values[i] != m.Nominal()[i] {
			sets = append(sets, key+"="+strconv.FormatFloat(w.values[i], 'g', -1, 64))
		}
	}
	err := vary.Apply(s, sets)
	if err == nil {
		row.Digest.Verdict.Sureness, err = sure.Of(ctx, s, m.number, sure.Options{Draws: w.b.o.Draws, Seed: w.b.o.Seed, Brief: true})
	}
	if vary.Stopped(err) {
		return err
	}
	return nil // a row that was run can be judged
}
