package plan

import (
	"cmp"
	"math"
)

// plan chooses run-downs and turns.
func (st *Study) plan() {
	repeats, will := cmp.Or(st.Options.Repeats, UsualRepeats), st.wanted()
	if will != nil {
		st.Needed = st.fewest(will)
		if st.Reached() {
			repeats = st.least()
		} else {
			will = nil
		}
	}
	plans := st.sizes(repeats)
	if will == nil {
		will = near(plans)
	}
	for i := range plans {
		if st.Plan = plans[i]; will(&plans[i]) {
			break
		}
	}
	all := make([]int, len(st.design.slope))
	for i := range all {
		all[i] = i
	}
	st.Whole = st.promise(all, repeats)
}

// least are the run-downs that are needed or, for an error, as many as show how run-downs
// differ, where so many may be made: fewer reach it, and could not tell that they do.
func (st *Study) least() int {
	if st.For == nil {
		return st.Needed
	}
	return max(st.Needed, min(UsualRepeats, cmp.Or(st.Options.Repeats, UsualRepeats)))
}

// Reached tells whether there is a plan for the error or the power asked for, in as many
// run-downs as may be made.
func (st *Study) Reached() bool {
	most := cmp.Or(st.Options.Repeats, MostRepeats)
	return st.Needed > 0 && st.Needed <= most
}

// wanted tells whether a plan does what was asked for; nil where nothing was.
func (st *Study) wanted() func(*Plan) bool {
	o := &st.Options
	switch {
	case !math.IsNaN(o.Error):
		return func(p *Plan) bool { return p.StandardError <= o.Error*math.Abs(st.Value) }
	case !math.IsNaN(o.Power):
		return func(p *Plan) bool { return p.Power >= o.Power }
	}
	return nil
}

// near tells whether a plan is nearly as good as the best of some.
func near(plans []Plan) func(*Plan) bool {
	least := math.Inf(1)
	for i := range plans {
		least = math.Min(least, plans[i].StandardError)
	}
	return func(p *Plan) bool { return p.StandardError <= (1+Near)*least }
}

// sizes are the best plans by the number of turns, as far as the options let them.
func (st *Study) sizes(repeats int) []Plan {
	var list []Plan
	for _, turns := range st.design.best(repeats) {
		if n := st.Options.Turns; len(turns) > 0 && (n == 0 || n == len(turns)) {
			list = append(list, st.promise(turns, repeats))
		}
	}
	return list
}

// fewest are the fewest run-downs with which a plan will do; 0 where none will. What will do
// with some will with more.
func (st *Study) fewest(will func(*Plan) bool) int {
	does := func(repeats int) bool {
		for _, p := range st.sizes(repeats) {
			if will(&p) {
				return true
			}
		}
		return false
	}
	if !does(MostRepeats) {
		return 0
	}
	lo, hi := 0, MostRepeats // too few, and enough
	for try := 1; hi-lo > 1; {
		if does(try) {
			hi = try
		} else {
			lo = try
		}
		if try *= 2; try >= hi { // few are enough more often than many
			try = (lo + hi) / 2
		}
	}
	return hi
}
