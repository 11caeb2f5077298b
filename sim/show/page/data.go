package page

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
)

// File is one file of a study's data.
type File struct {
	Name string // within the folder, with slashes
	Data []byte
}

// Manifest lists the files of a folder of data and how they were made.
type Manifest struct {
	Origin
	Scenarios []string          `json:"scenarios"` // files, in the order they were given
	Set       []string          `json:"set"`       // changes made to each of them
	Bench     string            `json:"bench"`     // a file, "" for none
	SHA256    map[string]string `json:"sha256"`    // of every other file
}

// ManifestName is the file that lists the others.
const ManifestName = "manifest.json"

// Data gives the files of a document: the texts of the scenarios that it was made
// from, to each of which the changes were made, and of a bench book, if any; its
// figures as JSON and CSV, its pictures, and the manifest.
func (d *Document) Data(scenarios, set []string, bench string) ([]File, error) {
	m := Manifest{Origin: d.Origin, Set: append([]string{}, set...), SHA256: map[string]string{}}
	files, err := d.Figures()
	for i, text := range scenarios {
		m.Scenarios = append(m.Scenarios, fmt.Sprintf("scenario-%d.toml", i+1))
		files = append(files, File{m.Scenarios[i], []byte(text)})
	}
	if bench != "" {
		m.Bench = "bench.toml"
		files = append(files, File{m.Bench, []byte(bench)})
	}
	for _, p := range d.Pictures {
		files = append(files, File{path.Join("pictures", p.ID+".svg"), p.SVG})
	}
	for _, f := range files {
		m.SHA256[f.Name] = checksum(f.Data)
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err = cmp.Or(err, enc.Encode(m))
	return append(files, File{ManifestName, b.Bytes()}), err
}

func checksum(content []byte) string { return fmt.Sprintf("%x", sha256.Sum256(content)) }

// Figures are the results of every clock, as run writes them.
func (d *Document) Figures() (files []File, err error) {
	for i, c := range d.clocks {
		var j, rows bytes.Buffer
		err = cmp.Or(err, data.Run().JSON(&j, c.Run), data.Run().CSV(&rows, c.Run))
		files = append(files, File{fmt.Sprintf("result-%d.json", i+1), j.Bytes()}, File{fmt.Sprintf("rows-%d.csv", i+1), rows.Bytes()})
	}
	return files, err
}

// ReadManifest reads the manifest of a folder of data.
func ReadManifest(dir fs.FS) (*Manifest, error) {
	text, err := fs.ReadFile(dir, ManifestName)
	if err != nil {
		return nil, fmt.Errorf("this is no folder of a study's data: %w", err)
	}
	var m Manifest
	if err := json.Unmarshal(text, &m); err != nil || len(m.Scenarios) == 0 || len(m.SHA256) == 0 {
		return nil, fmt.Errorf("%s is none that evenpull wrote: %v", ManifestName, err)
	}
	names := slices.Concat(slices.Collect(maps.Keys(m.SHA256)), m.Scenarios)
	if m.Bench != "" {
		names = append(names, m.Bench)
	}
	for _, name := range names {
		if _, listed := m.SHA256[name]; !listed || !fs.ValidPath(name) {
			return nil, fmt.Errorf("%s names %q, which is outside the folder or has no checksum", ManifestName, name)
		}
	}
	return &m, nil
}

// Changed lists the files of the folder that are not as the manifest has them, each
// with what is wrong.
func (m *Manifest) Changed(dir fs.FS) []string {
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

// Differs lists the figures that come out otherwise when computed again, each with
// the first line that differs.
func (d *Document) Differs(dir fs.FS) ([]string, error) {
	var list []string
	figures, err := d.Figures()
	for _, f := range figures {
		if kept, err := fs.ReadFile(dir, f.Name); err != nil {
			list = append(list, f.Name+" is missing")
		} else if !bytes.Equal(kept, f.Data) {
			list = append(list, f.Name+": "+firstDifference(string(kept), string(f.Data)))
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
