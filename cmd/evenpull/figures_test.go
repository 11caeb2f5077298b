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

// Every figure that a run told when all strips bent as narrow ones and packed without
// gaps, and recoil cost nothing, it tells still of such clocks, to 1e-12: testdata/figures holds them, one a line,
// by the path to each in the JSON, and testdata/narrow the clocks. Since then
// runs_down_first tells goes_h, which it had called runtime_h, the rows of a clock that
// has stopped have no arc or rate, and strike_twelve_s begins at the first blow, no longer
// at the release.
func TestSameFigures(t *testing.T) {
	files, err := filepath.Glob("testdata/figures/*.txt")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".txt")
		status, out, errs := call(t, "", "run", filepath.Join("testdata", "narrow", name+".toml"), "--format", "json")
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
			share, least := exact(doc, path)
			if got, ok := follow(doc, path); !ok || !same(got, want, share, least) {
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

// exact is how far a figure may be off: 1e-12 of itself; of a difference, 1e-12 of what
// it is between; along an even cone 5e-12, since the turns wound there are solved for
// until the couple is right to 1e-12 of the greatest (Curve.WoundBy).
func exact(doc any, path string) (share, least float64) {
	share = 1e-12
	train := "trains." + strings.Split(path+"..", ".")[1]
	switch {
	case strings.HasSuffix(path, "unevenness") || strings.HasSuffix(path, ".cv"): // over the mean
		least = 1e-12
	case strings.HasSuffix(path, "rate_swing_s_per_day") || strings.HasSuffix(path, "wander_s"):
		rate, _ := follow(doc, train+".rate_s_per_day.max")
		most, _ := rate.(float64)
		least = 1e-12 * math.Abs(most)
	}
	if name, _ := follow(doc, train+".name"); name == "quarters" { // of three-trains
		share = 5e-12
	}
	return share, least
}

func same(got any, want string, share, least float64) bool {
	if want == "null" {
		return got == nil
	}
	v, ok := got.(float64)
	w, err := strconv.ParseFloat(want, 64)
	return ok && err == nil && math.Abs(v-w) <= math.Max(share*math.Abs(w), least)
}

// A count of turns that the strip cannot make is one fault, told once.
func TestOneFaultOfACount(t *testing.T) {
	status, _, errs := call(t, "", "run", "eight-day", "--set", "going.mainspring.solid_turns=9.9")
	if status == exitDone || strings.Count(errs, "going.mainspring") != 1 || !strings.Contains(errs, ": 9.9, and it makes 9.10 at most") {
		t.Errorf("status %d: %s", status, errs)
	}
}
