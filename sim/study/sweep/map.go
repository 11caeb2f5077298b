package sweep

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/vary"
)

// brief is what is kept of each point of a map, of which there may be so many that their
// digests would fill the memory.
type brief struct {
	result   float64
	deciding [4]float64
	code     rules.Code
	faults   sim.Faults
}

// briefly is a digest in brief.
func (st *Study) briefly(d *sim.Digest) brief {
	return brief{st.Of.Of(d), deciding(d), d.Verdict.Code, d.Faults}
}

// again runs the points of a map again, one at a time.
type again struct {
	m *vary.Model
	p *Point // that was run last
	d sim.Digest
}

func (a *again) run(p *Point) *sim.Digest {
	if a.p != p {
		var same Point
		a.p, a.d = p, *same.at(a.m, p.Value, p.Value2) // it was built before
	}
	return &a.d
}

// Has tells whether a train that can be built has a fault.
func (p *Point) Has(f sim.Fault) bool {
	_, faults := p.judged()
	return p.Built() && faults.Has(f)
}

// judged are the verdict and the faults of a point that can be built.
func (p *Point) judged() (rules.Code, sim.Faults) {
	if p.again != nil {
		return p.brief.code, p.brief.faults
	}
	return p.Verdict.Code, p.Faults
}

// Deciding is the margin from the limit with the given number, in their order: past 0
// the verdict is one beyond that limit. A margin of the mean decides only where the
// least torque is enough: elsewhere the border is that of the least.
func (p *Point) Deciding(limit int) float64 {
	if p.again != nil {
		return p.brief.deciding[limit]
	}
	return deciding(p.Digest)[limit]
}

func deciding(d *sim.Digest) (all [4]float64) {
	margins := d.Margins()
	for limit := range all {
		all[limit] = margins[limit]
		for _, before := range margins[:limit] {
			if limit >= 2 && before < 0 {
				all[limit] = math.Min(all[limit], -math.Abs(all[limit]))
			}
		}
	}
	return all
}
