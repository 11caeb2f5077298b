package main

import (
	"encoding/hex"
	"slices"
	"strings"

	"evenpull/sim/show/data"
)

// reads are the files that a command has read so far; nil gathers none.
type reads struct {
	files []data.File
	texts []named
}

// named is a text, with the name by which the command line or a file that it names calls it.
type named struct{ name, text string }

// add takes down a file with its text. What is read a second time stands there already.
func (r *reads) add(name, text string) {
	r.note(data.File{Name: baseOf(source(name)), SHA256: checksum([]byte(text))})
	r.hold(name, text)
}

// take is add of one that is not held whole, by its check sum.
func (r *reads) take(name string, sum []byte) {
	r.note(data.File{Name: baseOf(name), SHA256: hex.EncodeToString(sum)})
}

func (r *reads) note(f data.File) {
	if r != nil && !slices.Contains(r.files, f) {
		r.files = append(r.files, f)
	}
}

// hold keeps the text of a file, so that it can be kept with what comes of it.
func (r *reads) hold(name, text string) {
	if r != nil && !slices.ContainsFunc(r.texts, func(n named) bool { return n.name == name }) {
		r.texts = append(r.texts, named{name, text})
	}
}

// also takes down what others have read.
func (r *reads) also(other *reads) {
	for _, f := range other.files {
		r.note(f)
	}
	for _, n := range other.texts {
		r.hold(n.name, n.text)
	}
}

// baseOf is the name of a file without its folder, whatever system that is of.
func baseOf(name string) string { return name[strings.LastIndexAny(name, `/\`)+1:] }

// origin tells where the result of a command comes from; seed is that of the draws, nil for
// none.
func (f *flags) origin(s streams, seed *int64) data.Origin {
	b := s.build()
	return data.Origin{Command: f.command, Version: b.version, Commit: b.commit, Title: f.title, Files: s.read.files, Set: f.set, Seed: seed}
}
