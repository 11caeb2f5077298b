package main

import (
	"bufio"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Every figure that a run told before the house was laid out anew it tells
// still, to 1e-12: testdata/figures holds them, one a line, by the path to each in
// the JSON. Since then runs_down_first tells goes_h, which it had called runtime_h.
func TestSameFigures(t *testing.T) {
	files, err := filepath.Glob("testdata/figures/*.txt")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".txt")
		status, out, errs := call(t, "", "run", name, "--format", "json")
		if status != exitDone {
			t.Fatal(errs)
		}
		var doc any
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatal(err)
		}
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(f)
		for lines.Scan() {
			path, want, _ := strings.Cut(lines.Text(), " ")
			if got, ok := follow(doc, path); !ok || !same(got, want) {
				t.Errorf("%s: %s is %v and was %s", name, path, got, want)
			}
		}
		if err := lines.Err(); err != nil {
			t.Error(err)
		}
		f.Close()
	}
}

// follow goes down a document by the keys and places of a path.
func follow(doc any, path string) (any, bool) {
	for _, key := range strings.Split(path, ".") {
		switch at := doc.(type) {
		case map[string]any:
			v, ok := at[key]
			if !ok {
				return nil, false
			}
			doc = v
		case []any:
			i, err := strconv.Atoi(key)
			if err != nil || i >= len(at) {
				return nil, false
			}
			doc = at[i]
		default:
			return nil, false
		}
	}
	return doc, true
}

func same(got any, want string) bool {
	if want == "null" {
		return got == nil
	}
	v, ok := got.(float64)
	w, err := strconv.ParseFloat(want, 64)
	return ok && err == nil && math.Abs(v-w) <= 1e-12*math.Abs(w)
}
