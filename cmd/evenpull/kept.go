package main

import (
	"bytes"
	"cmp"
	"fmt"
	"path"
	"strings"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/data"
)

// supplement is the document with all figures that stand in it, as the commands write them:
// of every clock its run, of every train its studies, and what the bench book says.
func (m *made) supplement(f *reportFlags, s streams) (*supplement, error) {
	var k keeper
	for i, c := range m.clocks {
		plain, drawn := m.origins(f, s, i, c.Run.Title)
		keep(&k, fmt.Sprintf("result-%d.json", i+1), fmt.Sprintf("rows-%d.csv", i+1), data.Run(), drawn, c.Run)
		for n := range c.Trains {
			t, name := &c.Trains[n], fmt.Sprintf("clock-%d-train-%d-", i+1, n+1)
			keepStudy(&k, name+"thickness", data.Sweep(), plain, t.Sweep)
			keepStudy(&k, name+"rank", data.Rank(), plain, t.Rank)
			keepStudy(&k, name+"setup", data.SetUp(), drawn, t.SetUp)
			keepStudy(&k, name+"made", data.Choose(), drawn, t.Made)
		}
	}
	if m.bench != nil {
		plain, drawn := m.origins(f, s, 0, m.clocks[0].Run.Title)
		keepStudy(&k, "bench-record", data.Record(), plain, m.bench.Readings)
		keepStudy(&k, "bench-assign", data.Assign(), drawn, m.bench.Assign)
	}
	for _, p := range m.pictures() {
		if !strings.HasPrefix(p.Name, "study-") { // which is in the folder of that
			k.parts = append(k.parts, part{files.Part{Name: path.Join(picturesWithin, p.Name), Data: p.Data}, nil})
		}
	}
	sup := &supplement{title: m.document.Title, parts: k.parts, pictures: m.pictures(), studies: m.studies, called: baseOf(f.out), date: m.document.Date}
	if s.again != nil {
		sup.called = s.again.m.Page.Name
	}
	if sup.called != "" {
		var page bytes.Buffer
		k.err = cmp.Or(k.err, m.write(&page, sup.called))
		sup.page = page.Bytes()
	}
	return sup, k.err
}

// origins are those of the studies of a clock: without draws, and with them.
func (m *made) origins(f *reportFlags, s streams, i int, title string) (plain, drawn data.Origin) {
	plain = data.Origin{Command: "report", Version: m.document.Version, Commit: m.document.Commit, Title: title, Set: f.set, Files: m.read[i].files}
	drawn = plain
	drawn.Seed = f.seedIf(true)
	return plain, drawn
}

// keepStudy keeps the document of a study and its rows, if there is one.
func keepStudy[T any](k *keeper, name string, of data.Document[T], origin data.Origin, result *T) {
	if result != nil {
		keep(k, name+".json", name+".csv", of, origin, result)
	}
}
