package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/cmd/evenpull/internal/files"

	"github.com/spf13/cobra"
)

// named is a file or folder that a command line names, and what it calls it.
type named struct {
	called, name string
	folder       bool
}

func (n named) String() string { return n.called + " " + n.name }

// outputs are what a command line asks to be written.
func outputs(c *cobra.Command, args []string) (out []named) {
	if c.Name() == "init" && len(args) > 0 {
		out = append(out, named{"init", args[0], false})
	}
	for _, flag := range []string{"drawing", "plot", "save", "out", "data"} {
		if f := c.Flags().Lookup(flag); f != nil && f.Value.String() != "" {
			out = append(out, named{"--" + flag, f.Value.String(), flag == "data"})
		}
	}
	if i := slices.IndexFunc(out, func(n named) bool { return n.called == "--out" && strings.EqualFold(filepath.Ext(n.name), ".md") }); i >= 0 {
		out = append(out, named{"the pictures of --out in", picturesOf(out[i].name), true})
	}
	return out
}

// inputs are the files that a command line names to be read, as far as there are such.
func inputs(c *cobra.Command, args []string) (in []named) {
	if c.Name() != "init" && c.Name() != "man" {
		for _, arg := range args {
			in = append(in, named{"the input", arg, false})
		}
	}
	for _, flag := range []string{"scenario", "stock", "record"} {
		if f := c.Flags().Lookup(flag); f != nil {
			in = append(in, named{"--" + flag, f.Value.String(), false})
		}
	}
	return in
}

// checkOutputs refuses what cannot be written as the command line asks, before anything is
// computed.
func checkOutputs(c *cobra.Command, args []string) error {
	out := outputs(c, args)
	for i, o := range out {
		if err := o.check(); err != nil {
			return err
		}
		for _, other := range out[:i] {
			if !other.meets(o) {
				continue
			}
			want := "two files"
			if o.folder || other.folder {
				want = "two places, neither in the other"
			}
			return usagef("%s and %s: want %s", other, o, want)
		}
	}
	if err := apart(out, inputs(c, args)); err != nil {
		return err
	}
	for _, o := range out {
		force, _ := c.Flags().GetBool("force")
		err := files.CheckFile(o.name, how(force))
		if o.folder {
			err = files.CheckFolder(o.name, how(force), ofStudy)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// check refuses a name by which an output would not be found again.
func (n named) check() error {
	switch {
	case strings.HasPrefix(n.name, "-"):
		return usagef("%s: want the name of a file; one that begins with a - is written .%c%s", n, filepath.Separator, n.name)
	case isSample(n.name):
		return usagef("%s: this is the name of a sample, and would be mistaken for it; want another name, or .%c%s", n, filepath.Separator, n.name)
	}
	return nil
}

// isSample tells whether a name is that of a sample of any kind.
func isSample(name string) bool {
	return slices.ContainsFunc(kinds(), func(k kind) bool { return slices.Contains(k.names(), name) })
}

// meets tells whether two places are one, or one of them lies within the other.
func (n named) meets(other named) bool {
	return files.Same(n.name, other.name) || n.folder && files.Within(other.name, n.name) || other.folder && files.Within(n.name, other.name)
}

// apart refuses an output in the place of a file that is read.
func apart(out, in []named) error {
	for _, i := range in {
		if _, err := os.Stat(i.name); err != nil {
			continue // a sample, standard input, or nothing
		}
		for _, o := range out {
			if o.meets(i) {
				return usagef("%s would take the place of %s, which is read; want another name", o, i)
			}
		}
	}
	return nil
}
