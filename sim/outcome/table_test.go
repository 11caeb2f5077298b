package outcome_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	. "evenpull/sim/outcome"

	"github.com/golang/geo/s1"
)

// counted gives every number of a struct a value of its own, so that a figure tells
// by its value where it comes from.
func counted(v reflect.Value, next *float64) {
	switch v.Kind() {
	case reflect.Float64:
		*next++
		v.SetFloat(*next / 128)
	case reflect.Struct:
		for i := range v.NumField() {
			counted(v.Field(i), next)
		}
	}
}

// The table as people and programs read it, a figure a line: name, words, symbol,
// unit, factor, digits, what is shown of it in percent, and its value of a digest and
// a row whose numbers all differ. After a change: go test ./sim/outcome -regenerate
func TestTable(t *testing.T) {
	var d sim.Digest
	var row sim.Row
	next := 0.0
	counted(reflect.ValueOf(&d).Elem(), &next)
	counted(reflect.ValueOf(&row).Elem(), &next)
	d.Escapes, d.Line.FleetKnown, d.StopsAt = true, true, math.NaN()
	d.Spring.Available = d.Spring.SetUp + d.Spring.Used + 3
	var b strings.Builder
	line := func(q Quantity, v float64) {
		fmt.Fprintf(&b, "%s | %s | %s | %s | %.9g | %d | %v | %.9g\n", q.Name, q.Label(), q.Symbol, q.Unit, q.Factor, q.Digits, q.Shown(1), v)
	}
	for _, f := range All() {
		line(f.Quantity, f.Of(&d))
	}
	b.WriteString("\n")
	for _, c := range Columns() {
		line(c.Quantity, c.Of(&d, &row))
	}
	file := filepath.Join("testdata", "table.txt")
	if trial.Regenerating() {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	had := strings.Split(string(want), "\n")
	for i, now := range strings.Split(b.String(), "\n") {
		if i >= len(had) || now != had[i] {
			t.Errorf("%s:%d is now\n%s", file, i+1, now)
		}
	}
	if n := strings.Count(b.String(), "\n"); n != strings.Count(string(want), "\n") {
		t.Errorf("%d lines, had %d", n, strings.Count(string(want), "\n"))
	}
}

// A name is used once, and its last word is its unit, so that a factor between the
// two and SI can be looked up: 1 mm = 10⁻³ m, 1 MPa = 10⁶ Pa, 1° = π/180 rad, a day is
// 86400 s (SI brochure, 9th edition, tables 7 and 8; 2019).
func TestUnitsOfNames(t *testing.T) {
	units := map[string]struct {
		unit   string
		factor float64
	}{
		"_mm": {"mm", 1000}, "_mpa": {"MPa", 1e-6}, "_deg": {"°", 180 / math.Pi}, "_s_per_day": {"s/day", 86400},
		"_n": {"N", 1}, "_nm": {"N·m", 1}, "_j": {"J", 1}, "_h": {"h", 1}, "_s": {"s", 1}, "_rev_per_s": {"turns/s", 1},
	}
	seen := map[string]bool{}
	check := func(q Quantity) {
		if seen[q.Name] {
			t.Errorf("%s stands twice", q.Name)
		}
		seen[q.Name] = true
		if q.Words == "" || strings.ContainsAny(q.Words, "_.") || q.Digits != 3 {
			t.Errorf("%s: the %q, %d digits", q.Name, q.Words, q.Digits)
		}
		longest := ""
		head, _, _ := strings.Cut(q.Name, ".")
		for _, part := range []string{q.Name, head} {
			for end := range units {
				if strings.HasSuffix(part, end) && len(end) > len(longest) {
					longest = end
				}
			}
		}
		pure := q.Share || strings.HasSuffix(q.Name, ".cv")
		if u := units[longest]; longest != "" && !pure && (q.Unit != u.unit || q.Factor != u.factor) {
			t.Errorf("%s: in %q, factor %v, want %q, %v", q.Name, q.Unit, q.Factor, u.unit, u.factor)
		}
		if longest == "" && q.Factor != 1 {
			t.Errorf("%s: factor %v without a unit in the name", q.Name, q.Factor)
		}
	}
	for _, f := range All() {
		check(f.Quantity)
	}
	clear(seen)
	for _, c := range Columns() {
		check(c.Quantity)
	}
}

// What does not apply is no number: the escapement's figures of a striking train, and
// a fleet angle that is not known.
func TestWhatDoesNotApply(t *testing.T) {
	d := sim.Digest{}
	d.Line.MaxFleet, d.Over.LastTorque = s1.Angle(0.1), sim.Spread{Mean: 1, Min: 1, Max: 1}
	row := sim.Row{LastTorque: 1, Amplitude: 1, Rate: 1}
	for name, applies := range map[string]bool{"line.max_fleet_angle_deg": false, "escape_torque_nm.mean": false, "escape_torque_nm.min": false, "escape_torque_nm.max": false, "turns_lost": true} {
		f, err := Named(name)
		if err != nil || math.IsNaN(f.Of(&d)) == applies {
			t.Errorf("%s: %v, %v", name, f.Of(&d), err)
		}
	}
	d.Line.FleetKnown = true
	if f, _ := Named("line.max_fleet_angle_deg"); math.Abs(f.Of(&d)-18/math.Pi) > 1e-12 {
		t.Errorf("a fleet angle of %v°", f.Of(&d))
	}
	for _, c := range Columns() {
		going := c.Name == "escape_torque_nm" || c.Name == "amplitude_deg" || c.Name == "rate_s_per_day"
		if got := c.Of(&d, &row); going && !math.IsNaN(got) {
			t.Errorf("%s of a train without an escapement: %v", c.Name, got)
		}
	}
}

func TestLabels(t *testing.T) {
	for name, want := range map[string]string{
		Unevenness: "unevenness of the torque, %", MeanReserve: "mean reserve", "runtime_h": "running time, h", "line.on_fusee_mm": "line on the fusee, mm",
	} {
		f, err := Named(name)
		if err != nil || f.Label() != want {
			t.Errorf("%q, %v, want %q", f.Label(), err, want)
		}
	}
	list, err := Several("runtime_h", MostTorque)
	if err != nil || len(list) != 2 || list[0].Name != "runtime_h" || list[1].Name != MostTorque {
		t.Errorf("%v, %v", list, err)
	}
	names := Names()
	for i, f := range All() {
		if names[i] != f.Name {
			t.Errorf("name %d is %s, of the table %s", i, names[i], f.Name)
		}
	}
	if _, err := Named("colour"); err == nil || !strings.Contains(err.Error(), strings.Join(names[:4], ", ")) {
		t.Errorf("%v", err)
	}
}
