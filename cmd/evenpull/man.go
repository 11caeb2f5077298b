package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"evenpull/cmd/evenpull/internal/files"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newMan(s streams) *cobra.Command {
	var force bool
	c := &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual pages into a directory",
		Long: `Man writes a manual page for every command into DIR, which must exist. Pages that
are there already are left alone unless you say --force, and links are in any case.`,
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

// manual is the manual page of a command, and those of the commands below it.
func manual(c *cobra.Command) (pages []files.Part, err error) {
	c.DisableAutoGenTag = true
	// A fixed date: the same version gives the same pages.
	date := time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC)
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
