package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/cmd/evenpull/topics"

	"github.com/cpuguy83/go-md2man/v2/md2man"
	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newMan(s streams) *cobra.Command {
	var force bool
	c := &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual pages into a directory",
		Long: `Man writes manual pages into DIR, which must exist: one for every command, in section
1, and one for every topic that there is to read, in section 7. Pages that are there
already are left alone unless you say --force, and links are in any case.`,
		Example: `  evenpull man .`,
		Args:    usageArgs(cobra.ExactArgs(1)),
		RunE: func(c *cobra.Command, args []string) error {
			dir := args[0]
			if st, err := os.Stat(dir); err != nil || !st.IsDir() {
				return fmt.Errorf("%s: there is no such directory", dir)
			}
			pages, err := manual(c.Root())
			if err != nil {
				return err
			}
			for _, name := range topics.Names() {
				pages = append(pages, topicPage(name))
			}
			may := files.New
			if force {
				may = files.ReplaceNoLink
			}
			for _, p := range pages {
				if err := files.CheckFile(filepath.Join(dir, p.Name), may); err != nil {
					return err
				}
			}
			for _, p := range pages {
				if err := (files.Disk{}).File(c.Context(), filepath.Join(dir, p.Name), p.Data, may); err != nil {
					return err
				}
			}
			s.say("manual pages written to %s", dir)
			return nil
		},
	}
	c.Flags().BoolVar(&force, "force", false, "overwrite pages that exist")
	return c
}

// pagesOf is the date of all pages: it is fixed, so that the same version gives the same.
func pagesOf() time.Time { return time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC) }

// topicPage is the manual page of a topic.
func topicPage(name string) files.Part {
	text, _ := topics.Text(name)
	_, body, _ := strings.Cut(topics.Bare(text), "\n")
	page := "evenpull-" + name
	text = fmt.Sprintf("%% %q \"7\" %q \"evenpull\" \"evenpull\"\n# NAME\n%s \\- %s\n\n# ABOUT IT\n%s",
		strings.ToUpper(page), pagesOf().Format("Jan 2006"), page, topics.Title(name), strings.ReplaceAll(body, "\n## ", "\n# "))
	return files.Part{Name: page + ".7", Data: md2man.Render([]byte(text))}
}

// manual is the manual page of a command, and those of the commands below it.
func manual(c *cobra.Command) (pages []files.Part, err error) {
	c.DisableAutoGenTag = true
	date := pagesOf()
	var page bytes.Buffer
	if err := doc.GenMan(c, &doc.GenManHeader{Section: "1", Source: "evenpull", Manual: "evenpull", Date: &date}, &page); err != nil {
		return nil, err
	}
	pages = append(pages, files.Part{Name: strings.ReplaceAll(c.CommandPath(), " ", "-") + ".1", Data: page.Bytes()})
	for _, sub := range c.Commands() {
		if !sub.IsAvailableCommand() || sub.IsAdditionalHelpTopicCommand() {
			continue
		}
		below, err := manual(sub)
		if err != nil {
			return nil, err
		}
		pages = append(pages, below...)
	}
	return pages, nil
}
