package main

import (
	"os"
	"strings"
	"testing"

	"evenpull/scenarios"
)

// What a command says in short fits a screen: no line is longer than 80 columns, and there
// are no more lines than a reader takes in.
func TestFitsAScreen(t *testing.T) {
	type line struct {
		args string
		most int
	}
	var all []line
	for _, name := range scenarios.Names() {
		sc, err := scenarios.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, line{"run " + name, map[bool]int{true: 40, false: 70}[len(sc.Trains) == 1]})
		for i := range sc.Trains {
			of := name + " --train " + sc.Trains[i].Name
			all = append(all, line{"choose " + of, 45}, line{"setup " + of, 40}, line{"sweep " + of + " --over " + sc.Trains[i].Name + ".mainspring.thickness_mm", 40},
				line{"rank " + of + " --shares=false", 45}, line{"spread " + of + " --runs 200 --shares=false", 40}, line{"cut " + of, 45}, line{"plan " + of, 40})
		}
	}
	all = append(all, line{"record", 40}, line{"record --scenario three-trains", 45}, line{"assign --scenario three-trains", 45},
		line{"beat --periods 50", 30}, line{"coils --turns 2,2.5 --nodes 24", 30}, line{"plan --against too-weak --power 95", 40}, line{"sweep --against going.mainspring.width_mm --steps 9 --steps2 9", 45}, line{"choose three-trains --all", 40})
	for _, l := range all {
		code, out, errs := call(t, "", few(strings.Fields(l.args))...)
		if code != exitDone {
			t.Fatalf("%s: %s", l.args, errs)
		}
		if n := strings.Count(out, "\n"); n > l.most {
			t.Errorf("%s takes %d lines, %d are wanted:\n%s", l.args, n, l.most, out)
		}
		for s := range strings.Lines(out) {
			if s = strings.TrimRight(s, "\n"); len([]rune(s)) > 80 && !strings.HasPrefix(s, "Next: ") { // which is to be typed
				t.Errorf("%s: %d columns: %s", l.args, len([]rune(s)), s)
			}
		}
	}
}

// The next step names the clock as it was asked for, in words that a shell takes as they are.
func TestAgain(t *testing.T) {
	for _, c := range []struct {
		f    flags
		want string
	}{
		{flags{}, ""}, {flags{loaded: true, named: "-"}, ""}, {flags{loaded: true}, " "},
		{flags{loaded: true, named: "my clock.toml", train: "going", set: []string{"going.barrel.set_up_turns=1.5", "going.line.kind=\"it's\""}},
			` 'my clock.toml' --train going --set going.barrel.set_up_turns=1.5 --set 'going.line.kind="it'\''s"'`},
	} {
		if got := c.f.again(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.f, got, c.want)
		}
	}
}

// What is no terminal has no columns.
func TestColumns(t *testing.T) {
	file, err := os.Create(t.TempDir() + "/out")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if n := columns(file); n != 0 {
		t.Errorf("a file has %d columns", n)
	}
	if n := columns(&strings.Builder{}); n != 0 {
		t.Errorf("a builder has %d columns", n)
	}
}
