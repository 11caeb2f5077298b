package main

import (
	"fmt"
	"io"
	"strings"

	"evenpull/cmd/evenpull/topics"

	"github.com/spf13/cobra"
)

func newHelp(streams) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND or TOPIC]",
		Short: "Tell what a command does, or what there is to know of a topic",
		Long: `Help lists the commands under the questions that they answer, and the topics that
there is something to read on. Given the name of a command it tells what that does and
what it takes; given a topic it prints that.`,
		Example: `  evenpull help
  evenpull help run
  evenpull help bench`,
		ValidArgsFunction: completeHelp,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 1 {
				if text, ok := topics.Text(args[0]); ok {
					_, err := io.WriteString(c.OutOrStdout(), topics.Plain(text))
					return err
				}
			}
			of, rest, err := c.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return usagef("there is no command %q; there are %s; and to read: %s", strings.Join(args, " "), commands(c.Root()), series(topics.Names()))
			}
			return of.Help()
		},
	}
}

func completeHelp(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var names []string
	of, rest, err := c.Root().Find(args)
	if err != nil || len(rest) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	for _, sub := range of.Commands() {
		if !sub.Hidden {
			names = append(names, cobra.CompletionWithDesc(sub.Name(), sub.Short))
		}
	}
	if len(args) == 0 {
		for _, name := range topics.Names() {
			names = append(names, cobra.CompletionWithDesc(name, topics.Title(name)))
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// helpOn writes help in our own words in place of the library's.
func helpOn(root *cobra.Command, qs []question) {
	root.SetHelpFunc(func(c *cobra.Command, _ []string) {
		text := helpText(c)
		if c == root {
			text = overview(c, qs)
		}
		_, _ = io.WriteString(c.OutOrStdout(), text) // Main asks whether it could be written
	})
	ownFlags(root)
	root.Flags().Bool("version", false, "tell the version, and what it was built from")
}

// ownFlags gives a command and those below it the flag --help, before the library does.
func ownFlags(c *cobra.Command) {
	c.Flags().BoolP("help", "h", false, "tell what this command does and takes")
	// Marked as the library's, so that nothing is completed after it.
	_ = c.Flags().SetAnnotation("help", cobra.FlagSetByCobraAnnotation, []string{"true"})
	for _, sub := range c.Commands() {
		ownFlags(sub)
	}
}

// helpText tells what a command does, how it is called, and what it takes.
func helpText(c *cobra.Command) string {
	var b strings.Builder
	b.WriteString(topics.Plain(c.Long) + "\nHow to call it; what stands in brackets may be left out:\n  " + c.UseLine() + "\n")
	if c.HasAvailableSubCommands() {
		b.WriteString("\n" + c.Use[strings.LastIndex(c.Use, " ")+1:] + " is one of:\n")
		list(&b, c.Commands())
	}
	b.WriteString("\nExamples:\n" + c.Example + "\n\nFlags, in any order:\n" + c.LocalFlags().FlagUsagesWrapped(topics.Width))
	return b.String()
}

// overview lists all commands under the questions that they answer, and the topics.
func overview(root *cobra.Command, qs []question) string {
	var b strings.Builder
	b.WriteString(topics.Plain(root.Long))
	for _, q := range qs {
		b.WriteString("\n" + q.asks + "\n")
		list(&b, q.commands)
	}
	b.WriteString("\nWhat there is to read: evenpull help TOPIC\n")
	for _, name := range topics.Names() {
		line(&b, name, topics.Title(name))
	}
	b.WriteString("\nWhat a command does and takes: evenpull help COMMAND\n")
	return b.String()
}

func list(b *strings.Builder, commands []*cobra.Command) {
	for _, c := range commands {
		line(b, c.Name(), c.Short)
	}
}

func line(b *strings.Builder, name, says string) { fmt.Fprintf(b, "  %-11s %s\n", name, says) }

// minding writes, and keeps the first error: the library looks at none when it prints help.
type minding struct {
	to  io.Writer
	err error
}

func (m *minding) Write(p []byte) (int, error) {
	n, err := m.to.Write(p)
	if err != nil && m.err == nil {
		m.err = fmt.Errorf("what was asked for could not be printed: %w", bare(err))
	}
	return n, err
}
