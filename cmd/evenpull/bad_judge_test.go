package main

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evenpull/sim/scenario"
)

// What becomes of an input.
const (
	refused = iota
	computed
	broken
)

// Bounds of a message that somebody is to read.
const (
	mostLines = 60
	mostWidth = 2000 // bytes of a line
)

var (
	noNumber = regexp.MustCompile(`\bNaN\b|[-+]Inf\b`)
	trace    = regexp.MustCompile(`goroutine \d+ \[|runtime error|panic:|\.go:\d+`)
	// A message names a flag or a key, or quotes what it does not take.
	names = regexp.MustCompile(`--[a-z]|standard input|[a-z_0-9]+\.[a-z_0-9]+|"|\[\[[a-z]+\]\]|arg\(s\)`)
)

// judged tells what became of an input that ran in dir.
func judged(in *badInput, dir string, code int, out, errs string) (what int, why string) {
	why = in.unsound(dir, code, out, errs)
	switch {
	case why != "":
		return broken, fmt.Sprintf("%s; exit %d, arguments %q\n%s", why, code, short(fmt.Sprint(in.args)), short(errs))
	case code == exitDone:
		return computed, ""
	}
	return refused, ""
}

func short(s string) string {
	if len(s) > 1500 {
		return s[:1500] + " …"
	}
	return s
}

// unsound tells what is wrong with what came of an input; nothing when it is sound.
func (in *badInput) unsound(dir string, code int, out, errs string) string {
	switch {
	case code != exitDone && code != exitInput && code != exitUsage:
		return "no such exit status"
	case trace.MatchString(errs) || trace.MatchString(out):
		return "a stack trace"
	case !readable(errs) || !utf8.ValidString(out):
		return "a message that is no text"
	case code != exitDone && out != "":
		return "half a result"
	case code != exitDone && !in.named(dir, errs):
		return "refused, and no word of what"
	case code != exitDone && tooLong(errs):
		return "a message that nobody reads"
	case noNumber.MatchString(errs) && !in.says("nan", "inf", "e999"):
		return "no number in a message"
	case code == exitDone && strings.Contains(errs, "evenpull: "):
		return "an error, and exit 0"
	}
	if why := in.unsoundOut(code, out); why != "" {
		return why
	}
	return in.unsoundFiles(dir, code, errs)
}

// readable tells whether a message is text without control characters.
func readable(s string) bool {
	return utf8.ValidString(s) && !strings.ContainsFunc(s, func(r rune) bool {
		return r != '\n' && r != '\t' && unicode.IsControl(r)
	})
}

// named tells whether a message says what is at fault: a flag, a key or something of the
// command line.
func (in *badInput) named(dir, errs string) bool {
	return names.MatchString(errs) || slices.ContainsFunc(in.args, func(a string) bool {
		_, value, _ := strings.Cut(a, "=")
		value = legible(strings.ReplaceAll(cmp.Or(value, a), "{dir}", dir))
		return value != "" && strings.Contains(errs, value)
	})
}

func tooLong(s string) bool {
	lines := strings.Split(s, "\n")
	return len(lines) > mostLines || slices.ContainsFunc(lines, func(l string) bool { return len(l) > mostWidth })
}

// says tells whether a word is in what was given, so that a message may quote it.
func (in *badInput) says(words ...string) bool {
	all := strings.ToLower(strings.Join(in.args, " ") + in.stdin)
	for _, text := range in.files {
		all += strings.ToLower(text)
	}
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(all, w) })
}

// unsoundOut looks at what was printed.
func (in *badInput) unsoundOut(code int, out string) string {
	if code != exitDone || in.args[0] == "completion" || in.args[0] == "help" {
		return ""
	}
	ending := ".txt"
	for i, a := range in.args {
		if value, ok := strings.CutPrefix(a, "--format="); ok {
			ending = "." + value
		} else if i > 0 && in.args[i-1] == "--format" {
			ending = "." + a
		}
	}
	if slices.Contains(in.args, "--help=true") {
		ending = ".txt"
	}
	return unsoundText(ending, []byte(out))
}

// unsoundText looks at a text by the ending of its name.
func unsoundText(ending string, text []byte) string {
	var err error
	switch {
	case ending == ".toml":
		_, err = scenario.Read(bytes.NewReader(text), "what was written")
	case ending == ".png":
		_, err = png.DecodeConfig(bytes.NewReader(text))
	case noNumber.Match(text) && ending != ".pdf":
		err = errors.New("no number in it")
	case ending == ".json" && !json.Valid(text):
		err = errors.New("no JSON")
	case ending == ".csv":
		r := csv.NewReader(bytes.NewReader(text))
		r.Comment = '#'
		_, err = r.ReadAll()
	case ending == ".svg":
		err = wellFormed(text)
	case ending == ".pdf" && !(bytes.HasPrefix(text, []byte("%PDF-")) && bytes.Contains(text[max(0, len(text)-16):], []byte("%%EOF"))):
		err = errors.New("no PDF")
	case ending == ".html" && !bytes.HasSuffix(bytes.TrimSpace(text), []byte("</html>")):
		err = errors.New("no end")
	}
	if err != nil {
		return ending + ": " + err.Error()
	}
	return ""
}

func wellFormed(text []byte) error {
	d := xml.NewDecoder(bytes.NewReader(text))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// unsoundFiles looks at what was written: whole files that were asked for, or nothing.
func (in *badInput) unsoundFiles(dir string, code int, errs string) string {
	why := ""
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Type() == fs.ModeSymlink || why != "" {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		switch before, stood := in.files[filepath.ToSlash(name)]; {
		case stood && string(text) == before:
		case code != exitDone && !strings.Contains(errs, "written to "+path):
			why = "refused, but it wrote " + name
		case strings.HasPrefix(d.Name(), "."):
			why = "it left " + name
		case stood && !slices.Contains(in.args, "--force") && in.args[0] != "man":
			why = "it overwrote " + name
		default:
			ending := filepath.Ext(name)
			if d.Name() == "bench.toml" { // no scenario
				ending = ""
			}
			if why = unsoundText(ending, text); why != "" {
				why = name + why
			}
		}
		return nil
	})
	if err != nil {
		return err.Error()
	}
	return why
}
