package main

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"fmt"
	"maps"
	"path"
	"regexp"
	"slices"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/data"
)

// files are those of a document: the texts of the scenarios that it was made from, and of a
// bench book with its files of readings, if any; its figures as JSON and CSV, its pictures,
// and the manifest, of which m has what the document does not tell.
func (d *made) files(m manifest) ([]files.Part, error) {
	m.Set = append([]string{}, m.Set...)
	m.Origin, m.Scenarios, m.Names, m.Readings, m.SHA256 = d.document.Origin, nil, nil, map[string]string{}, map[string]string{}
	parts, err := d.figures(&m)
	for i, s := range d.from.scenarios {
		m.Scenarios = append(m.Scenarios, fmt.Sprintf("scenario-%d.toml", i+1))
		m.Names = append(m.Names, s.name)
		parts = append(parts, files.Part{Name: m.Scenarios[i], Data: []byte(s.text)})
	}
	if d.from.bench != nil {
		m.Bench, m.BenchName = "bench.toml", d.from.bench.name
		parts = append(parts, files.Part{Name: m.Bench, Data: []byte(d.from.bench.text)})
		for i, name := range slices.Sorted(maps.Keys(d.from.readings)) {
			m.Readings[name] = readingsName(name, i+1)
			parts = append(parts, files.Part{Name: m.Readings[name], Data: []byte(d.from.readings[name])})
		}
	}
	for _, p := range d.pictures() {
		parts = append(parts, files.Part{Name: path.Join("pictures", p.Name), Data: p.Data})
	}
	size := 0
	for _, f := range parts {
		m.SHA256[f.Name] = checksum(f.Data)
		size += len(f.Data)
	}
	text := m.text()
	if size += len(text); len(parts) >= mostFiles || size > mostBytes || len(text) > mostOfManifest {
		return nil, fmt.Errorf("the data would be %d files of %d MB; want at most %d of %d MB: fewer scenarios, or fewer trains in them", len(parts)+1, size>>20, mostFiles, mostBytes>>20)
	}
	return append(parts, files.Part{Name: manifestName, Data: text}), cmp.Or(err, m.check())
}

// readingsName is what a file of readings is kept as: by the name that the bench book has
// for it where it can, so that the book reads it there too.
func readingsName(name string, number int) string {
	if ownName.MatchString(name) && !taken.MatchString(name) {
		return name
	}
	return fmt.Sprintf("readings-%d.csv", number)
}

var (
	ownName = regexp.MustCompile(`^[a-z][a-z0-9_-]{0,60}\.csv$`) // everywhere the name of one file
	// Names of ours, and those that Windows keeps for devices.
	taken = regexp.MustCompile(`^((clock|bench|result|rows|readings)-.*|con|prn|aux|nul|(com|lpt)[0-9])\.csv$`)
)

// pictures are those of the document, each in a file of its own.
func (d *made) pictures() (parts []files.Part) {
	for _, p := range d.document.Pictures {
		parts = append(parts, files.Part{Name: p.ID + ".svg", Data: p.SVG})
	}
	return parts
}

func checksum(content []byte) string { return fmt.Sprintf("%x", sha256.Sum256(content)) }

// figures are all those that stand in the document, as the commands write them: of
// every clock its run, of every train its studies, and what the bench book says.
func (d *made) figures(m *manifest) ([]files.Part, error) {
	var k keeper
	for i, c := range d.clocks {
		plain, drawn := d.origins(m, i, c.Run.Title)
		keep(&k, fmt.Sprintf("result-%d.json", i+1), fmt.Sprintf("rows-%d.csv", i+1), data.Run(), drawn, c.Run)
		for n := range c.Trains {
			t, name := &c.Trains[n], fmt.Sprintf("clock-%d-train-%d-", i+1, n+1)
			study(&k, name+"thickness", data.Sweep(), plain, t.Sweep)
			study(&k, name+"rank", data.Rank(), plain, t.Rank)
			study(&k, name+"setup", data.SetUp(), drawn, t.SetUp)
			study(&k, name+"made", data.Choose(), drawn, t.Made)
		}
	}
	if d.bench != nil {
		plain, drawn := d.origins(m, 0, d.clocks[0].Run.Title)
		study(&k, "bench-record", data.Record(), plain, d.bench.Readings)
		study(&k, "bench-assign", data.Assign(), drawn, d.bench.Assign)
	}
	return k.parts, k.err
}

// origins are those of the studies of a clock: without draws, and with them.
func (d *made) origins(m *manifest, i int, title string) (plain, drawn data.Origin) {
	plain = data.Origin{Command: "report", Version: d.document.Version, Commit: d.document.Commit, Title: title, Set: m.Set}
	read := func(name, text string) { plain.Files = append(plain.Files, inputFile(name, text)) }
	read(d.from.scenarios[i].name, d.from.scenarios[i].text)
	if i == 0 && d.from.bench != nil {
		read(d.from.bench.name, d.from.bench.text)
		for _, name := range slices.Sorted(maps.Keys(d.from.readings)) {
			read(name, d.from.readings[name])
		}
	}
	drawn = plain
	drawn.Seed = (&drawFlags{m.Draws}).seedIf(true)
	return plain, drawn
}

// keeper gathers files, and the first error met on the way.
type keeper struct {
	parts []files.Part
	err   error
}

// study keeps the document of a study and its rows, if there is one.
func study[T any](k *keeper, name string, of data.Document[T], origin data.Origin, result *T) {
	if result != nil {
		keep(k, name+".json", name+".csv", of, origin, result)
	}
}

func keep[T any](k *keeper, document, rows string, of data.Document[T], origin data.Origin, result *T) {
	var j, c bytes.Buffer
	k.err = cmp.Or(k.err, of.JSON(&j, origin, result), of.CSV(&c, origin, result))
	k.parts = append(k.parts, files.Part{Name: document, Data: j.Bytes()}, files.Part{Name: rows, Data: c.Bytes()})
}
