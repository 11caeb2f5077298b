package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/cmd/evenpull/internal/files"

	"github.com/spf13/cobra"
)

// place is a file or folder that a command line names, and what it calls it.
type place struct {
	called, name string
	folder       bool
}

func (p place) String() string { return p.called + " " + p.name }

// outputs are what a command line asks to be written.
func outputs(c *cobra.Command, args []string) (out []place) {
	if c.Name() == "init" && len(args) > 0 {
		out = append(out, place{"init", args[0], false})
		if asks, _ := c.Flags().GetBool("ask"); asks {
			book, _ := c.Flags().GetString("book")
			out = append(out, place{"--book", bookOf(args[0], book), false})
		}
	}
	for _, flag := range outputFlags() {
		if f := c.Flags().Lookup(flag); f != nil && f.Value.String() != "" {
			out = append(out, place{"--" + flag, f.Value.String(), flag == "data" || flag == "gallery"})
		}
	}
	if i := slices.IndexFunc(out, func(n place) bool { return n.called == "--out" && strings.EqualFold(filepath.Ext(n.name), ".md") }); i >= 0 {
		out = append(out, place{"the pictures of --out in", picturesFolder(out[i].name), true})
	}
	return out
}

// outputFlags are those that name what is written.
func outputFlags() []string { return append(pictureFlags(), "save", "out", "data", "gallery") }

// pictureFlags are those of them that name pictures.
func pictureFlags() []string { return []string{"drawing", "plot", "animation"} }

// inputs are the files that a command line names to be read, as far as there are such.
func inputs(c *cobra.Command, args []string) (in []place) {
	if c.Name() != "init" && c.Name() != "man" {
		for _, arg := range args {
			in = append(in, place{"the input", arg, false})
		}
	}
	for _, flag := range []string{"scenario", "stock", "bench", "answers", "against"} {
		if f := c.Flags().Lookup(flag); f != nil {
			in = append(in, place{"--" + flag, f.Value.String(), false})
		}
	}
	return in
}

// readingsOf is a file of readings that a bench file names.
func readingsOf(bench, file string) place { return place{"the readings", beside(bench, file), false} }

// checkOutputs refuses what cannot be written as the command line asks, before anything is
// computed.
func checkOutputs(c *cobra.Command, s streams, args []string) error {
	out := outputs(c, args)
	if s.again != nil { // which writes nothing
		if len(out) > 0 {
			return fmt.Errorf("%s: found %s; want no more than what a command reads", manifestName, told(out[0].called))
		}
		return nil
	}
	for _, flag := range outputFlags() {
		if f := c.Flags().Lookup(flag); f != nil && f.Changed && f.Value.String() == "" && !slices.Contains(pictureFlags(), flag) { // which say more of it
			return usagef("--%s \"\": want the name of what is to be written", flag)
		}
	}
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
		resume, _ := c.Flags().GetBool("resume") // which only adds
		force = force || resume
		err := files.CheckFile(o.name, how(force))
		switch {
		case o.called == "--gallery":
			err = files.CheckFolder(o.name, galleryHow(o.name, force), ofGallery)
		case o.folder:
			err = files.CheckFolder(o.name, how(force), ofStudy)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// check refuses a name by which an output would not be found again.
func (p place) check() error {
	switch {
	case strings.HasPrefix(p.name, "-"):
		return usagef("%s: want the name of a file; one that begins with a - is written .%c%s", p, filepath.Separator, p.name)
	case isSample(p.name):
		return usagef("%s: this is the name of a sample, and would be mistaken for it; want another name, or .%c%s", p, filepath.Separator, p.name)
	}
	return nil
}

// isSample tells whether a name is that of a sample of any kind.
func isSample(name string) bool {
	return slices.ContainsFunc(kinds(), func(k kind) bool { return slices.Contains(k.names(), name) })
}

// meets tells whether two places are one, or one of them lies within the other.
func (p place) meets(other place) bool {
	return files.Same(p.name, other.name) || p.folder && files.Within(other.name, p.name) || other.folder && files.Within(p.name, other.name)
}

// apart refuses an output in the place of a file that is read.
func apart(out, in []place) error {
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
