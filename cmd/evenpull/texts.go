package main

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"evenpull/sim/scenario"
)

// textOf is the text behind the name of a file of a kind, which is taken down as read.
func textOf(s streams, of int, name string) (string, error) {
	text, err := textNamed(s, &kinds()[of], name)
	if err == nil {
		s.read.add(name, source(name), text)
	}
	return text, err
}

// textNamed is the text behind a name: standard input for "-", a sample, or else a file. A
// name that is both a sample's and a file's is refused: computed would be a clock that
// somebody may not mean.
func textNamed(s streams, k *kind, name string) (string, error) {
	plain, marked := strings.CutPrefix(name, sampleMark)
	if s.again != nil {
		text, err := s.again.text(name)
		if err != nil {
			err = k.noSample(name, err)
		}
		return text, err
	}
	switch text, ok := k.sample(plain); {
	case ok && !marked && exists(name):
		return "", usagef("%s is a sample, and something of that name stands in this folder: say .%c%s for the file, or %s%s for the sample", name, filepath.Separator, name, sampleMark, name)
	case ok:
		return text, nil
	case marked:
		return "", usagef("there is no sample %s %q; there are %s", k.name, plain, strings.Join(k.names(), ", "))
	case name == "-":
		return readAll(s.in, source(name))
	}
	text, err := fileText(name)
	if err != nil {
		return "", k.noSample(name, err)
	}
	return text, nil
}

// sampleMark before a name says that it is a sample's, whatever files there are.
const sampleMark = "sample:"

// exists tells whether there is anything of a name, be it a link to nothing.
func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
}

// openBeside opens a file that another one names, beside that one, and takes it down as
// read.
func openBeside(s streams, name, file string) (io.ReadCloser, error) {
	at := beside(name, file)
	var text string
	var err error
	if s.again != nil {
		text, err = s.again.text(readingsIn(name, file))
	} else {
		text, err = textBeside(at)
	}
	if err != nil {
		return nil, bare(err)
	}
	s.read.add(readingsIn(name, file), file, text)
	return opened{strings.NewReader(text), at}, nil
}

// readingsIn is what a file of readings is asked for by: the same on every system.
func readingsIn(bench, file string) string { return bench + ": " + file }

// textBeside is the text of such a file, up to one byte more than is read of any.
func textBeside(at string) (string, error) {
	r, err := os.Open(at)
	if err != nil {
		return "", err
	}
	defer r.Close()
	text, err := io.ReadAll(io.LimitReader(r, scenario.MaxBytes+1))
	return string(text), err
}

// opened is the text of a file with its name, by which messages call it.
type opened struct {
	*strings.Reader
	name string
}

func (o opened) Name() string { return o.name }
func (o opened) Close() error { return nil }

// beside is the path of a file that another one names.
func beside(name, file string) string {
	if filepath.IsAbs(file) || name == "-" {
		return file
	}
	return filepath.Join(filepath.Dir(name), file)
}

// source is what messages call the place that a text was read from.
func source(name string) string {
	if name == "-" {
		return "standard input"
	}
	return strings.TrimPrefix(name, sampleMark)
}

// fileText reads a file, and never a sample or standard input whatever its name.
func fileText(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", fmt.Errorf("%s cannot be read: %w", cmp.Or(name, `""`), bare(err))
	}
	defer f.Close()
	return readAll(f, name)
}

// readAll reads a text, up to one byte more than is read of any; source is what
// messages call it.
func readAll(in io.Reader, source string) (string, error) {
	text, err := io.ReadAll(io.LimitReader(in, scenario.MaxBytes+1))
	if err != nil {
		return "", fmt.Errorf("%s cannot be read: %w", source, bare(err))
	}
	return string(text), nil
}
