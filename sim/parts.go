package sim

import "strings"

// Part is a share of a compiled train that depends on tables of its own in the
// scenario.
type Part uint8

const (
	DrivePart   Part                                                                       = 1 << iota // mainspring, barrel, line and pivots
	ConePart                                                                                           // fusee, but for its pivots
	WheelsPart                                                                                         // meshes and loads
	ClockPart                                                                                          // escapement and pendulum
	StrikePart                                                                                         // pins, hammers and fly
	JudgingPart                                                                                        // demand and bands
	AllParts    = DrivePart | ConePart | WheelsPart | ClockPart | StrikePart | JudgingPart             // every one
)

// PartsOf are the parts in which the quantity of a KEY has a share.
func PartsOf(key string) Part {
	table, rest, _ := strings.Cut(key, ".")
	if table != "place" && table != "verdict" {
		table, rest, _ = strings.Cut(rest, ".")
	}
	switch rest {
	case "pivot_mm", "great_wheel_mm", "pull_angle_deg": // the fusee's bearings, not its cone
		return DrivePart
	}
	switch table {
	case "mainspring", "barrel", "line":
		return DrivePart
	case "fusee":
		return ConePart
	case "mesh": // the recoil ratio follows the last
		return WheelsPart | StrikePart | ClockPart
	case "load":
		return WheelsPart | StrikePart
	case "escapement", "pendulum":
		return ClockPart
	case "strike", "fly":
		return StrikePart
	case "place":
		return ClockPart | StrikePart
	case "demand":
		return StrikePart | JudgingPart
	case "verdict":
		return JudgingPart
	}
	return AllParts
}
