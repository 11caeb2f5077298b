package measure

import "math"

// Set is the runs of readings of a spring one way, up or down.
type Set struct {
	N       int       // runs
	Level   float64   // N·m, mean torque over the turns; NaN when nothing was read
	Scatter float64   // N·m, standard deviation of one reading from turn to turn, clear of how its run differs as a whole; NaN when nothing tells
	Torque  []float64 // N·m at each turn, clear of that too; the plain mean where no reading is missing
	Along   []float64 // of each turn: 0 fully wound, 1 at the last turn read
}

// Run is how one run of readings departs from the mean of its set, the repeats of
// one spring in one train. Down and Up are one run when both ways were read equally
// often, more than once: the spring is wound and runs down in turn. Otherwise one of
// them is nil.
type Run struct {
	Down, Up *Departure
	Freedom  float64 // (J − 1)/J of a set of J runs, so that they add up to the degrees of freedom
}

// Departure is how a run departs, as shares of the mean torque of its set.
type Departure struct {
	Whole float64 // of the mean of the run
	along []float64
	share []float64
}

// At is the departure at a place on the way, 0 fully wound and 1 at the last turn
// read: that of the nearest turn, as a mean of neighbours would scatter less than a
// reading does.
func (d *Departure) At(along float64) float64 {
	nearest := 0
	for i, at := range d.along {
		if math.Abs(at-along) < math.Abs(d.along[nearest]-along) {
			nearest = i
		}
	}
	return d.share[nearest]
}

func setOf(g *grid) Set {
	return Set{N: len(g.lists), Level: g.level, Scatter: g.scatter(), Torque: g.turn, Along: g.along}
}

func along(turns []Turn) []float64 {
	list := make([]float64, len(turns))
	for i := range turns {
		list[i] = turns[i].FuseeTurn / math.Max(1, turns[len(turns)-1].FuseeTurn)
	}
	return list
}

// runsOf are the runs of a set read one way or both.
func runsOf(down, up *grid) []Run {
	d, u := down.departures(), up.departures()
	runs := make([]Run, 0, len(d)+len(u))
	paired := len(d) == len(u)
	for i := range d {
		runs = append(runs, Run{Down: &d[i], Freedom: freedom(len(d))})
		if paired {
			runs[i].Up = &u[i]
		}
	}
	for i := range u {
		if !paired {
			runs = append(runs, Run{Up: &u[i], Freedom: freedom(len(u))})
		}
	}
	return runs
}

func freedom(runs int) float64 { return float64(runs-1) / float64(runs) }

// departures are those of the repeats; none of one repeat alone, or where they do
// not tell. Where a reading is missing that of the whole repeat stands for it.
func (g *grid) departures() []Departure {
	if len(g.lists) < 2 || len(g.turn) == 0 || g.groups() > 1 || !(g.level > 0) {
		return nil
	}
	list := make([]Departure, len(g.lists))
	for i, readings := range g.lists {
		d := Departure{Whole: g.part[i] / g.level, along: g.along, share: make([]float64, len(readings))}
		for j, v := range readings {
			d.share[j] = d.Whole
			if !math.IsNaN(v) {
				d.share[j] = (v - g.turn[j]) / g.level
			}
		}
		list[i] = d
	}
	return list
}

// Freedom is the degrees of freedom of some runs.
func Freedom(runs []Run) int {
	sum := 0.0
	for i := range runs {
		sum += runs[i].Freedom
	}
	return int(math.Round(sum))
}

// gather gives each spring the runs of all sets that the same meter read, and the
// interval of its mean that follows. A meter is known by its bound and its step.
func gather(supplies []Supply, known tables) {
	for i := range supplies {
		s := &supplies[i]
		for j := range supplies {
			if supplies[j].meter == s.meter {
				s.Runs = append(s.Runs, supplies[j].own...)
			}
		}
		s.Mean.between(s.Runs, float64(s.Down.N), s.Apart, known)
	}
}

// between works out the interval of a mean of n run-downs.
func (m *Mean) between(runs []Run, n float64, apart bool, known tables) {
	down := make([]Run, 0, len(runs))
	squares := 0.0
	for _, r := range runs {
		if r.Down != nil {
			down, squares = append(down, r), squares+r.Down.Whole*r.Down.Whole
		}
	}
	m.Between, m.Scatter = math.NaN(), math.NaN()
	if m.Freedom = Freedom(down); m.Freedom > 0 {
		m.Between = math.Sqrt(squares / float64(m.Freedom))
		if !apart {
			m.Scatter = known.student(m.Freedom) * m.Between * m.Value / math.Sqrt(n)
		}
	}
	m.HalfWidth = math.Hypot(m.Scatter, m.Meter)
}
