package main

import (
	"path/filepath"
	"slices"
	"strings"
)

// picture is one of the gallery: what a command draws of a sample.
type picture struct {
	name    string // of its file, without the ending
	command string // that draws it, without the file
	flag    string // that the file is given by
	sees    string // what one sees on it
}

// pictures are those of the gallery: every command that draws, from the samples. This is
// their only list.
func pictures() []picture {
	const plot, drawing, animation = "--plot", "--drawing", "--animation"
	return []picture{
		{"run-eight-day", "run eight-day", plot, "A spring that suits: torque at the fusee stays within the band of what the clock needs, from wound to run down; arc and rate follow it."},
		{"run-too-weak", "run too-weak", plot, "A spring that is too weak: its torque falls below the need, and the clock stops there."},
		{"run-too-strong", "run too-strong", plot, "A spring that is too strong: torque far above the need all the way, with a wide arc and a rate that follows."},
		{"run-three-trains", "run three-trains", plot, "Going, striking and quarters of one clock, each beside its own need."},
		{"run-strike-quick", "run strike-quick", plot, "A striking train on a strong spring: the blows come faster than one likes to hear."},
		{"sweep-thickness", "sweep eight-day", plot, "What a thicker or thinner spring does to torque, reserve and unevenness, and where the verdict changes."},
		{"sweep-set-up", "sweep eight-day --over going.barrel.set_up_turns --from 0 --to 3 --steps 31", plot, "What more or less set-up does: one best place, and how soon the torque grows uneven beside it."},
		{"map-thickness-width", "sweep eight-day --against going.mainspring.width_mm --of reserve.min", plot, "Springs by thickness and width: the least reserve as tints, and where one verdict borders on the next."},
		{"rank-torque", "rank eight-day --shares=false", plot, "Which reading matters: what moving each input by as much as it may be off does, the greatest at the top."},
		{"rank-blows", "rank three-trains --train striking --of blow_interval_s.mean --shares=false", plot, "The same of the time from blow to blow of a striking train."},
		{"spread-eight-day", "spread eight-day --runs 2000", plot, "Two thousand clocks within the reading errors of one: how far torque and reserve spread, and which input spreads them."},
		{"setup-eight-day", "setup eight-day", plot, "Unevenness and reserve at every click of set-up, with the one that is advised."},
		{"setup-striking", "setup three-trains --train striking", plot, "The same of a striking train whose cone was made straight."},
		{"record-readings", "record mixed-barrels --scenario three-trains", plot, "Readings at the bench with their scatter, and how they lie beside what was computed."},
		{"assign-springs", "assign mixed-barrels --scenario three-trains", plot, "Three springs that were mixed up: the mean torque of each in each of three trains, and which goes where."},
		{"plan-thickness", "plan eight-day", plot, "Which torques to read so that the thickness of a spring is known: what more turns and more run-downs are good for, and what each turn tells."},
		{"choose-springs", "choose eight-day --stock shop-drawer", plot, "The best springs of a dealer's list, each turn by turn beside what the clock needs."},
		{"cut-torque", "cut too-weak --anyway", plot, "Diameters and torque of a cone as it is and as an even one."},
		{"beat-eight-day", "beat eight-day", plot, "The pendulum beat by beat: how its arc grows until it settles, and its speed at each angle in the first period and the last."},
		{"coils-loop", "coils eight-day --turns 1,2,3 --nodes 24", plot, "A mainspring wound up and run down coil by coil: what friction takes on the way, and how far the couple that a run reckons with is off."},
		{"coils-lying", "coils eight-day --turns 1,2,3 --nodes 24", drawing, "How its coils lie in the barrel as it runs down, and how hard they press on each other."},
		{"coils-winding", "coils eight-day --turns 1,2,3 --nodes 24", animation, "The same moving: wound up, and running down."},
		{"drawing-eight-day", "run eight-day", drawing, "Barrel run down and wound, and fusee, to scale; the going train as a diagram."},
		{"drawing-three-trains", "run three-trains", drawing, "The same of a clock with three trains, their pins, hammers and flies."},
		{"cone-as-it-is", "cut eight-day", drawing, "A cone that is left as it is, at true size, with its diameters."},
		{"cone-to-cut", "cut too-strong --keep-set-up --anyway", drawing, "An even cone within the present one, and what would come off it, turn by turn."},
		{"cone-from-blank", "cut eight-day --from-blank --large-mm 34 --step 0.25", drawing, "A new cone: the blank, the groove and the way of winding, with a diameter every quarter turn."},
		{"cone-of-quarters", "cut three-trains --train quarters --anyway --sheet A3", drawing, "The cone of a quarter train on A3."},
		{"cone-joined", "cut eight-day --from-blank --large-mm 34 --set going.fusee.pitch_mm=16 --sheet letter", drawing, "A cone too long for a sheet: sheets of letter paper, joined by their crosses."},
	}
}

// args are those of its command line with the file that it is drawn into; samples are named
// as such, whatever lies in the folder.
func (p *picture) args(file string) []string {
	args := strings.Fields(p.command)
	for i, arg := range args[1:] {
		if isSample(arg) {
			args[i+1] = sampleMark + arg
		}
	}
	return append(args, p.flag, file)
}

// files are the names of the sheets of a picture, of so many with an ending.
func (p *picture) files(count int, ending string) (names []string) {
	for i := range count {
		names = append(names, sheetFile(p.name+"."+ending, i+1))
	}
	return names
}

// has tells whether a file has the name of a sheet of the picture, in some format.
func (p *picture) has(file string) bool {
	ending := strings.TrimPrefix(filepath.Ext(file), ".")
	return slices.Contains(formats(), ending) && slices.Contains(p.files(mostSheets, ending), file)
}
