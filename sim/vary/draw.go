package vary

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"runtime"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// BlockRuns is the number of draws that share a random stream. Changing it changes
// the figures of a seed.
const BlockRuns = 256

// Drawer draws inputs at random, each on its own, and runs a train down with them. The
// draws come in blocks, each from a stream of its own that depends on the seed and the
// block's number alone (ChaCha8, a counter mode cipher): whatever the number of cores,
// the same seed gives the same draws. A drawer is for one goroutine.
type Drawer struct {
	m      *Model
	spots  []spot
	of     []int // the input of each part
	places []float64
	x      []float64
	seed   [32]byte
	stream *rand.ChaCha8
	random *rand.Rand
}

// Draws makes a model of the train with the given number in which the inputs vary as
// they may have been misread, and with another cone, already cut, if one is given.
func Draws(s *scenario.Scenario, number int, hold Hold, cone *fusee.Cone, inputs []Input) (*Model, error) {
	var keys []string
	for i := range inputs {
		for k := range inputs[i].Parts {
			keys = append(keys, inputs[i].Parts[k].Quantity.Key)
		}
	}
	return newModel(s, number, hold, keys, given{cone: cone, reading: true})
}

// NewDrawer draws the inputs whose parts are the keys of a model.
func NewDrawer(m *Model, inputs []Input, seed int64) *Drawer {
	d := &Drawer{m: m}
	for i := range inputs {
		for _, p := range inputs[i].Parts {
			d.spots, d.of = append(d.spots, spotOf(&p)), append(d.of, i)
		}
	}
	d.places, d.x = make([]float64, len(d.spots)), make([]float64, len(d.spots))
	binary.LittleEndian.PutUint64(d.seed[:], uint64(seed))
	d.stream = rand.NewChaCha8(d.seed)
	d.random = rand.New(d.stream)
	return d
}

// Drawers are one for each core, at most one a block of so many draws, the first with the
// model itself.
func Drawers(m *Model, inputs []Input, seed int64, draws int) ([]*Drawer, error) {
	list := make([]*Drawer, max(1, min(runtime.GOMAXPROCS(0), (draws+BlockRuns-1)/BlockRuns)))
	for i := range list {
		own := m
		if i > 0 {
			var err error
			if own, err = m.Copy(); err != nil {
				return nil, err
			}
		}
		list[i] = NewDrawer(own, inputs, seed)
	}
	return list, nil
}

// Begin goes to the start of the block with the given number, from 0.
func (d *Drawer) Begin(block int) {
	binary.LittleEndian.PutUint64(d.seed[8:], uint64(block))
	d.stream.Seed(d.seed)
}

// Draw draws every part of every input: it gives their places, as
// scenario.ReadingError.At takes them, which hold until the next draw.
func (d *Drawer) Draw() []float64 {
	for i := range d.spots {
		if d.spots[i].even {
			d.places[i] = 2*d.random.Float64() - 1
		} else {
			d.places[i] = d.random.NormFloat64()
		}
	}
	return d.places
}

// spot is where a value with an error lies: about from, by so much for each unit of place.
type spot struct {
	value, from, by float64
	times, between  bool // by is of the logarithm; the value is not from
	even            bool
	lo, hi          float64 // that it does not leave
}

func spotOf(p *Part) spot {
	e := p.Error
	s := spot{value: p.Value, from: e.At(p.Value, 0), times: e.Times > 1, between: e.Hi > e.Lo, even: e.Even(), lo: p.Quantity.Lo, hi: p.Quantity.Hi}
	if s.by = e.At(p.Value, 1) - s.from; s.times {
		s.by = math.Log(e.Times) / 2
	}
	return s
}

// at is the value at a place, the error taken as a share of itself: with none of it the
// value as it is, also where what is likely does not lie evenly about it.
func (s *spot) at(place, share float64) float64 {
	x := s.from + place*share*s.by
	switch {
	case s.times:
		x = s.from * math.Exp(place*share*s.by)
	case s.between:
		x = s.value + share*(s.from+place*s.by-s.value)
	}
	return min(max(x, s.lo), s.hi)
}

// Run runs the train down with the parts at the given places, and where scale is not nil
// with the error of each input taken as that share of itself. What cannot be is taken at
// the end of what can: no value leaves the range of its quantity. Errors and result are those of
// Model.Run.
func (d *Drawer) Run(places, scale []float64) (*sim.Result, error) {
	d.put(places, scale)
	return d.m.run(d.x, true)
}

// At are the values of the parts at the given places, in their units. They hold until the
// next call of At or Run.
func (d *Drawer) At(places []float64) []float64 {
	d.put(places, nil)
	return d.x
}

func (d *Drawer) put(places, scale []float64) {
	for i := range d.spots {
		share := 1.0
		if scale != nil {
			share = scale[d.of[i]]
		}
		d.x[i] = d.spots[i].at(places[i], share)
	}
}
