package spread

// Bar is the Share of the runs with a value (in the unit of the result) From up To.
type Bar struct{ From, To, Share float64 }

// Bars is a histogram of n bars of one width from the least to the greatest
// value. A distribution of one value only is one bar.
func (d *Distribution) Bars(n int) []Bar {
	if d.n == 0 {
		return nil
	}
	if !(d.hi > d.lo) {
		return []Bar{{d.lo, d.hi, 1}}
	}
	bars := make([]Bar, n)
	width := (d.hi - d.lo) / float64(n)
	for i := range bars {
		bars[i].From, bars[i].To = d.lo+width*float64(i), d.lo+width*float64(i+1)
	}
	d.each(func(v float64, runs float64) {
		i := min(max(int((v-d.lo)/width), 0), n-1)
		bars[i].Share += runs / float64(d.n)
	})
	return bars
}

// Step is a point of the empirical distribution: the Share of the runs up to a Value (in
// the unit of the result).
type Step struct{ Value, Share float64 }

// Steps is the empirical distribution at about n values, evenly in share.
func (d *Distribution) Steps(n int) []Step {
	if d.n == 0 {
		return nil
	}
	steps := make([]Step, 0, n+1)
	for i := range n + 1 {
		p := float64(i) / float64(n)
		steps = append(steps, Step{d.Quantile(p), p})
	}
	return steps
}

// each gives the values, or the middles of the bins, with the runs they stand for.
func (d *Distribution) each(f func(v, runs float64)) {
	for _, v := range d.values {
		f(v, 1)
	}
	for i, c := range d.counts {
		if c > 0 {
			f(d.from+d.width*(float64(i)+0.5), float64(c))
		}
	}
	if d.under > 0 {
		f(d.lo, float64(d.under))
	}
	if d.over > 0 {
		f(d.hi, float64(d.over))
	}
}
