package sim

import (
	"errors"

	"evenpull/escapement"
	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/sim/scenario"
	"evenpull/train"
)

// Error is a train that cannot be run although each of its values is sound.
type Error struct {
	Fault scenario.Fault // where, what and what would do
	Err   error          // of the package that could not go on
}

// Error says where the fault is and what it is.
func (e *Error) Error() string { return e.Fault.Error() }

// Unwrap gives the error of the package that could not go on.
func (e *Error) Unwrap() error { return e.Err }

// Blame finds the key behind an error of the drive and what would mend it.
func Blame(s *scenario.Scenario, number int, err error) error {
	if err == nil {
		return nil
	}
	key, want := "fusee", "want a drive that can be wound"
	var fault escapement.Fault
	var struck train.Fault
	switch {
	case errors.Is(err, ErrNoSpring):
		key, want = "mainspring.present", `want another spring first: "evenpull choose" finds it in a stock list; then write its sizes into [train.mainspring] and leave present out`
	case errors.Is(err, mainspring.ErrTooLong):
		key, want = "mainspring.length_mm", "want a shorter strip or a larger barrel"
	case errors.Is(err, mainspring.ErrTooManyCoils), errors.Is(err, mainspring.ErrNoYield):
		key, want = "mainspring.free_coils", "want fewer"
	case errors.Is(err, mainspring.ErrCount):
		key, want = "mainspring.solid_turns", "want another count, another thickness or another length"
	case errors.Is(err, mainspring.ErrLoose):
		switch in := &s.Trains[number].Mainspring; {
		case scenario.Given(in.FreeCoils):
			key, want = "mainspring.free_coils", "want fewer, which tell of a harder steel"
		case scenario.Given(in.SolidTurns):
			key, want = "mainspring.solid_turns", "want more"
		default:
			key, want = "mainspring.packing", "want less, or a harder steel"
		}
	case errors.Is(err, ErrWanted):
		key, want = "fusee.profile", `want a cone that is there: "evenpull cut" searches one that is wanted and says how to write it down`
	case errors.Is(err, mainspring.ErrGeometry):
		key, want = "mainspring", "want sound dimensions"
	case errors.Is(err, fusee.ErrSetUp):
		key, want = "barrel.set_up_turns", "want less set-up, or a spring with more turns"
	case errors.Is(err, fusee.ErrCentre):
		key, want = "fusee.centre_distance_mm", "want a smaller cone or a greater distance"
	case errors.Is(err, fusee.ErrSlack):
		key, want = "barrel.set_up_turns", "want more"
	case errors.Is(err, fusee.ErrEven) && scenario.Given(s.Trains[number].Fusee.SmallDiameterMM):
		key, want = "fusee.small_diameter_mm", "want a smaller one, fewer fusee turns, less set-up, or a spring with more turns"
	case errors.Is(err, fusee.ErrThin), errors.Is(err, fusee.ErrEven):
		key, want = "fusee.large_diameter_mm", "want a larger one"
	case errors.As(err, &fault):
		return &Error{Fault: escapementFault(s, number, fault), Err: err}
	case errors.As(err, &struck):
		return &Error{Fault: strikeFault(s, number, struck), Err: err}
	case errors.Is(err, train.ErrTrain):
		key, want = "mesh", "want sound meshes and loads"
	}
	return &Error{Fault: s.FaultAt(number, key, err.Error(), want), Err: err}
}
