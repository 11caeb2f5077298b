package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// Set by .ci/release alone, with -ldflags -X: so that a release is the same wherever it
// is built. Of any other build the go command's own information tells.
var release, commit string

// build tells which evenpull this is.
type build struct {
	version, commit, tree string
}

// thisBuild reads what was stamped, or else what the go command wrote down.
func thisBuild() build {
	if release != "" {
		return build{release, commit, "clean"} // .ci/release builds the commit itself
	}
	b := build{"(devel)", "not known", "not known"}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return b
	}
	if info.Main.Version != "" {
		b.version = info.Main.Version
	}
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			b.commit = s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			b.tree = "changed since the commit"
		case s.Key == "vcs.modified":
			b.tree = "clean"
		}
	}
	return b
}

// known tells whether it is known what it was built from.
func (b build) known() bool { return b.commit != "not known" && b.tree != "changed since the commit" }

// String is a line for the version and one each for what it was built from and with.
func (b build) String() string {
	return fmt.Sprintf("evenpull %s\ncommit    %s\ntree      %s\nbuilt by  %s\nfor       %s/%s\n",
		b.version, b.commit, b.tree, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}

func newVersion(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Tell the version, and what it was built from",
		Long: `Version tells which evenpull this is: its version, the commit that it was built from,
whether the files were as that commit has them, the Go that built it and the system
and processor that it is for. "evenpull --version" tells the same.`,
		Example: `  evenpull version`,
		Args:    usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprint(s.out, thisBuild())
			return err
		},
	}
}
