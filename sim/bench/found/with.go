package found

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"evenpull/sim/scenario"
)

// Taken is what a train of the scenario has from the bench.
type Taken struct {
	Train  string  // by its name
	Demand *Demand // nil where no weights told anything
	Spring *Spring // nil where the scenario's stays
}

// WhichError tells that several springs were read in a train, and none was chosen.
type WhichError struct {
	Train  string   // by its name
	Labels []string // of the springs read in it
}

// Error tells the train and the labels to choose among.
func (e *WhichError) Error() string {
	return fmt.Sprintf("springs %s were read in the %s train: want which is in it", strings.Join(e.Labels, ", "), e.Train)
}

// With is the clock with springs in trains: by their names the labels that were chosen, ""
// for the scenario's own, else the one that was read in the train; in trains where none was
// read the scenario's stays. It fails with a WhichError where several were read and none was chosen, with why
// the readings of one that was chosen tell nothing, and with the error of ctx. One that was
// not chosen, and is not told by its readings, leaves the scenario's. Only those of the
// trains asked for are put in; none: all.
func (c *Clock) With(ctx context.Context, chosen map[string]string, trains ...string) (*scenario.Scenario, []Taken, error) {
	s := c.Scenario
	var all []Taken
	for i := range s.Trains {
		name := s.Trains[i].Name
		if len(trains) > 0 && !slices.Contains(trains, name) {
			continue
		}
		t := Taken{Train: name}
		if k := slices.IndexFunc(c.Demands, func(d Demand) bool { return d.Train == name }); k >= 0 {
			t.Demand = &c.Demands[k]
		}
		label, said := chosen[name]
		if read := c.ReadIn(name); !said && len(read) > 1 {
			return nil, nil, &WhichError{name, read}
		} else if !said && len(read) == 1 {
			label = read[0]
		}
		if label != "" {
			if t.Spring = c.Find(label, name); t.Spring == nil {
				return nil, nil, fmt.Errorf("spring %q: no readings of it in the bench book", label)
			}
		}
		if t.Spring != nil && (said || t.Spring.Why == nil) { // one that nobody asked for and nothing tells of is left
			p, err := c.put(ctx, s, t.Spring, i)
			if err != nil {
				return nil, nil, fmt.Errorf("spring %s in the %s train: %w", label, name, err)
			}
			s = p.Scenario
		}
		if t.Demand != nil || t.Spring != nil {
			all = append(all, t)
		}
	}
	return s, all, nil
}

// ReadIn are the labels of the springs that were read in a train.
func (c *Clock) ReadIn(train string) (labels []string) {
	for _, sp := range c.Springs {
		if sp.Train == train && !slices.Contains(labels, sp.Label) {
			labels = append(labels, sp.Label)
		}
	}
	return labels
}
