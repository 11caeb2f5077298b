package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
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
	Version   string            `json:"version"`
	Date      string            `json:"date"`
	Command   string            `json:"command"`
	Scenarios []string          `json:"scenarios"` // files, in the order they were given
	Set       []string          `json:"set"`       // changes made to each of them
	Bench     string            `json:"bench"`     // a file, "" for none
	SHA256    map[string]string `json:"sha256"`    // of every other file
}

// ManifestName is the file that lists the others.
const ManifestName = "manifest.json"

// Source is a text that a document was made from.
type Source struct{ Name, Text string }

// Data gives the files of a document: what it was made from, its figures as JSON
// and CSV, its pictures, and the manifest.
func (d *Document) Data(scenarios []Source, set []string, bench *Source) ([]File, error) {
	m := Manifest{Version: d.Version, Date: d.Date, Command: d.Command, Set: append([]string{}, set...), SHA256: map[string]string{}}
	var files []File
	add := func(name string, content []byte) {
		sum := sha256.Sum256(content)
		m.SHA256[name] = hex.EncodeToString(sum[:])
		files = append(files, File{name, content})
	}
	for i, s := range scenarios {
		name := fmt.Sprintf("scenario-%d.toml", i+1)
		m.Scenarios = append(m.Scenarios, name)
		add(name, []byte(s.Text))
	}
	if bench != nil {
		m.Bench = "bench.toml"
		add(m.Bench, []byte(bench.Text))
	}
	figures, err := d.Figures()
	if err != nil {
		return nil, err
	}
	for _, f := range figures {
		add(f.Name, f.Data)
	}
	for _, p := range d.Pictures() {
		add(path.Join("pictures", p.ID+".svg"), p.SVG)
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(m); err != nil {
		return nil, err
	}
	return append(files, File{ManifestName, b.Bytes()}), nil
}

// Figures are the results of every clock, as run writes them.
func (d *Document) Figures() ([]File, error) {
	var files []File
	for i := range d.Clocks {
		run := d.Clocks[i].of.Run
		var j, c bytes.Buffer
		if err := errors.Join(data.Run().JSON(&j, run), data.Run().CSV(&c, run)); err != nil {
			return nil, err
		}
		files = append(files, File{fmt.Sprintf("result-%d.json", i+1), j.Bytes()}, File{fmt.Sprintf("rows-%d.csv", i+1), c.Bytes()})
	}
	return files, nil
}

// ReadManifest reads the manifest of a folder of data.
func ReadManifest(dir fs.FS) (*Manifest, error) {
	data, err := fs.ReadFile(dir, ManifestName)
	if err != nil {
		return nil, fmt.Errorf("this is no folder of a study's data: %w", err)
	}
	var m Manifest
	if err := json.Unmarshal(data, &m); err != nil || len(m.Scenarios) == 0 || len(m.SHA256) == 0 {
		return nil, fmt.Errorf("%s is none that evenpull wrote: %v", ManifestName, err)
	}
	for name := range m.SHA256 {
		if !fs.ValidPath(name) {
			return nil, fmt.Errorf("%s names a file outside the folder: %q", ManifestName, name)
		}
	}
	for _, name := range append(slices.Clone(m.Scenarios), m.Bench) {
		if _, listed := m.SHA256[name]; !listed && name != "" {
			return nil, fmt.Errorf("%s has no checksum for %q", ManifestName, name)
		}
	}
	return &m, nil
}

// Changed lists the files of the folder that are not as the manifest has them, each
// with what is wrong.
func (m *Manifest) Changed(dir fs.FS) []string {
	var list []string
	for name, want := range m.SHA256 {
		data, err := fs.ReadFile(dir, name)
		sum := sha256.Sum256(data)
		switch {
		case err != nil:
			list = append(list, name+" is missing")
		case hex.EncodeToString(sum[:]) != want:
			list = append(list, name+" was changed")
		}
	}
	slices.Sort(list)
	return list
}

// Differs lists the figures that come out otherwise when computed again, each with
// the first line that differs.
func (d *Document) Differs(dir fs.FS) ([]string, error) {
	figures, err := d.Figures()
	if err != nil {
		return nil, err
	}
	var list []string
	for _, f := range figures {
		kept, err := fs.ReadFile(dir, f.Name)
		switch {
		case err != nil:
			list = append(list, f.Name+" is missing")
		case !bytes.Equal(kept, f.Data):
			list = append(list, f.Name+": "+firstDifference(string(kept), string(f.Data)))
		}
	}
	return list, nil
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
