package main

import (
	"io"

	"github.com/spf13/cobra"
)

// shell is one that completion is written for.
type shell struct {
	name, needs  string
	once, always string // lines that make it work in one window, and in each from then on
	write        func(root *cobra.Command, w io.Writer, meanings bool) error
}

func shells() []shell {
	return []shell{
		{"bash", "It needs the package bash-completion, which most systems have.",
			"source <(evenpull completion bash)",
			"mkdir -p ~/.local/share/bash-completion/completions\n  evenpull completion bash > ~/.local/share/bash-completion/completions/evenpull",
			(*cobra.Command).GenBashCompletionV2},
		{"zsh", "Completion has to be on in zsh: autoload -U compinit; compinit",
			"source <(evenpull completion zsh)",
			`evenpull completion zsh > "${fpath[1]}/_evenpull"`,
			func(root *cobra.Command, w io.Writer, meanings bool) error {
				if meanings {
					return root.GenZshCompletion(w)
				}
				return root.GenZshCompletionNoDesc(w)
			}},
		{"fish", "It needs nothing more.",
			"evenpull completion fish | source",
			"evenpull completion fish > ~/.config/fish/completions/evenpull.fish",
			(*cobra.Command).GenFishCompletion},
		{"powershell", "It needs nothing more.",
			"evenpull completion powershell | Out-String | Invoke-Expression",
			"evenpull completion powershell >> $PROFILE",
			func(root *cobra.Command, w io.Writer, meanings bool) error {
				if meanings {
					return root.GenPowerShellCompletionWithDesc(w)
				}
				return root.GenPowerShellCompletion(w)
			}},
	}
}

func newCompletion(s streams) *cobra.Command {
	c := &cobra.Command{
		Use:   "completion SHELL",
		Short: "Let the Tab key finish what you begin to type",
		Long: `Completion prints what a shell, the program that reads what you type at the
terminal, wants to know of evenpull. From then on the Tab key finishes the names of
commands, samples, flags, trains and KEYs, or shows which there are.`,
		Example: `  evenpull completion bash`,
		Args:    usageArgs(cobra.NoArgs),
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	for _, sh := range shells() {
		c.AddCommand(newShell(s, sh))
	}
	return c
}

func newShell(s streams, sh shell) *cobra.Command {
	var bare bool
	c := &cobra.Command{
		Use:   sh.name,
		Short: "What the shell " + sh.name + " wants to know",
		Long: "Prints what the shell " + sh.name + " wants to know to finish what you begin to type. " + sh.needs + `

For the window you are in, type:

  ` + sh.once + `

For every window that you open from then on, type once:

  ` + sh.always,
		Example:           `  evenpull completion ` + sh.name,
		Args:              usageArgs(cobra.NoArgs),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(c *cobra.Command, _ []string) error { return sh.write(c.Root(), s.out, !bare) },
	}
	c.Flags().BoolVar(&bare, "no-descriptions", false, "only the names, without what each means")
	return c
}
