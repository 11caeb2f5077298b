package assign

import (
	"context"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/found"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"golang.org/x/sync/errgroup"
)

const (
	heaviest = 20e6 // steps of the search for a choice that all draws together may take
	mostRuns = 4e4  // of all pairs in all draws
)

// Draw tells how sure the verdicts and the choice are: everything that is not known exactly
// of springs and trains is drawn, as many times as asked for, or fewer: with a scenario at most
// 200 draws, or those that 40 000 runs of all pairs allow where they are more. A draw has each spring alike in every train, and each train with every
// spring. It stops early when ctx ends, with its error.
func (st *Study) Draw(ctx context.Context, draws int, seed int64) error {
	fewer, more := min(len(st.Springs), len(st.Needs)), max(len(st.Springs), len(st.Needs))
	// Of many springs and trains the choice is made anew in some of the draws only.
	choices := min(draws, max(1, int(heaviest/float64(fewer*more<<fewer))))
	if st.Scenario {
		draws = min(draws, max(200, int(mostRuns)/len(st.Pairs)))
		choices = min(draws, choices)
	}
	all, err := st.sample(ctx, draws, seed, nil)
	if err != nil {
		return err
	}
	counts := make([]sim.Verdicts, len(st.Pairs))
	for i := range all {
		if o := &all[i]; !o.hopeless || o.code != 0 {
			counts[i%len(st.Pairs)][o.code]++
		}
	}
	for i := range st.Pairs {
		v := &st.Pairs[i].Verdict
		v.Sureness = counts[i].Sureness(v.Code, draws)
	}
	if st.home {
		return nil
	}
	st.Sure = st.sure(all, choices)
	if st.Scenario && st.Sure < sim.SureEnough {
		return st.settle(ctx, seed, all)
	}
	return nil
}

// sure is the share of some draws in which the best choice is the best.
func (st *Study) sure(all []outcome, choices int) float64 {
	same := 0
	for i := range choices {
		one := all[i*len(st.Pairs) : (i+1)*len(st.Pairs)]
		best, _, _ := st.cheapest(one, -1)
		if slices.Equal(st.hopeful(one, best), st.Best) {
			same++
		}
	}
	return float64(same) / float64(choices)
}

// known tells of a pair and a KEY of its scenario whether it is taken to be known.
type known func(pair int, key string) bool

// sample draws the outcomes of all pairs, those of one draw after the other. What is known
// is what it is given as.
func (st *Study) sample(ctx context.Context, draws int, seed int64, is known) ([]outcome, error) {
	all := make([]outcome, draws*len(st.Pairs))
	if !st.Scenario {
		return all, st.drawRead(ctx, all, seed)
	}
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for k := range st.Needs {
		group.Go(func() error { return st.drawTrain(ctx, k, all, seed, is) })
	}
	return all, group.Wait()
}

// player is a pair that is drawn.
type player struct {
	pair   int
	in     *found.Placed
	drawer *vary.Drawer
	normal []float64 // variates of the spring
	random *rand.Rand
	known  []bool // of each part of the spring
	from   []int  // of each other part: the place in what is drawn of the train, or isKnown
	errors []scenario.ReadingError
	places []float64
}

const isKnown = -1

// drawTrain draws every spring in one train.
func (st *Study) drawTrain(ctx context.Context, k int, all []outcome, seed int64, is known) error {
	drawn := map[string]int{} // keys
	var players []player
	for i := range st.Springs {
		at := i*len(st.Needs) + k
		if st.Pairs[at].in == nil {
			for from := at; from < len(all); from += len(st.Pairs) {
				all[from] = outcome{hopeless: true}
			}
			continue
		}
		p, err := st.player(at, st.Needs[k].Number, drawn, is)
		if err != nil {
			return err
		}
		p.random = rand.New(rand.NewPCG(uint64(seed), uint64(len(st.Needs)+i))) // alike in every train
		players = append(players, p)
	}
	random := rand.New(rand.NewPCG(uint64(seed), uint64(k)))
	u := make([]float64, len(drawn))
	for from := 0; from < len(all); from += len(st.Pairs) {
		if err := ctx.Err(); err != nil {
			return err
		}
		for i := range u {
			u[i] = random.Float64()
		}
		for i := range players {
			all[from+players[i].pair] = players[i].run(u)
		}
	}
	return nil
}

// player makes the model of a pair: the spring and what its readings tell of the train, as
// they leave it open together, and all else of the train, each on its own. A spring that
// goes to another train is set up anew: its set-up is known to a quarter of a click.
func (st *Study) player(at, number int, drawn map[string]int, is known) (player, error) {
	in := st.Pairs[at].in
	p := player{pair: at, in: in, normal: make([]float64, in.Parts())}
	inputs := slices.Clone(in.Inputs)
	together := map[string]bool{}
	for i := range inputs {
		together[inputs[i].Key] = true
		for k := range inputs[i].Parts {
			key := inputs[i].Parts[k].Quantity.Key
			together[key] = true
			p.known = append(p.known, is != nil && is(at, key))
		}
	}
	others, err := vary.Inputs(in.Nominal, number)
	if err != nil {
		return player{}, err
	}
	for _, input := range others {
		if together[input.Parts[0].Quantity.Key] || strings.HasPrefix(input.Key, st.Pairs[at].Train+".mainspring.") {
			continue
		}
		inputs = append(inputs, input)
		for k := range input.Parts {
			part := &input.Parts[k]
			key, from := part.Quantity.Key, isKnown
			if strings.HasSuffix(key, ".barrel.set_up_turns") && !input.Tolerated {
				part.Error.PlusMinus /= 4
			}
			if _, ok := drawn[key]; !ok { // also of what is known: all else is drawn as without it
				drawn[key] = len(drawn)
			}
			if is == nil || !is(at, key) {
				from = drawn[key]
			}
			p.from, p.errors = append(p.from, from), append(p.errors, part.Error)
		}
	}
	m, err := vary.Draws(in.Nominal, number, vary.Length, nil, inputs)
	if err != nil {
		return player{}, err
	}
	m.DriveOnly()
	p.drawer, p.places = vary.NewDrawer(m, inputs, 0), make([]float64, len(p.known)+len(p.from))
	return p, nil
}

// run is the outcome of one draw.
func (p *player) run(u []float64) outcome {
	for i := range p.normal {
		p.normal[i] = p.random.NormFloat64()
	}
	p.in.Draw(p.normal, p.places)
	for i, known := range p.known {
		if known {
			p.places[i] = p.in.Best()[i]
		}
	}
	others := p.places[len(p.known):]
	for i, from := range p.from {
		if others[i] = 0; from != isKnown {
			others[i] = p.errors[i].Place(u[from])
		}
	}
	r, err := p.drawer.Run(p.places, nil)
	if err != nil {
		return outcome{hopeless: true}
	}
	return outcomeOf(&r.Digest, r.Torque.Mean/r.Standard.Suiting().Center()-1)
}
