package book

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// missingReading is what stands in a list for a reading that was not taken.
const missingReading = "-"

// torqueRange is that of every torque of a scenario.
var torqueRange = entry.Input("load.torque_nm")

const oneReading = "want at least one reading in each repeat"

// torque reads one table of torques.
func (t *table) torque() Torque {
	t.commas("running_down", "winding_up")
	t.Unit("running_down", "running_down_nm")
	t.Unit("winding_up", "winding_up_nm")
	t.Known("train", "spring", "first_turn", "running_down", "winding_up", "file", "winding_file", "meter_relative", "meter_resolution_nm", "date", "by", "instrument")
	first := math.NaN()
	if _, there := t.Tree["first_turn"]; there {
		first = t.Number("first_turn", fuseeTurn, first)
	}
	q := Torque{
		Noted:             t.noted(),
		FirstTurn:         first,
		Train:             t.name("train"),
		Spring:            t.Text("spring", scenario.MaxName, true),
		RunningDown:       t.readings("running_down", "file", true),
		WindingUp:         t.readings("winding_up", "winding_file", false),
		MeterRelative:     t.Number("meter_relative", entry.Range(0, 0.5, ""), 0),
		MeterResolutionNM: t.Number("meter_resolution_nm", entry.Range(0, 1000, "N·m"), 0),
	}
	_, said := t.Tree["meter_resolution_nm"]
	q.StepAssumed = !said
	t.digit = least(t.digit, least(t.LastDigit("running_down", "running_down_nm"), t.LastDigit("winding_up", "winding_up_nm")))
	return q
}

// steps gives a meter without its step the last digit of the readings that it took: those
// with the same bound, and the same instrument.
func (b *Book) steps(torques []table) {
	for i := range b.Torques {
		t, digit := &b.Torques[i], math.NaN()
		for k := range b.Torques {
			if o := &b.Torques[k]; o.StepAssumed && o.MeterRelative == t.MeterRelative && o.Instrument == t.Instrument {
				digit = least(digit, torques[k].digit)
			}
		}
		if t.StepAssumed && digit > 0 {
			t.MeterResolutionNM = math.Min(digit, 1000)
		}
	}
}

// least is the lesser of two numbers, of which any may be NaN for none.
func least(a, b float64) float64 {
	if b < a || math.IsNaN(a) {
		return b
	}
	return a
}

// readings takes the lists of a key or those of the file that another key names.
func (t *table) readings(key, fileKey string, required bool) [][]float64 {
	v, inline := t.Tree[key]
	file, apart := t.Tree[fileKey]
	switch {
	case inline && apart:
		t.Report(fileKey, "found both "+key+" and "+fileKey, "want one of them")
	case inline:
		return t.lists(key, v, required)
	case apart:
		return t.file(fileKey, file)
	case required:
		t.Report(key, "missing", "want one list a repeat, such as [ [ 0.46, 0.47 ], [ 0.45, 0.47 ] ], or "+fileKey)
	}
	return nil
}

// lists reads one list a repeat.
func (t *table) lists(key string, v any, required bool) [][]float64 {
	const want = "want one list a repeat, such as [ [ 0.46, 0.47 ], [ 0.45, 0.47 ] ]"
	repeats, ok := v.([]any)
	switch {
	case !ok:
		t.Wrong(key, v, want)
		return nil
	case len(repeats) > MaxRepeats:
		t.Report(key, "found "+strconv.Itoa(len(repeats))+" repeats", "want at most "+strconv.Itoa(MaxRepeats))
		return nil
	case len(repeats) == 0:
		if required {
			t.Report(key, "found an empty list", want)
		}
		return nil
	}
	lists := make([][]float64, 0, len(repeats))
	for i, repeat := range repeats {
		spot, name := key+"."+strconv.Itoa(i), key+"."+strconv.Itoa(i+1)
		items, ok := repeat.([]any)
		if !ok {
			t.ReportAt(spot, name, "found "+document.Describe(repeat), want)
			return nil // every number of a list that is not nested has this fault
		}
		lists = append(lists, t.list(spot, name, items))
	}
	return lists
}

// commas reports decimal commas in the lists of some keys, in whatever unit: as they were
// written, which is what shows them.
func (t *table) commas(keys ...string) {
	for whole, v := range t.Tree {
		repeats, ok := v.([]any)
		if !ok || !slices.ContainsFunc(keys, func(key string) bool { return strings.HasPrefix(whole, key+"_") }) {
			continue
		}
		for i := range repeats {
			items, _ := repeats[i].([]any)
			if first := document.CommaDecimals(items); first != "" {
				at := "." + strconv.Itoa(i)
				t.ReportAt(whole+at, whole+"."+strconv.Itoa(i+1), "found "+first+", which TOML takes for two readings", "want a decimal point: "+strings.Replace(first, ",", ".", 1))
				repeats[i] = []any{1.0} // said once
			}
		}
	}
}

// list reads one repeat.
func (t *table) list(spot, name string, items []any) []float64 {
	if len(items) > MaxTurns {
		t.ReportAt(spot, name, "found "+strconv.Itoa(len(items))+" readings", "want at most "+strconv.Itoa(MaxTurns)+", one a fusee turn")
		return nil
	}
	if first := document.CommaDecimals(items); first != "" {
		t.ReportAt(spot, name, "found "+first+", which TOML takes for two readings", "want a decimal point: "+strings.Replace(first, ",", ".", 1))
		return nil
	}
	list, taken := make([]float64, len(items)), false
	for i, item := range items {
		list[i] = math.NaN()
		if item == any(missingReading) {
			continue
		}
		taken = true
		n, ok := document.Number(item)
		if !ok || !torqueRange.Holds(n) {
			at := "." + strconv.Itoa(i)
			t.ReportAt(spot+at, name+at, "found "+document.Describe(item), torqueRange.Want(item)+`, or "-" for a missing reading`)
			continue
		}
		list[i] = n
	}
	if !taken {
		t.ReportAt(spot, name, "found no reading", oneReading)
	}
	return list
}

// file reads the lists from the file that a key names.
func (t *table) file(key string, v any) [][]float64 {
	name, ok := v.(string)
	switch {
	case !ok || name == "":
		t.Wrong(key, v, "want the name of a file of readings, such as \"readings.csv\"")
		return nil
	case document.Unprintable(name, false) != "":
		t.Report(key, "found "+document.Unprintable(name, false), "want the name of a file of readings")
		return nil
	case t.rd.open == nil:
		t.Report(key, "found the name of a file, and none can be read from here", "want the readings themselves in running_down or winding_up")
		return nil
	}
	f, err := t.rd.open(name)
	if err != nil {
		t.Report(key, fmt.Sprintf("found %q, which cannot be opened: %v", name, err), "want the name of a file of readings")
		return nil
	}
	defer f.Close()
	if named, ok := f.(interface{ Name() string }); ok {
		name = named.Name() // its whole path
	}
	all, err := readSheet(f, name)
	t.digit = least(t.digit, all.digit)
	var faults scenario.Faults
	switch {
	case errors.As(err, &faults):
		t.rd.apart = append(t.rd.apart, faults...)
	case err != nil:
		t.Report(key, "found a file that cannot be read: "+err.Error(), "want the name of a file of readings")
	}
	return all.lists
}
