package words

import (
	"cmp"
	"math"

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

// balanced is the share of the energy below which nothing is worth telling.
const balanced = 1e-6

// BeatSays tells what drove the swing, and how well the beats account for it.
func BeatSays(r *beat.Result) []string {
	return []string{
		say("torque at the escape wheel %v mN·m; started from rest at %.2f°", r.Torque*1e3, r.Start.Degrees()),
		cmp.Or(where(math.Abs(r.Gap) < balanced, "what the train gave and what the swing took agree to a millionth"), say("of what the train gave %.1g is not accounted for", r.Gap)),
	}
}
