package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"unicode/utf8"

	"evenpull/sim/scenario"
	"evenpull/sim/show/page"
)

// manifest lists the files of a folder of data and how they were made.
type manifest struct {
	page.Origin
	Scenarios []string          `json:"scenarios"`  // files, in the order they were given
	Names     []string          `json:"names"`      // what they were called then
	Set       []string          `json:"set"`        // changes made to each of them
	Springs   []string          `json:"springs"`    // of the bench file that were said to be in a train
	Draws     int               `json:"draws"`      // that tell how sure verdicts are; 0 for none
	Bench     string            `json:"bench"`      // a file, "" for none
	BenchName string            `json:"bench_name"` // what it was called then
	Readings  map[string]string `json:"readings"`   // files of readings, by the names that the bench book has for them
	Page      keptPage          `json:"page"`       // that was written at the same time
	SHA256    map[string]string `json:"sha256"`     // of every other file
}

// keptPage is the page of a study, which stands beside the folder or elsewhere.
type keptPage struct {
	Name   string `json:"name"` // without its folder; "" for none
	SHA256 string `json:"sha256"`
}

// manifestName is the file that lists the others.
const manifestName = "manifest.json"

// What a folder of data holds at most: what holds more is not read.
const (
	mostScenarios  = 12
	mostFiles      = 4096
	mostBytes      = 64 << 20 // of all together, and of a page
	mostOfManifest = 1 << 20
	mostOfText     = 4096 // characters of a text in the manifest
)

// text is the manifest as its file has it.
func (m *manifest) text() []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	_ = enc.Encode(m) // texts and a number cannot fail
	return b.Bytes()
}

// readManifest reads the manifest of a folder of data.
func readManifest(dir fs.FS) (*manifest, error) {
	text, err := readPlain(dir, manifestName, mostOfManifest)
	if err != nil {
		return nil, fmt.Errorf("this is no folder of a study's data: %w", err)
	}
	return parseManifest(text)
}

// parseManifest takes a manifest that is to the letter as one is written: so nothing is in
// it twice, or by another spelling of its name, or beside what is known. What is in it is
// not told, since it may be anybody's.
func parseManifest(text []byte) (*manifest, error) {
	var m manifest
	if err := json.Unmarshal(text, &m); err != nil || !bytes.Equal(m.text(), text) {
		return nil, errors.New(manifestName + " is not as evenpull writes it: it was edited or cut off, or is of another version or program")
	}
	return &m, m.check()
}

// check judges what the manifest says of how the study was made.
func (m *manifest) check() error {
	fault := func(format string, args ...any) error { return fmt.Errorf(manifestName+": "+format, args...) }
	switch n := len(m.Scenarios); {
	case n == 0 || n > mostScenarios || len(m.Names) != n:
		return fault("found %d scenarios of %d names; want 1 to %d, each with its name", n, len(m.Names), mostScenarios)
	case m.Draws < 0 || m.Draws > mostDraws:
		return fault("draws: found %d; want 0 to %d", m.Draws, mostDraws)
	case m.Page.Name != "" && !pageName.MatchString(m.Page.Name):
		return fault("page: found %s; want the name of an .html or .md file, without a folder", told(m.Page.Name))
	}
	inputs := slices.Concat(m.Scenarios, slices.Collect(maps.Values(m.Readings)))
	if m.Bench != "" {
		inputs = append(inputs, m.Bench)
	}
	slices.Sort(inputs)
	for i, name := range inputs {
		if _, listed := m.SHA256[name]; !listed || i > 0 && inputs[i-1] == name {
			return fault("%s is named as what the study was made from, but is in the list not at all or twice", told(name))
		}
	}
	for _, text := range slices.Concat([]string{m.Version, m.Commit, m.Date, m.Command, m.BenchName, m.Page.Name}, m.Names, m.Set, m.Springs, slices.Collect(maps.Keys(m.Readings))) {
		if utf8.RuneCountInString(text) > mostOfText || scenario.Unprintable(text) != "" {
			return fault("found %s; want at most %d characters that can be printed", told(text), mostOfText)
		}
	}
	return nil
}

// pageName is that of a page, without a folder.
var pageName = regexp.MustCompile(`(?i)^[^/\\:]+\.(html|md)$`)

// told is a name as messages show one that may be anybody's.
func told(name string) string {
	const most = 60
	if r := []rune(name); len(r) > most {
		name = string(r[:most]) + "…"
	}
	if plainName.MatchString(name) {
		return name
	}
	return fmt.Sprintf("%+q", name)
}

var plainName = regexp.MustCompile(`^[\pL\pN_.…/-]+$`)

// changed lists the files that were read of the folder and are not as the manifest has
// them, each with what is wrong.
func (m *manifest) changed(held map[string][]byte) []string {
	var list []string
	for name, want := range m.SHA256 {
		if content, there := held[name]; !there {
			list = append(list, told(name)+" is missing")
		} else if checksum(content) != want {
			list = append(list, told(name)+" was changed")
		}
	}
	for name := range held {
		if _, listed := m.SHA256[name]; !listed && name != manifestName {
			list = append(list, told(name)+" is not in the list of "+manifestName)
		}
	}
	slices.Sort(list)
	return list
}

// sources are the texts that the study was made from, by the names of then.
func (m *manifest) sources(held map[string][]byte) *sources {
	from := &sources{readings: map[string]string{}}
	for i, name := range m.Scenarios {
		from.scenarios = append(from.scenarios, named{m.Names[i], string(held[name])})
	}
	if m.Bench != "" {
		from.bench = &named{m.BenchName, string(held[m.Bench])}
	}
	for name, file := range m.Readings {
		from.readings[name] = string(held[file])
	}
	return from
}

// picturesOf is what the folder of the pictures of a Markdown page is called.
func picturesOf(page string) string { return filepath.Base(picturesFolder(page)) }
