// Package topics holds what there is to read beyond the help of the commands: a Markdown
// file a topic, which reads the same on a page, at a terminal and as a manual page.
package topics

import (
	"embed"
	"regexp"
	"strings"
)

//go:embed *.md
var texts embed.FS

// Names gives the topics in the order in which somebody new would read them.
func Names() []string {
	return []string{
		"install", "cautions", "notes", "scenario", "keys", "verdict", "sure", "rules", "striking", "pendulum", "what-if",
		"pictures", "bench", "readings", "springs", "cone", "strip", "study", "supplements", "files", "programs", "model",
	}
}

// Text gives the Markdown of a topic.
func Text(name string) (string, bool) {
	text, err := texts.ReadFile(name + ".md")
	return string(text), err == nil
}

// Title is what a topic is about, the heading of its file.
func Title(name string) string {
	text, _ := Text(name)
	title, _, _ := strings.Cut(text, "\n")
	return strings.TrimPrefix(title, "# ")
}

var (
	picture = regexp.MustCompile(`(?m)^!\[[^\]]*\]\([^)]*\)\n\n?`)
	link    = regexp.MustCompile(`\[([^\]]+)\]\([^)]+\)`)
)

// Bare is a Markdown text without what only a page can show: its pictures, and where its
// links lead.
func Bare(text string) string {
	return link.ReplaceAllString(picture.ReplaceAllString(text, ""), "$1")
}
