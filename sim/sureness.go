package sim

import "evenpull/sim/rules"

// Sureness is how sure a verdict is, no input being known exactly: the shares of seeded
// draws of the inputs within their errors. The zero value is that of a verdict for which
// nothing was drawn.
type Sureness struct {
	Draws   int        // how many were made; 0: none
	Same    float64    // share of them that end in the same verdict; one that cannot be built does not
	Suits   float64    // share that ends in suits
	Else    rules.Code // the verdict that comes up next; Unjudged: none
	ElseIn  float64    // its share
	Decides Decides
	Assumed [3]Assumed // the values that were assumed and move the torque over its limits most, the foremost first; Words "": none
}

// Assumed is a value of an input that was assumed.
type Assumed struct {
	Words, Unit string  // what it is, to follow "the", and the unit of Value
	Value       float64 // in the unit
}

// Verdicts counts draws by the verdict that they end in.
type Verdicts [rules.Overdriven + 1]int

// Sureness is that of a verdict among so many draws; those that are not counted could not
// be built.
func (v *Verdicts) Sureness(is rules.Code, draws int) Sureness {
	share := func(c rules.Code) float64 { return float64(v[c]) / float64(draws) }
	s := Sureness{Draws: draws, Same: share(is), Suits: share(rules.Suits)}
	for _, c := range rules.BestFirst() {
		if c != is && share(c) > s.ElseIn {
			s.Else, s.ElseIn = c, share(c)
		}
	}
	return s
}

// Rather tells whether the draws end in another verdict more often.
func (s *Sureness) Rather() bool { return s.ElseIn > s.Same }

// SureEnough is the sureness at which nothing needs to be known better.
const SureEnough = 0.95

// Decides tells which inputs are to be known better.
type Decides struct {
	Inputs [3]Decider // the one whose exact knowledge makes surest, then those that are needed with it; Key "": none
	Alone  float64    // the sureness were the first known exactly to be what it is given as
	All    float64    // were all of them; below SureEnough no three inputs are enough
}

// With are the keys of those that are needed with the first.
func (d *Decides) With() (keys []string) {
	for _, in := range d.Inputs[1:] {
		if in.Key != "" {
			keys = append(keys, in.Key)
		}
	}
	return keys
}

// Decider is an input that decides.
type Decider struct {
	Key, Words, Unit string  // of the input, what it is, to follow "the", and its unit
	Now              float64 // how far it may be off to both sides, in its unit; of Times a factor
	Within           float64 // how well it would have to be known for the sureness wanted, likewise; NaN unless it is alone enough
	Times            bool    // Now and Within are factors
	Assumed          bool    // nobody gave the value
}
