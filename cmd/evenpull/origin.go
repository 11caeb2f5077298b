package main

import (
	"slices"
	"strings"

	"evenpull/sim/show/data"
)

// reads are the files that a command has read so far; nil gathers none.
type reads struct{ files []data.File }

// add takes down a file with its text. What is read a second time stands there already.
func (r *reads) add(name, text string) {
	if r == nil {
		return
	}
	if f := inputFile(name, text); !slices.Contains(r.files, f) {
		r.files = append(r.files, f)
	}
}

// inputFile is a file by its name without the folder, whatever system that is of.
func inputFile(name, text string) data.File {
	return data.File{Name: name[strings.LastIndexAny(name, `/\`)+1:], SHA256: checksum([]byte(text))}
}

// origin tells where the result of a command comes from; seed is that of the draws, nil for
// none.
func (f *flags) origin(s streams, seed *int64) data.Origin {
	b := thisBuild()
	return data.Origin{Command: f.command, Version: b.version, Commit: b.commit, Title: f.title, Files: s.read.files, Set: f.set, Seed: seed}
}
