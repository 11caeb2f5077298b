package main

import (
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newMan(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual pages into a directory",
		Long: `Man writes a manual page for every command into DIR, which must exist. Pages
of an earlier version are replaced.`,
		Example: `  evenpull man .`,
		Args:    usageArgs(cobra.ExactArgs(1)),
		RunE: func(c *cobra.Command, args []string) error {
			if st, err := os.Stat(args[0]); err != nil || !st.IsDir() {
				return fmt.Errorf("%s: there is no such directory", args[0])
			}
			root := c.Root()
			root.DisableAutoGenTag = true
			// A fixed date: the same version gives the same pages.
			date := time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC)
			head := &doc.GenManHeader{Section: "1", Source: "evenpull", Manual: "evenpull", Date: &date}
			if err := doc.GenManTree(root, head, args[0]); err != nil {
				return err
			}
			s.say("manual pages written to %s", args[0])
			return nil
		},
	}
}
