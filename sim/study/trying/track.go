package trying

import (
	"context"

	"evenpull/sim/rules"
	"evenpull/sim/study/setup"
	"evenpull/sim/vary"
)

// Stretch is a part of a rule on which the verdict is the same.
type Stretch struct {
	From, To float64 // in the unit of the input
	Code     rules.Code
	Fault    error // where the train cannot be built: why; Code is Unjudged then
}

const (
	trackPoints = 60
	trackHalves = 4 // of the distance of two points, until a border is told: to a two-thousandth of the rule
)

// track finds the verdicts along the rule of an input, the others standing where they are,
// and what follows following.
func (b *Bench) track(ctx context.Context, q *Ask, a *Answer, key string) ([]Stretch, error) {
	r := a.Rules[key]
	t, err := b.tracker(q, a, key)
	if err != nil {
		return nil, err
	}
	points := make([]Stretch, trackPoints)
	for i := range points {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		points[i] = t.at(r.From + (r.To-r.From)*float64(i)/(trackPoints-1))
	}
	list := points[:1]
	for _, p := range points[1:] {
		last := &list[len(list)-1]
		if alike(last, &p) {
			last.To = p.To
			continue
		}
		last.To = t.border(*last, p)
		p.From = last.To
		list = append(list, p)
	}
	return list, nil
}

// alike tells whether two points are of one stretch.
func alike(a, b *Stretch) bool { return a.Code == b.Code && (a.Fault == nil) == (b.Fault == nil) }

// tracker runs the trial with one value moved.
type tracker struct {
	m      *vary.Model
	even   bool
	clicks float64
}

func (b *Bench) tracker(q *Ask, a *Answer, key string) (*tracker, error) {
	keys := []string{key}
	even := q.follows(b) && key != b.Key(SetUp)
	if even {
		keys = append(keys, b.Key(SetUp))
	}
	m, err := vary.New(a.Trial, b.Number, q.Hold, keys...)
	if err != nil {
		return nil, err
	}
	m.DriveOnly()
	train, _ := m.Own()
	return &tracker{m, even, train.Clicks}, nil
}

// at judges the train with a value.
func (t *tracker) at(v float64) Stretch {
	if t.even {
		return t.evenAt(v)
	}
	s := Stretch{From: v, To: v}
	r, err := t.m.Run([]float64{v})
	if err != nil {
		s.Fault = err
		return s
	}
	s.Code = r.Verdict.Code
	return s
}

// evenAt is at with the set-up that is most even there.
func (t *tracker) evenAt(v float64) Stretch {
	s := Stretch{From: v, To: v}
	r, err := t.m.Run([]float64{v, 0})
	if err != nil {
		s.Fault = err
		return s
	}
	best := r.Digest // with none
	for i := range setup.Clicks(best.Spring.Available-best.Spring.Used, t.clicks) {
		if r, err := t.m.Run([]float64{v, float64(i) / t.clicks}); err == nil && setup.MoreEven(&r.Digest, &best) {
			best = r.Digest
		}
	}
	s.Code = best.Verdict.Code
	return s
}

// border halves the distance of two points that differ.
func (t *tracker) border(a, b Stretch) float64 {
	lo, hi := a.To, b.From
	for range trackHalves {
		middle := t.at((lo + hi) / 2)
		if alike(&a, &middle) {
			lo = middle.From
		} else {
			hi = middle.From
		}
	}
	return (lo + hi) / 2
}
