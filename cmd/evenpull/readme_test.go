package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// readmeBlocks gives the fenced blocks of the README in a language.
func readmeBlocks(t *testing.T, language string) []string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	var blocks []string
	for i, part := range strings.Split(string(text), "```") {
		if body, ok := strings.CutPrefix(part, language+"\n"); ok && i%2 == 1 {
			blocks = append(blocks, body)
		}
	}
	return blocks
}

// Every call in the README works, in the order it stands there, and the main
// one is the default run.
func TestReadmeCalls(t *testing.T) {
	blocks := readmeBlocks(t, "sh")
	t.Chdir(t.TempDir())
	ran := 0
	for _, block := range blocks {
		for line := range strings.Lines(block) {
			line, _, _ = strings.Cut(line, "#")
			words := strings.Fields(strings.Replace(line, "go run ./cmd/evenpull", "evenpull", 1))
			if len(words) == 0 || words[0] != "evenpull" {
				continue
			}
			if code, _, errs := call(t, asked(t, words), few(words[1:])...); code != exitDone {
				t.Errorf("%s: exit %d: %s", line, code, errs)
			}
			ran++
		}
	}
	if ran < 8 {
		t.Errorf("only %d calls found", ran)
	}
}

// What the README shows as output is output.
func TestReadmeOutput(t *testing.T) {
	blocks := readmeBlocks(t, "text")
	_, run, _ := call(t, "", "run")
	_, sweep, _ := call(t, "", "sweep")
	_, record, _ := call(t, "", "record", "--scenario", "three-trains")
	_, assign, _ := call(t, "", "assign", "--scenario", "three-trains")
	out := run + sweep + record + assign
	for _, block := range blocks {
		if !strings.Contains(out, block) {
			t.Errorf("the README shows what is not printed:\n%s", block)
		}
	}
	if len(blocks) == 0 {
		t.Error("no output in the README")
	}
}
