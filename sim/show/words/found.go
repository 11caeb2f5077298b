package words

import (
	"math"
	"slices"
	"strings"

	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/measure"
)

// FromBench tells, train by train, what stands in place of what the scenario says.
func FromBench(all []found.Taken) []string {
	var list told
	for _, t := range all {
		var says told
		if d := t.Demand; d != nil {
			says.when(d.Least, "needs %v N·m by weights%s%s", d.Bracket.Least, between(d), instead(d))
			says.when(d.Ear, "likes %v to %v N·m by ear", d.Likes().Lo, d.Likes().Hi)
			says.when(d.Timed, "the fly's drag is that of the blows that were timed")
			says.when(d.Why != nil, "not all that the weights tell can be so: %s", Why(d.Why))
		}
		if sp := t.Spring; sp != nil && sp.Why != nil {
			says.add("spring %s is not taken, the scenario's stays: %s", sp.Label, Why(sp.Why))
		} else if sp != nil {
			says.add("spring %s%s as its readings have it%s", sp.Label, where(sp.Train != t.Train, ", read in the %s train,", sp.Train), fitted(sp))
		}
		list.add("%s train: %s", t.Train, strings.Join(says, "; "))
	}
	return list
}

func between(d *found.Demand) string {
	b := &d.Bracket
	return where(b.HasLower() && b.HasUpper(), ", %v to %v", b.Between.Lo, b.Between.Hi)
}

// instead is the need that the scenario has, where the weights tell another.
func instead(d *found.Demand) string {
	return where(d.Differs(), ", where the scenario has %v", d.Before)
}

// fitted is how thick, long and hard the readings have a strip.
func fitted(sp *found.Spring) string {
	var list told
	for _, t := range sp.Told {
		name, ok := map[string]string{"mainspring.thickness_mm": "thick", "mainspring.length_mm": "long", "mainspring.yield_mpa": "of flow stress"}[t.Key]
		if ok && t.Narrowed < narrowed && t.StandardError > 0 { // else it is at the end of what could be
			list.add("%v %s %s (%v to %v)", t.Value, t.Unit, name, t.Interval.Lo, t.Interval.Hi)
		}
	}
	return where(len(list) > 0, ": %s", strings.Join(list, ", "))
}

// narrowed is the standard error over what it was before, below which readings tell
// something of an input.
const narrowed = 0.8

// What is asked about: how many standard deviations a size is off what was measured, how
// many fusee turns from where a spring was found solid, and how many times scatter the
// residuals are (common practice, no source).
const (
	farOff    = 3
	soonSolid = 0.5
	badlyTold = 1.7
)

// FoundNotes are what is worth knowing of a spring as its readings have it.
func FoundNotes(sp *found.Spring) []string {
	var notes told
	var names []string
	length := false
	for _, pair := range sp.Apart {
		for _, k := range pair {
			if name := plainly(sp.Told[k].Key); !slices.Contains(names, name) {
				names = append(names, name)
			}
			length = length || sp.Told[k].Key == "mainspring.length_mm"
		}
	}
	notes.when(len(names) > 0, "%s cannot be told apart by these readings: count the free coils%s", listed(names), where(length, ", and the turns from rest to solid"))
	for _, t := range sp.Told {
		notes.when(t.Measured && math.Abs(t.Off) > farOff, "its %s was measured as %v %s, and what was read at the square makes it %v: measure it again, or look for what else is not as noted", plainly(t.Key), t.Before, t.Unit, t.Value)
	}
	notes.when(math.Abs(sp.SolidBy-sp.SolidAt) > soonSolid, "it went solid at turn %s counted from run down, and by its sizes and readings it would at %s: count again, or measure again", Turns(sp.SolidAt), Turns(sp.SolidBy))
	notes.when(sp.Misfit > badlyTold, "its strip explains the readings badly: what is left is %.1f times what scatter explains", sp.Misfit)
	return notes
}

// plainly is an input of a strip in a word.
func plainly(key string) string {
	if name, ok := map[string]string{
		"mainspring.thickness_mm": "thickness", "mainspring.length_mm": "length", "mainspring.yield_mpa": "flow stress", "mainspring.free_coils": "free coils",
		"mainspring.efficiency": "coil friction", "mainspring.friction_coefficient": "coil friction",
	}[key]; ok {
		return name
	}
	return key
}

// Answer is what the bench found of one train.
type Answer struct {
	Needs string   // what it needs
	Gives []string // what each spring that was read in it gives, and whether it suits
	Notes []string
}

// Answers are what a bench book says, train by train.
func Answers(r *assign.Record) []Answer {
	var all []Answer
	for _, train := range r.Trains() {
		a := Answer{Needs: say("%s train: what it needs is not known", train)}
		if i := slices.IndexFunc(r.Needs, func(n measure.Need) bool { return n.Train == train }); i >= 0 {
			a.Needs = NeedHead(&r.Needs[i])
			if r.Demands != nil {
				a.Needs += instead(&r.Demands[i])
			}
		} else if n := r.Judged.Need(train); n != nil {
			a.Needs = say("%s train needs %v N·m by the scenario", train, n.Need.Used)
		}
		var notes ofSprings
		for i := range r.Springs {
			if r.Springs[i].Train == train {
				a.spring(r, i, &notes)
			}
		}
		a.Notes = notes.list()
		all = append(all, a)
	}
	return all
}

// spring adds what a spring gives.
func (a *Answer) spring(r *assign.Record, i int, notes *ofSprings) {
	s := r.Springs[i].Supply
	says := say("spring %s gives %v N·m in the mean%s, uneven by %s", s.Spring, s.Mean.Value, where(!math.IsNaN(s.Mean.HalfWidth), " ± %s", About(s.Mean.HalfWidth)), Percent(s.Unevenness))
	if p := r.Read(i); p != nil {
		says += ": " + PairDoes(p, Verdict)
	} else if r.Judged != nil {
		says += ": not judged"
	}
	a.Gives = append(a.Gives, says)
	if sp := r.Fitted(i); sp != nil {
		if told := fitted(sp); told != "" {
			a.Gives[len(a.Gives)-1] += "; by its readings" + strings.TrimPrefix(told, ":")
		}
		notes.add(sp.Label, FoundNotes(sp)...)
	} else if r.Judged != nil && len(r.Judged.Found) > i {
		notes.add(s.Spring, Why(r.Judged.Found[i].Why))
	}
}

// ofSprings are notes, each with the springs of which it is to be told.
type ofSprings []struct {
	note   string
	labels []string
}

// add adds the notes on a spring; one that was made of another is told of both at once.
func (o *ofSprings) add(label string, notes ...string) {
	for _, note := range notes {
		i := 0
		for i < len(*o) && (*o)[i].note != note {
			i++
		}
		if i == len(*o) {
			*o = append(*o, struct {
				note   string
				labels []string
			}{note: note})
		}
		(*o)[i].labels = append((*o)[i].labels, label)
	}
}

func (o ofSprings) list() []string {
	var says told
	for _, n := range o {
		says.add("spring%s %s: %s", where(len(n.labels) > 1, "s"), listed(n.labels), n.note)
	}
	return says
}

// MoreOfRecord tells where the rest of a record is.
func MoreOfRecord(r *assign.Record) string {
	notes := 0
	for i := range r.Needs {
		notes += len(NeedNotes(&r.Needs[i]))
	}
	for i := range r.Springs {
		notes += len(ReadNotes(r.Study, i))
	}
	return "trials, readings turn by turn" + where(notes > 0, ", and %s on them", Count(notes, "note")) + ": --full"
}
