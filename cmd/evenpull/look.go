package main

import (
	"cmp"
	"fmt"

	"evenpull/sim/show/canvas"
	"evenpull/sim/show/chart"

	"github.com/spf13/cobra"
)

// lookFlags are those of how pictures are written.
type lookFlags struct {
	width      string
	dots       int
	grey       bool
	bare, near bool
}

// Dots to an inch that are taken.
const (
	leastDots = 36
	mostDots  = 1200
)

func (f *lookFlags) register(c *cobra.Command) {
	c.Flags().StringVar(&f.width, "width", "", "`width` of the plot on paper, such as 84mm, 17.4cm or 6.85in; or A4 or A5, on as many pages as it takes: left out, 24cm, and A4 of a PDF")
	c.Flags().IntVar(&f.dots, "dpi", 0, "`dots` to an inch of a PNG: left out, 96 of a plot")
	c.Flags().Lookup("dpi").DefValue = "0" // which help does not show
	c.Flags().BoolVar(&f.grey, "grey", false, "pictures in greys")
	c.Flags().BoolVar(&f.bare, "no-title", false, "plots without the sentence above, for those who write their own")
	c.Flags().BoolVar(&f.near, "no-zero", false, "axes of torques begin near the least that is drawn, not at zero")
	completeWords(c, "width", "84mm", "174mm", "A4", "A5")
}

// check judges the flags; a picture is asked for or not.
func (f *lookFlags) check(c *cobra.Command, plots, draws bool) error {
	if _, err := canvas.SizeOf(f.width); err != nil {
		return usagef("--width %v", err)
	}
	if c.Flags().Changed("dpi") && (f.dots < leastDots || f.dots > mostDots) {
		return usagef("--dpi %d: want %d to %d dots to an inch", f.dots, leastDots, mostDots)
	}
	for _, flag := range []string{"width", "no-title", "no-zero"} {
		if c.Flags().Changed(flag) && !plots {
			return usagef("--%s goes with --plot", flag)
		}
	}
	for _, flag := range []string{"dpi", "grey"} {
		if c.Flags().Changed(flag) && !plots && !draws {
			return usagef("--%s goes with a picture", flag)
		}
	}
	return nil
}

// look is how the picture of a file is to be written.
func (f *lookFlags) look(file string) (chart.Look, error) {
	format, err := canvas.FormatOf(file)
	if err != nil {
		return chart.Look{}, err
	}
	asked := f.width
	if format == "pdf" { // which is printed
		asked = cmp.Or(asked, "A4")
	}
	size, err := canvas.SizeOf(asked)
	if err != nil {
		return chart.Look{}, fmt.Errorf("--width %w", err)
	}
	return chart.Look{Form: canvas.Form{Format: format, Dots: f.dots, Grey: f.grey}, Size: size, Bare: f.bare, Near: f.near}, nil
}
