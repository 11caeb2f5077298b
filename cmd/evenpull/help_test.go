package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"evenpull/cmd/evenpull/topics"

	"github.com/spf13/cobra"
)

// everyCommand visits a command and those below it.
func everyCommand(c *cobra.Command, visit func(*cobra.Command)) {
	visit(c)
	for _, sub := range c.Commands() {
		everyCommand(sub, visit)
	}
}

// wantNarrow wants a text no wider than a terminal.
func wantNarrow(t *testing.T, name, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > topics.Width {
			t.Errorf("%s: %d columns: %s", name, n, line)
		}
	}
}

// The way in is a screen; each of its calls works, one after the other, and heads a question
// of the help.
func TestWayIn(t *testing.T) {
	t.Chdir(t.TempDir())
	code, out, errs := call(t, "")
	if code != exitDone || errs != "" || strings.Count(out, "\n") > 18 {
		t.Errorf("exit %d, %s%s", code, errs, out)
	}
	wantNarrow(t, "evenpull", out)
	_, help, _ := call(t, "", "help")
	for _, q := range questions(streams{}) {
		if !strings.Contains(help, "\n"+q.asks+"\n  "+q.commands[0].Name()+" ") {
			t.Errorf("help does not ask %q", q.asks)
		}
		if q.start == "" {
			continue
		}
		if !strings.Contains(out, q.asks+"\n  evenpull "+q.start+"\n") {
			t.Errorf("there is no way in for %q", q.asks)
		}
		if args := strings.Fields(q.start); args[0] != q.commands[0].Name() {
			t.Errorf("%q begins with %s, and its list with %s", q.asks, args[0], q.commands[0].Name())
		} else if code, _, errs := call(t, asked(t, args), few(args)...); code != exitDone {
			t.Errorf("%s: exit %d, %s", q.start, code, errs)
		}
	}
}

// Help is in our own words, for every command, in the manual pages too; the library's are
// not there.
func TestHelpIsOurs(t *testing.T) {
	stock := []string{"help for", "version for", "autocompletion", "Available Commands", "[command]", "more information about a command", "Global Flags", "Additional", "application"}
	shown := map[string]string{}
	everyCommand(newRoot(streams{}), func(c *cobra.Command) {
		path := strings.Fields(c.CommandPath())[1:]
		code, out, errs := call(t, "", append(path, "--help")...)
		if code != exitDone || errs != "" {
			t.Errorf("%s --help: exit %d, %s", c.CommandPath(), code, errs)
		}
		_, same, _ := call(t, "", append([]string{"help"}, path...)...)
		if same != out {
			t.Errorf("help %s is not %s --help", path, c.CommandPath())
		}
		shown[c.CommandPath()] = out
		if len(path) == 0 {
			wantNarrow(t, "help", out)
			return
		}
		said := topics.Plain(c.Long)
		wantNarrow(t, c.CommandPath(), said)
		for _, want := range []string{said, c.UseLine(), c.Example, "\n  -h, --help "} {
			if want == "" || !strings.Contains(out, want) {
				t.Errorf("%s --help has no %q", c.CommandPath(), want)
			}
		}
		for _, sub := range c.Commands() {
			if !strings.Contains(out, "\n  "+sub.Name()+" ") {
				t.Errorf("%s --help does not list %s", c.CommandPath(), sub.Name())
			}
		}
	})
	for name, text := range manualPages(t) {
		shown[name] = text
	}
	for name, text := range shown {
		for _, s := range stock {
			if strings.Contains(text, s) {
				t.Errorf("%s has %q", name, s)
			}
		}
	}
}

func manualPages(t *testing.T) map[string]string {
	t.Helper()
	dir := t.TempDir()
	if code, _, errs := call(t, "", "man", dir); code != exitDone {
		t.Fatal(errs)
	}
	pages := map[string]string{}
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		pages[f.Name()] = fileOf(t, filepath.Join(dir, f.Name()))
	}
	return pages
}

// Commands have a page in section 1, topics one in section 7 with all their words.
func TestManualPages(t *testing.T) {
	pages := manualPages(t)
	for _, name := range []string{"evenpull.1", "evenpull-run.1", "evenpull-completion-bash.1"} {
		if !strings.Contains(pages[name], ".SH DESCRIPTION") {
			t.Errorf("no page %s", name)
		}
	}
	for _, name := range topics.Names() {
		page := pages["evenpull-"+name+".7"]
		if !strings.HasPrefix(strings.TrimPrefix(page, "'\\\" t\n"), ".nh\n.TH \"EVENPULL-"+strings.ToUpper(name)+"\" \"7\"") || !strings.Contains(page, topics.Title(name)) {
			t.Errorf("no page of %s: %.200s", name, page)
		}
		if text, _ := topics.Text(name); strings.Count(page, ".SH") != 2+strings.Count(text, "\n## ") || strings.Contains(page, ".png)") || strings.Contains(page, ".md)") {
			t.Errorf("%s has lost headings, or has links: %s", name, page)
		}
	}
}

// Help prints a topic, and completion offers topics beside commands. No topic has the name
// of a command, and one that is called as one is refused with the way to it.
func TestTopics(t *testing.T) {
	root := newRoot(streams{})
	_, help, _ := call(t, "", "help")
	_, offered, _ := call(t, "", "__complete", "help", "")
	for _, name := range topics.Names() {
		text, _ := topics.Text(name)
		if code, out, errs := call(t, "", "help", name); code != exitDone || errs != "" || out != topics.Plain(text) {
			t.Errorf("help %s: exit %d, %s", name, code, errs)
		}
		if c, _, _ := root.Find([]string{name}); c != root {
			t.Errorf("%s is a command too: %s", name, c.Short)
		}
		if !strings.Contains(help, topics.Title(name)+"\n") || !strings.Contains(offered, name+"\t"+topics.Title(name)) {
			t.Errorf("%s is not listed, or not offered", name)
		}
		wantExit(t, name, exitUsage, "evenpull help "+name)
	}
	if !strings.Contains(offered, "run\t") {
		t.Errorf("commands are not offered: %s", offered)
	}
	if _, below, _ := call(t, "", "__complete", "help", "completion", ""); !strings.Contains(below, "bash\t") || strings.Contains(below, "bench") {
		t.Errorf("below a command are offered: %s", below)
	}
	wantExit(t, "help bench bench", exitUsage, "there is no command")
	wantExit(t, "-v", exitUsage, "'v' in -v")
}

// Where help cannot be printed, the exit status says so.
func TestHelpCannotBePrinted(t *testing.T) {
	for _, args := range []string{"", "help", "--help", "run --help", "help bench", "completion", "completion bash", "--version"} {
		var errs strings.Builder
		if code := Main(strings.Fields(args), strings.NewReader(""), full{}, &errs); code != exitInput || !strings.Contains(errs.String(), "the disk is full") {
			t.Errorf("%q: exit %d, %s", args, code, errs.String())
		}
	}
}

// full is where nothing can be written.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }
