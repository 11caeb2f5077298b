package words

import (
	"fmt"

	"evenpull/escapement"
	"evenpull/sim/study/beat"
)

// BeatHead is what the swing came to, in a line.
func BeatHead(r *beat.Result) string {
	return fmt.Sprintf("%s train at fusee turn %s: %s", r.Train, Turns(r.FuseeTurn), swingCame(&r.Settled))
}

func swingCame(s *escapement.Settled) string {
	after, arc := "after "+Count(s.Periods, "period"), s.Amplitude.Degrees()
	switch s.Status {
	case escapement.Runs:
		return fmt.Sprintf("settles at a semi-arc of %.3f° %s", arc, after)
	case escapement.Short:
		return fmt.Sprintf("settles at a semi-arc of %.3f° %s, less than the margin asked for", arc, after)
	case escapement.Changing:
		return fmt.Sprintf("has not settled %s: the semi-arc is %.3f°", after, arc)
	case escapement.Trips:
		return fmt.Sprintf("trips %s: the semi-arc passes %.2f°", after, arc)
	}
	return fmt.Sprintf("stops %s: the swing no longer escapes", after)
}

// BeatSays tells what drove the swing, and how well the beats account for it.
func BeatSays(r *beat.Result) []string {
	return []string{
		fmt.Sprintf("torque at the escape wheel %s mN·m; started from rest at %.2f°", Figure(r.Torque*1e3), r.Start.Degrees()),
		fmt.Sprintf("energy not accounted for: %.1g of what the train gave", r.Gap),
	}
}
