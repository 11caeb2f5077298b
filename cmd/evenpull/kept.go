package main

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"evenpull/sim/show/data"
	"evenpull/sim/show/page"
)

// keptFile is one file of a study's data.
type keptFile struct {
	name string // within the folder, with slashes
	data []byte
}

// manifest lists the files of a folder of data and how they were made.
type manifest struct {
	page.Origin
	Scenarios []string          `json:"scenarios"` // files, in the order they were given
	Set       []string          `json:"set"`       // changes made to each of them
	Draws     int               `json:"draws"`     // that tell how sure verdicts are; 0 for none
	Bench     string            `json:"bench"`     // a file, "" for none
	SHA256    map[string]string `json:"sha256"`    // of every other file
}

// manifestName is the file that lists the others.
const manifestName = "manifest.json"

// files are those of a document: the texts of the scenarios that it was made from, to
// each of which the changes were made, and of a bench book, if any; its figures as JSON
// and CSV, its pictures, and the manifest.
func (d *made) files(set []string, draws int) ([]keptFile, error) {
	m := manifest{Origin: d.document.Origin, Set: append([]string{}, set...), Draws: draws, SHA256: map[string]string{}}
	files, err := d.figures()
	for i, text := range d.sources {
		m.Scenarios = append(m.Scenarios, fmt.Sprintf("scenario-%d.toml", i+1))
		files = append(files, keptFile{m.Scenarios[i], []byte(text)})
	}
	if d.bench != "" {
		m.Bench = "bench.toml"
		files = append(files, keptFile{m.Bench, []byte(d.bench)})
	}
	for _, p := range d.pictures() {
		files = append(files, keptFile{path.Join("pictures", p.name), p.data})
	}
	for _, f := range files {
		m.SHA256[f.name] = checksum(f.data)
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err = cmp.Or(err, enc.Encode(m))
	return append(files, keptFile{manifestName, b.Bytes()}), err
}

// pictures are those of the document, each in a file of its own.
func (d *made) pictures() (files []keptFile) {
	for _, p := range d.document.Pictures {
		files = append(files, keptFile{p.ID + ".svg", p.SVG})
	}
	return files
}

func checksum(content []byte) string { return fmt.Sprintf("%x", sha256.Sum256(content)) }

// figures are the results of every clock, as run writes them.
func (d *made) figures() (files []keptFile, err error) {
	for i, c := range d.clocks {
		var j, rows bytes.Buffer
		err = cmp.Or(err, data.Run().JSON(&j, c.Run), data.Run().CSV(&rows, c.Run))
		files = append(files, keptFile{fmt.Sprintf("result-%d.json", i+1), j.Bytes()}, keptFile{fmt.Sprintf("rows-%d.csv", i+1), rows.Bytes()})
	}
	return files, err
}

// readManifest reads the manifest of a folder of data.
func readManifest(dir fs.FS) (*manifest, error) {
	text, err := fs.ReadFile(dir, manifestName)
	if err != nil {
		return nil, fmt.Errorf("this is no folder of a study's data: %w", err)
	}
	var m manifest
	if err := json.Unmarshal(text, &m); err != nil || len(m.Scenarios) == 0 || len(m.SHA256) == 0 {
		return nil, fmt.Errorf("%s is none that evenpull wrote: %v", manifestName, err)
	}
	names := slices.Concat(slices.Collect(maps.Keys(m.SHA256)), m.Scenarios)
	if m.Bench != "" {
		names = append(names, m.Bench)
	}
	for _, name := range names {
		if _, listed := m.SHA256[name]; !listed || !fs.ValidPath(name) {
			return nil, fmt.Errorf("%s names %q, which is outside the folder or has no checksum", manifestName, name)
		}
	}
	return &m, nil
}

// changed lists the files of the folder that are not as the manifest has them, each
// with what is wrong.
func (m *manifest) changed(dir fs.FS) []string {
	var list []string
	for name, want := range m.SHA256 {
		if content, err := fs.ReadFile(dir, name); err != nil {
			list = append(list, name+" is missing")
		} else if checksum(content) != want {
			list = append(list, name+" was changed")
		}
	}
	slices.Sort(list)
	return list
}

// differs lists the figures that come out otherwise when computed again, each with
// the first line that differs.
func (d *made) differs(dir fs.FS) ([]string, error) {
	var list []string
	figures, err := d.figures()
	for _, f := range figures {
		if kept, err := fs.ReadFile(dir, f.name); err != nil {
			list = append(list, f.name+" is missing")
		} else if !bytes.Equal(kept, f.data) {
			list = append(list, f.name+": "+firstDifference(string(kept), string(f.data)))
		}
	}
	return list, err
}

func firstDifference(kept, now string) string {
	a, b := strings.Split(kept, "\n"), strings.Split(now, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("line %d was %q and is %q now", i+1, strings.TrimSpace(a[i]), strings.TrimSpace(b[i]))
		}
	}
	return fmt.Sprintf("it had %d lines and has %d now", len(a), len(b))
}
