package scenario

import (
	"bytes"
	"slices"
	"strings"

	"evenpull/sim/internal/keyline"
	"evenpull/sim/internal/unit"
)

// report notes a fault at a key of the present table ("": the table itself).
// The other keys have a part in it: when one of them came from --set and key
// did not, the fault is laid there.
func (tr *trail) report(key, found, want string, others ...string) {
	spots := []string{tr.spot(key)}
	for _, k := range others {
		spots = append(spots, tr.spot(k))
	}
	tr.reportOf(spots, key, found, want)
}

// reportOf is report where the spots that have a part in it, that of the key
// first, may be anywhere.
func (tr *trail) reportOf(spots []string, key, found, want string) {
	tr.mark(spots[0])
	f := Fault{Source: tr.s.Source, Line: tr.s.lines.Find(spots[0]), Key: tr.key(0, key), Found: found, Want: want}
	if as, ok := tr.s.writtenAs(spots[0]); ok {
		_, place, _ := strings.Cut(key, ".")
		f.Key, f.Found = tr.key(0, strings.TrimSuffix(as+"."+place, ".")), unit.Found(found, key)
	}
	for _, spot := range spots {
		if by, ok := tr.s.setBy(spot); ok {
			f.Source, f.Line = setSource(by), 0
			break
		}
	}
	tr.faults = append(tr.faults, f)
}

// setBy gives the KEY by which Set changed a spot or the list it is in.
func (s *Scenario) setBy(spot string) (string, bool) {
	for spot != "" && len(s.set) > 0 {
		if by, ok := s.set[spot]; ok {
			return by, true
		}
		spot = keyline.Enclosing(spot)
	}
	return "", false
}

func (tr *trail) mark(spot string) {
	if tr.bad == nil {
		tr.bad = map[string]bool{}
	}
	tr.bad[spot] = true
}

// sound tells whether none of the keys, nor a table they are in, has a fault.
func (tr *trail) sound(keys ...string) bool { return len(tr.bad) == 0 || !tr.anyBad(keys) }

func (tr *trail) anyBad(keys []string) bool {
	return slices.ContainsFunc(keys, func(k string) bool { return tr.badAbove(tr.spell(k)) })
}

// badUnder tells whether a spot, or one in it, has a fault.
func (tr *trail) badUnder(spot string) bool {
	for b := range tr.bad {
		if b == spot || strings.HasPrefix(b, spot+".") {
			return true
		}
	}
	return false
}

// badAbove tells whether a spot, or a table it is in, has a fault.
func (tr *trail) badAbove(spot []byte) bool {
	for ; len(spot) > 0; spot = spot[:max(0, bytes.LastIndexByte(spot, '.'))] {
		if tr.bad[string(spot)] {
			return true
		}
	}
	return false
}
