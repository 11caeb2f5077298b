package words

import (
	"strings"

	"evenpull/sim/bench/found"
)

// FromBench tells, train by train, what stands in place of what the scenario says.
func FromBench(all []found.Taken) []string {
	var list told
	for _, t := range all {
		var says told
		if d := t.Demand; d != nil {
			says.when(d.Least, "needs %v N·m by weights%s", d.Bracket.Least, between(d))
			says.when(d.Timed, "the fly's drag is that of the blows that were timed")
			says.when(d.Why != nil, "not all that the weights tell can be so: %s", Why(d.Why))
		}
		if sp := t.Spring; sp != nil {
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

// fitted is how thick, long and hard the readings have a strip.
func fitted(sp *found.Spring) string {
	var list told
	for _, t := range sp.Told {
		name, ok := map[string]string{"mainspring.thickness_mm": "thick", "mainspring.length_mm": "long", "mainspring.yield_mpa": "of flow stress"}[t.Key]
		if ok && t.Narrowed < narrowed {
			list.add("%v %s %s (%v to %v)", t.Value, t.Unit, name, t.Interval.Lo, t.Interval.Hi)
		}
	}
	return where(len(list) > 0, ": %s", strings.Join(list, ", "))
}

// narrowed is the standard error over what it was before, below which readings tell
// something of an input.
const narrowed = 0.8

// FoundNotes are what is worth knowing of a spring as its readings have it.
func FoundNotes(sp *found.Spring) []string {
	var notes told
	names := func(k int) string { return plainly(sp.Told[k].Key) }
	for _, pair := range sp.Apart {
		notes.add("%s and %s cannot be told apart by these readings%s", names(pair[0]), names(pair[1]), cure(sp, pair))
	}
	notes.when(sp.Misfit > 2, "its strip explains the readings badly: what is left is %.1f times what scatter explains", sp.Misfit)
	return notes
}

// cure is what would tell two inputs apart.
func cure(sp *found.Spring, pair [2]int) string {
	for _, k := range pair {
		switch sp.Told[k].Key {
		case "mainspring.yield_mpa", "mainspring.efficiency", "mainspring.friction_coefficient":
			return ": count the free coils, or read the torque while winding too"
		case "mainspring.length_mm":
			return ": count the turns from rest to solid"
		}
	}
	return ""
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
