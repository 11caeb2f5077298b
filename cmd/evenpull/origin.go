package main

import (
	"encoding/hex"
	"slices"
	"strings"

	"evenpull/sim/show/data"
)

// reads are the files that a command has read so far; nil gathers none.
type reads struct{ files []data.File }

// add takes down a file with its text. What is read a second time stands there already.
func (r *reads) add(name, text string) { r.note(inputFile(name, text)) }

// take is add of one that is not held whole, by its check sum.
func (r *reads) take(name string, sum []byte) {
	r.note(data.File{Name: baseOf(name), SHA256: hex.EncodeToString(sum)})
}

func (r *reads) note(f data.File) {
	if r != nil && !slices.Contains(r.files, f) {
		r.files = append(r.files, f)
	}
}

func inputFile(name, text string) data.File {
	return data.File{Name: baseOf(name), SHA256: checksum([]byte(text))}
}

// baseOf is the name of a file without its folder, whatever system that is of.
func baseOf(name string) string { return name[strings.LastIndexAny(name, `/\`)+1:] }

// origin tells where the result of a command comes from; seed is that of the draws, nil for
// none.
func (f *flags) origin(s streams, seed *int64) data.Origin {
	b := thisBuild()
	return data.Origin{Command: f.command, Version: b.version, Commit: b.commit, Title: f.title, Files: s.read.files, Set: f.set, Seed: seed}
}
