package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"
)

// samplesFlags are the flags of samples.
type samplesFlags struct {
	gallery, as string
	force       bool
}

func newSamples(s streams) *cobra.Command {
	var f samplesFlags
	c := &cobra.Command{
		Use:   "samples [NAME]",
		Short: "List the samples, or print one",
		Long: `Samples lists the scenarios, bench files and stock lists that come with the
program, with a line each. Given a name it prints that one. All of them are
invented for teaching: the numbers are realistic but belong to no clock.

"samples protocol" prints a page for the bench: safe handling first, then what to
measure, how often, in which order, how long it takes and what it does to how sure
the verdict is, with blank tables to fill in.

--gallery DIR draws every picture that the commands draw, from the samples, into a
folder, with a page, index.html, that shows them and tells what one sees and which
command draws it. A folder of another gallery is replaced with --force only.`,
		Example: `  evenpull samples
  evenpull samples too-strong
  evenpull samples mixed-barrels
  evenpull samples shop-drawer
  evenpull samples protocol
  evenpull samples --gallery pictures`,
		Args:              usageArgs(cobra.MaximumNArgs(1)),
		ValidArgsFunction: completeSamples,
		RunE: func(c *cobra.Command, args []string) error {
			if f.gallery != "" || c.Flags().NFlag() > 0 {
				return f.draw(c, s, args)
			}
			if len(args) == 0 {
				return listSamples(s)
			}
			var names []string
			for _, k := range kinds() {
				if text, ok := k.sample(args[0]); ok {
					_, err := io.WriteString(s.out, text)
					return err
				}
				names = append(names, k.names()...)
			}
			return usagef("there is no sample %q; there are %s", args[0], strings.Join(names, ", "))
		},
	}
	c.Flags().StringVar(&f.gallery, "gallery", "", "draw every picture of the samples into this `folder`")
	c.Flags().StringVar(&f.as, "as", formats()[0], "`format` of the pictures of --gallery: "+strings.Join(formats(), ", "))
	c.Flags().BoolVar(&f.force, "force", false, "overwrite a gallery that exists")
	completeWords(c, "as", formats()...)
	return c
}

// draw makes the gallery.
func (f *samplesFlags) draw(c *cobra.Command, s streams, args []string) error {
	switch {
	case f.gallery == "":
		return usagef("--as and --force go with --gallery DIR")
	case len(args) > 0:
		return usagef("--gallery stands by itself, and found %q: it draws the pictures of all samples", args[0])
	case !slices.Contains(formats(), f.as):
		return usagef("--as %q: want %s", f.as, strings.Join(formats(), ", "))
	}
	return writeGallery(c.Context(), s, f.gallery, f.as, f.force)
}

func listSamples(s streams) error {
	w := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	for _, k := range kinds() {
		for _, name := range k.names() {
			text, _ := k.sample(name)
			title, err := k.title(name, text)
			if err != nil {
				return err
			}
			fmt.Fprintf(w, "%s\t%s\n", name, title)
		}
	}
	return w.Flush()
}
