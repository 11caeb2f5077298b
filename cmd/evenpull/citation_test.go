package main

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// CITATION.cff has what version 1.2.0 of the Citation File Format asks for, and says what
// LICENSE says. Version and date are those of a release, which .ci/release adds: here they
// could only grow stale.
func TestCitation(t *testing.T) {
	cite := fileOf(t, filepath.Join("..", "..", "CITATION.cff"))
	licence := fileOf(t, filepath.Join("..", "..", "LICENSE"))
	holder := regexp.MustCompile(`Copyright \(c\) \d+ (.+)\n`).FindStringSubmatch(licence)[1]
	name, _, _ := strings.Cut(licence, " License\n")

	keys := map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^([a-z-]+): *(.*)$`).FindAllStringSubmatch(cite, -1) {
		if _, twice := keys[m[1]]; twice {
			t.Errorf("%s stands twice", m[1])
		}
		keys[m[1]] = m[2]
	}
	for _, key := range []string{"cff-version", "message", "title"} { // required, with authors
		if strings.Trim(keys[key], `" `) == "" {
			t.Errorf("there is no %s", key)
		}
	}
	if keys["cff-version"] != "1.2.0" || keys["type"] != "software" || keys["license"] != name {
		t.Errorf("cff-version %s, type %s, license %s", keys["cff-version"], keys["type"], keys["license"])
	}
	authors := regexp.MustCompile(`(?m)^authors:\n((?:  .*\n)+)`).FindStringSubmatch(cite)
	if authors == nil || authors[1] != "  - name: \""+holder+"\"\n" {
		t.Errorf("authors %q, want %q as in LICENSE", authors, holder)
	}
	known := []string{"cff-version", "message", "type", "title", "abstract", "authors", "keywords", "license"}
	for key := range keys {
		if !slices.Contains(known, key) {
			t.Errorf("%s: want one of %v", key, known)
		}
	}
	if !strings.Contains(fileOf(t, filepath.Join("..", "..", "README.md")), "(CITATION.cff)") {
		t.Error("README does not lead to it")
	}
}
