package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"evenpull/cmd/evenpull/topics"
)

// toRead are the README and the topics, by the path of their file.
func toRead(t *testing.T) map[string]string {
	t.Helper()
	text := map[string]string{"README.md": fileOf(t, filepath.Join("..", "..", "README.md"))}
	for _, name := range topics.Names() {
		text["cmd/evenpull/topics/"+name+".md"], _ = topics.Text(name)
	}
	return text
}

// block is a fenced block of a document.
type block struct{ language, body string }

func blocks(text string) (all []block) {
	for i, part := range strings.Split(text, "```") {
		if i%2 == 1 {
			language, body, _ := strings.Cut(part, "\n")
			all = append(all, block{language, body})
		}
	}
	return all
}

// Every call in README and topics works, in the order in which it stands there, in a folder
// of its own, and what is shown as output below calls is printed by one of them; only its
// lines may be broken elsewhere.
func TestDocuments(t *testing.T) {
	ran, shown := 0, 0
	for name, text := range toRead(t) {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			writeText(t, "springs.csv", springsTable(3)) // a table that a reader has
			out, all := "", blocks(text)
			for i, b := range all {
				switch b.language {
				case "sh":
					var n int
					n, out = callsOf(t, b.body, i+1 < len(all) && all[i+1].language == "text")
					ran += n
				case "text":
					if !strings.Contains(out, unbroken(b.body)) {
						t.Errorf("shown is what is not printed:\n%s", b.body)
					}
					shown++
				}
			}
		})
	}
	if ran < 50 || shown < 8 {
		t.Errorf("only %d calls and %d outputs found", ran, shown)
	}
}

// elsewhere tells whether a call has a test of its own: TestGallery draws for long, TestTry
// ends what serves until it is interrupted.
func elsewhere(args []string) bool {
	return slices.Contains(args, "--gallery") || len(args) > 1 && args[1] == "try"
}

// callsOf runs the calls of a block, with few draws unless their output is shown.
func callsOf(t *testing.T, body string, full bool) (ran int, out string) {
	t.Helper()
	for line := range strings.Lines(body) {
		line, _, _ = strings.Cut(line, "#")
		args := strings.Fields(strings.Replace(line, "go run ./cmd/evenpull", "evenpull", 1))
		if len(args) == 0 || args[0] != "evenpull" || elsewhere(args) {
			continue
		}
		stdin, args := asked(t, args), args[1:]
		if !full {
			args = few(args)
		}
		code, printed, errs := call(t, stdin, args...)
		if code != exitDone {
			t.Errorf("%s: exit %d: %s", line, code, errs)
		}
		ran++
		out += unbroken(printed) + "\n"
	}
	return ran, out
}

// unbroken is a text without its line breaks and columns.
func unbroken(s string) string { return strings.Join(strings.Fields(s), " ") }

var leads = regexp.MustCompile(`\]\(([^)#]*)(#[^)]*)?\)`)

// What a document links to is there, and README leads to every topic.
func TestLinks(t *testing.T) {
	all := toRead(t)
	all["DEVELOPERS.md"] = fileOf(t, filepath.Join("..", "..", "DEVELOPERS.md"))
	for name, text := range all {
		for _, to := range leads.FindAllStringSubmatch(text, -1) {
			path := filepath.Join("..", "..", filepath.Dir(name), to[1])
			if _, err := os.Stat(path); err != nil || to[2] != "" {
				t.Errorf("%s links to %s: %v", name, to[0], err)
			}
		}
		if rest := strings.TrimPrefix(name, "cmd/"); rest != name && !strings.Contains(all["README.md"], "("+name+")") {
			t.Errorf("README does not lead to %s", name)
		}
	}
	if n := strings.Count(all["README.md"], "\n"); n > 150 {
		t.Errorf("README has %d lines; want three screens, 150", n)
	}
}

// A call in the prose of a document names a command or a topic that there is.
func TestCallsInProse(t *testing.T) {
	root := newRoot(streams{})
	found := 0
	for name, text := range toRead(t) {
		for _, m := range regexp.MustCompile("`evenpull ([a-z-]+)( [a-z-]+)?").FindAllStringSubmatch(text, -1) {
			of, topic := m[1], strings.TrimSpace(m[2])
			_, is := topics.Text(topic)
			if c, rest, err := root.Find([]string{of}); err != nil || len(rest) > 0 || c.Name() == "help" && topic != "" && !is {
				t.Errorf("%s: there is no %s", name, m[0])
			}
			found++
		}
	}
	if found < 30 {
		t.Errorf("only %d calls found", found)
	}
}
