package book

import (
	"fmt"
	"math"

	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// reader holds what the tables of a bench file need beside themselves.
type reader struct {
	open  Open
	apart scenario.Faults // of the files of readings that the bench file names
}

// table is one TOML table of a bench file.
type table struct {
	entry.Table
	rd    *reader
	digit float64 // N·m, the last of the readings; NaN where there are none
}

// tables gives the items of an array of tables, none when there is none.
func (t *table) tables(key, header, name string, most int) []table {
	var items []table
	for _, item := range t.Tables(key, header, name, most) {
		items = append(items, table{item, t.rd, math.NaN()})
	}
	return items
}

// name reads the name of a train.
func (t *table) name(key string) string {
	want := fmt.Sprintf("want the name of a train: up to %d letters, digits, - and _", scenario.MaxName)
	v, ok := t.Tree[key]
	if !ok {
		t.Report(key, "missing", want)
		return ""
	}
	if s, ok := v.(string); ok && scenario.ValidName(s) {
		return s
	}
	t.Wrong(key, v, want)
	return ""
}
