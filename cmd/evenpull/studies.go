package main

import (
	"context"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"

	"evenpull/sim/show/data"
)

// study is a folder of data that a report puts into its page. What stands there is what its
// command comes to now: the files may be anybody's.
type study struct {
	given  string // what the command line calls it
	m      *manifest
	held   map[string][]byte // its files
	now    *supplement
	faults []string // where that is otherwise
}

// called is the name of the folder, without the one that it stands in.
func (st *study) called() string { return baseOf(strings.TrimRight(st.given, `/\`)) }

// names are those of its files, in order.
func (st *study) names() []string { return slices.Sorted(maps.Keys(st.held)) }

// fields are the columns of a file of it that is a table; nil for others.
func (st *study) fields(name string) []data.Field {
	for _, p := range st.now.parts {
		if p.Name == name {
			return p.fields
		}
	}
	return nil
}

// openStudy reads a folder of data of one command, which has to be as it was made, and to
// come out so.
func openStudy(ctx context.Context, s streams, given string) (study, error) {
	st := study{given: given}
	var err error
	if s.again != nil {
		st.m, st.held, err = s.again.study(given)
	} else {
		st.m, st.held, err = openKept(given)
	}
	if err != nil {
		return st, err
	}
	if faults := st.m.changed(st.held); len(faults) > 0 {
		return st, fmt.Errorf("%s, made by evenpull %s on %s, is not as it was made:\n  %s", given, st.m.Version, st.m.Date, strings.Join(firstOf(faults), "\n  "))
	}
	if st.m.Args[0] == "report" {
		return st, fmt.Errorf("%s is the data of a report; want that of another command, such as sweep, spread or batch", given)
	}
	if st.now, st.faults, err = st.m.comesOut(ctx, st.held); err != nil {
		return st, fmt.Errorf("%s: %w", given, notOfCommandLine(err))
	}
	if len(st.faults) > 0 && s.again == nil {
		return st, fmt.Errorf("%s, made by evenpull %s on %s, comes out otherwise now:\n  %s", given, st.m.Version, st.m.Date, strings.Join(firstOf(st.faults), "\n  "))
	}
	return st, nil
}

// study is the folder that the command called so, out of the one it is kept in.
func (a *again) study(given string) (*manifest, map[string][]byte, error) {
	for _, in := range a.m.Studies {
		if in.Given != given {
			continue
		}
		held := map[string][]byte{}
		for name, content := range a.held {
			if within, ok := strings.CutPrefix(name, in.Kept+"/"); ok {
				held[within] = content
			}
		}
		m, err := parseManifest(held[manifestName])
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", in.Kept, err)
		}
		return m, held, nil
	}
	return nil, nil, fmt.Errorf("%s was not kept", told(given))
}

// picture is the first of its pictures; nil for none.
func (st *study) picture() []byte {
	for _, p := range st.now.parts {
		if path.Dir(p.Name) == picturesWithin {
			return p.Data
		}
	}
	return nil
}

// says is what it found, in lines: the first paragraph of its words
// below the title.
func (st *study) says() []string {
	for _, p := range st.now.parts {
		if path.Ext(p.Name) != ".txt" {
			continue
		}
		for _, paragraph := range strings.Split(string(p.Data), "\n\n") {
			if lines := strings.Split(strings.TrimSpace(paragraph), "\n"); strings.Join(lines, " ") != st.now.title { // which stands above it
				return lines
			}
		}
	}
	return nil
}
