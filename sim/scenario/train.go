package scenario

import (
	"fmt"
	"strings"
)

// NoTrainError tells that a scenario has no train of a name.
type NoTrainError struct {
	Train string   // asked for
	Has   []string // the names of those there are
}

// Error says it, with the nearest name or all there are.
func (e *NoTrainError) Error() string {
	hint := "it has " + strings.Join(e.Has, ", ")
	if near := Nearest(e.Train, e.Has); near != "" {
		hint = "did you mean " + near + "?"
	}
	return fmt.Sprintf("the scenario has no train %q; %s", e.Train, hint)
}

// Train gives the number, from 0, of the train of a name; a NoTrainError when there is
// none.
func (s *Scenario) Train(name string) (number int, err error) {
	has := make([]string, len(s.Trains))
	for i := range s.Trains {
		if has[i] = s.Trains[i].Name; has[i] == name {
			return i, nil
		}
	}
	return -1, &NoTrainError{Train: name, Has: has}
}
