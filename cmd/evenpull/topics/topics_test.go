package topics

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// Every file is a topic and every topic a file, with a title that fits into the list of all,
// and each is at most three screens as it is printed, of 50 lines and 80 columns.
func TestTopics(t *testing.T) {
	files, err := fs.Glob(texts, "*.md")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range files {
		names = append(names, strings.TrimSuffix(f, ".md"))
	}
	if sorted := slices.Sorted(slices.Values(Names())); !slices.Equal(sorted, names) {
		t.Errorf("topics %s, files %s", sorted, names)
	}
	for _, name := range Names() {
		text, _ := Text(name)
		title := Title(name)
		if !strings.HasPrefix(text, "# "+title+"\n\n") || title == "" || 14+utf8.RuneCountInString(title) > Width {
			t.Errorf("%s: its title is %q", name, title)
		}
		set := Plain(text)
		for line := range strings.Lines(set) {
			if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > Width {
				t.Errorf("%s: %d columns: %s", name, n, line)
			}
		}
		if n := strings.Count(set, "\n"); n > 150 {
			t.Errorf("%s: %d lines", name, n)
		}
		if mark := strings.IndexAny(set, "`\x00"); mark >= 0 || strings.Contains(set, "**") || strings.Contains(set, "](") {
			t.Errorf("%s: a mark was left: %.60q", name, set[max(0, mark):])
		}
	}
	if _, ok := Text("nothing"); ok {
		t.Error("a topic that there is not")
	}
}

// Each kind of block as it is set.
func TestPlain(t *testing.T) {
	const text = `# Title

A paragraph of *which* the **lines
are** filled, so that it is as wide as a terminal of eighty columns and no wider.
![A picture](x.png)

## Below

- an item that goes on for longer than a line of eighty columns has room, and on
  and on, with [a link](x.md) and ` + "`evenpull run`, `x = \"y\"`, `a b`" + `
- another
1. and 7 %

| a   | bb |
|-----|----|
| ccc |    |
| ` + "`d`" + ` | e  |

` + "```sh\ncode  that is   *as* it is  \n\n| x |\n```" + `
text:
  indented as   it is
back, with a call that is not broken where the line breaks: "evenpull help
a-topic"
`
	const want = `Title
=====

A paragraph of which the lines are filled, so that it is as wide as a terminal
of eighty columns and no wider.
Below
-----

- an item that goes on for longer than a line of eighty columns has room, and on
  and on, with a link and "evenpull run", x = "y", a b
- another
1. and 7 %

a    bb
---  --
ccc
d    e

  code  that is   *as* it is

  | x |
text:
  indented as   it is
back, with a call that is not broken where the line breaks:
"evenpull help a-topic"
`
	if got := Plain(text); got != want {
		t.Errorf("set as\n%s", got)
	}
	long := Plain(strings.Repeat("word ", 15) + "w 25 % `a b c`")
	if !strings.HasSuffix(long, " w\n25 % a b c\n") {
		t.Errorf("%q", long)
	}
}
