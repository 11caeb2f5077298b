package words

import (
	"evenpull/escapement"
	"evenpull/sim/study/beat"
)

// BeatHead is what the swing came to, in a line.
func BeatHead(r *beat.Result) string {
	after, arc := "after "+Count(r.Settled.Periods, "period"), r.Settled.Amplitude.Degrees()
	settles := say("settles at a semi-arc of %.3f° %s", arc, after)
	return say("%s train at fusee turn %s: %s", r.Train, Turns(r.FuseeTurn), map[escapement.Status]string{
		escapement.Runs:     settles,
		escapement.Short:    settles + ", less than the margin asked for",
		escapement.Changing: say("has not settled %s: the semi-arc is %.3f°", after, arc),
		escapement.Trips:    say("trips %s: the semi-arc passes %.2f°, more than the pallets allow", after, arc),
		escapement.Stops:    say("stops %s: the swing no longer escapes", after),
	}[r.Settled.Status])
}

// BeatSays tells what drove the swing, and how well the beats account for it.
func BeatSays(r *beat.Result) []string {
	return []string{
		say("torque at the escape wheel %v mN·m; started from rest at %.2f°", r.Torque*1e3, r.Start.Degrees()),
		say("energy not accounted for: %.1g of what the train gave", r.Gap),
	}
}
