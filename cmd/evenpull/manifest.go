package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"unicode/utf8"

	"evenpull/sim/scenario"
	"evenpull/sim/show/page"
)

// manifest lists the files of a folder of data and how they were made.
type manifest struct {
	page.Origin
	Args    []string          `json:"args"`    // with which the command comes to the same again
	Inputs  []keptInput       `json:"inputs"`  // what it read
	Studies []keptInput       `json:"studies"` // folders of data that it put into its page
	Page    keptPage          `json:"page"`    // that was written at the same time
	SHA256  map[string]string `json:"sha256"`  // of every other file
}

// keptInput is what a command read: what it called it then, and where it is kept.
type keptInput struct {
	Given string `json:"given"`
	Kept  string `json:"kept"`
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
	mostStudies    = 24
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
	if len(m.Args) == 0 {
		return fault("found no args; want those of the command")
	}
	if m.Page.Name != "" && !pageName.MatchString(m.Page.Name) {
		return fault("page: found %s; want the name of an .html or .md file, without a folder", told(m.Page.Name))
	}
	var given, kept []string
	for _, in := range m.Inputs {
		if _, listed := m.SHA256[in.Kept]; !listed || slices.Contains(kept, in.Kept) || slices.Contains(given, in.Given) {
			return fault("%s is named as what the study was made from, but is in the list not at all or twice", told(in.Kept))
		}
		given, kept = append(given, in.Given), append(kept, in.Kept)
	}
	if len(m.Studies) > mostStudies {
		return fault("found %d studies; want at most %d", len(m.Studies), mostStudies)
	}
	for _, in := range m.Studies {
		if !studyFolder.MatchString(in.Kept) || slices.Contains(kept, in.Kept) || slices.Contains(given, in.Given) {
			return fault("%s is named as the folder of a study, but is none that there can be, or is there twice", told(in.Kept))
		}
		given, kept = append(given, in.Given), append(kept, in.Kept)
	}
	for _, text := range slices.Concat([]string{m.Version, m.Commit, m.Date, m.Command, m.Page.Name}, m.Args, given, kept) {
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
	switch {
	case plainName.MatchString(name):
		return name
	case scenario.Unprintable(name) == "":
		return strconv.Quote(name)
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

// picturesOf is what the folder of the pictures of a Markdown page is called.
func picturesOf(page string) string { return filepath.Base(picturesFolder(page)) }
