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

// named is a text with what its file is called, and by which name it was asked for: that of
// the command line or, of a file that another one names, as readingsIn has it.
type named struct{ given, file, text string }

// add takes down a file with its text. What is read a second time stands there already.
func (r *reads) add(given, file, text string) {
	r.note(data.File{Name: baseOf(file), SHA256: checksum([]byte(text))})
	r.hold(given, file, text)
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
func (r *reads) hold(given, file, text string) {
	if r != nil && !slices.ContainsFunc(r.texts, func(n named) bool { return n.given == given }) {
		r.texts = append(r.texts, named{given, file, text})
	}
}

// also takes down what others have read.
func (r *reads) also(other *reads) {
	for _, f := range other.files {
		r.note(f)
	}
	for _, n := range other.texts {
		r.hold(n.given, n.file, n.text)
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
