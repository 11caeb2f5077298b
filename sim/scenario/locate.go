package scenario

import "strconv"

// FaultAt is a fault of the train with the given number that shows only when
// its parts are put together: key is below the train, such as
// barrel.set_up_turns. It tells the line of the key, or that --set gave it.
func (s *Scenario) FaultAt(train int, key, found, want string) Fault {
	spot := "train." + strconv.Itoa(train) + "." + key
	f := Fault{Source: s.Source, Line: s.lines.Find(spot), Key: key, Found: found, Want: want}
	if train >= 0 && train < len(s.Trains) {
		f.Key = s.Trains[train].Name + "." + key
	}
	if by, ok := s.setBy(spot); ok {
		f.Source, f.Line = setSource(by), 0
	}
	return f
}
