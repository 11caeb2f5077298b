package main

import (
	"io"
	"path/filepath"
	"slices"
	"strings"

	"evenpull/scenarios"

	"github.com/spf13/cobra"
)

// reportFlags are the flags of report.
type reportFlags struct {
	set, studies            []string
	out, data, verify, date string
	force                   bool
	drawFlags
	atBench
}

func newReport(s streams) *cobra.Command {
	var f reportFlags
	c := &cobra.Command{
		Use:   "report [SCENARIO...]",
		Short: "Make a study of a clock to keep",
		Long: `Report writes all that is known of a clock as one page: verdicts and how sure they
are, a drawing of each train to scale, tables, plots, what another thickness of the
spring would do, what matters most, every assumption, the equations with their
sources, the limits of the model, cautions. The page needs nothing beside it: no
network, no script. It reads on a phone and prints on A4 and Letter.

--out FILE.html is the page; --out FILE.md is the same in Markdown, its pictures in
a folder beside it. --bench adds a bench file, and puts what it says of needs, timed strikes and springs in the
place of what the first scenario says. Several scenarios are set side by
side, what differs first.

--study DIR puts what another command kept by its own --data into the page: what it
found, its picture and the command that makes it.

--data DIR keeps what the page was made from: the scenarios, the bench file and the
files of readings that it names; all figures that stand on the page as JSON and CSV,
the pictures, the studies, and a manifest with checksums, that of the page too.
--verify DIR computes what is in such a folder again, be it of a report or of another
command, from there alone, and tells whether it is the same: figures to 1 in 10⁹, or to
10⁻⁹ in their unit, since another processor rounds otherwise; words and counts exactly.
The page beside the folder is compared as well, or the one named after DIR. The exit
status is 1 when something differs, is missing or stands in the folder that does not
belong there.`,
		Example: `  evenpull report --out clock.html --force
  evenpull report three-trains --bench mixed-barrels --spring going=C --out trains.html --force
  evenpull report eight-day too-strong --out side-by-side.md --force
  evenpull report --out clock.html --data clock-data --force
  evenpull report --verify clock-data
  evenpull report --verify clock-data clock.html
  evenpull sweep --data thickness --force
  evenpull report --study thickness --out studied.html --force`,
		RunE: func(c *cobra.Command, args []string) error { return runReport(c, s, &f, args) },
	}
	c.Flags().StringVar(&f.out, "out", "", "`file` to write: .html, or .md with pictures beside it")
	keepsData(c, &f.data, "all figures and pictures")
	c.Flags().StringArrayVar(&f.studies, "study", nil, "put what another command kept by --data in this `folder` into the page, headed by the folder's name (repeatable)")
	f.atBench.register(c)
	c.Flags().StringVar(&f.verify, "verify", "", "compute a `folder` of data again and compare")
	c.Flags().StringVar(&f.date, "date", "", "the `date` that the study is to bear; left out, today's")
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of every scenario, in any unit of its kind: `KEY=VALUE` (repeatable)")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite what exists")
	f.registerDraws(c)
	completeKeys(c, "set", "=")
	c.ValidArgsFunction = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return scenarios.Names(), cobra.ShellCompDirectiveDefault
	}
	return c
}

func runReport(c *cobra.Command, s streams, f *reportFlags, args []string) error {
	ctx := c.Context()
	ending := strings.ToLower(filepath.Ext(f.out))
	switch {
	case f.verify != "" && s.again != nil:
		return usagef("--verify is nothing that can be kept")
	case f.verify != "" && (f.out != "" || f.data != "" || f.book != "" || len(f.springs) > 0 || len(f.set) > 0 || len(f.studies) > 0 || len(args) > 1):
		return usagef("--verify stands by itself, or with the page to compare: --verify DIR PAGE")
	case f.verify != "":
		return runVerify(ctx, s, f.verify, argument(args, ""))
	case f.out == "" && f.data == "" && s.again == nil:
		return usagef("want --out FILE.html or FILE.md, or --data DIR")
	case f.book == "" && len(f.springs) > 0:
		return usagef("--spring goes with --bench")
	case len(args) > mostScenarios:
		return usagef("found %d scenarios; want at most %d side by side", len(args), mostScenarios)
	case len(f.studies) > mostStudies:
		return usagef("found %d times --study; want at most %d", len(f.studies), mostStudies)
	case slices.Contains(f.studies, ""):
		return usagef("--study \"\": want the folder of a study")
	case f.out != "" && ending != ".html" && ending != ".md":
		return usagef("--out %s: want a name ending in .html or .md", f.out)
	}
	if err := f.checkDraws(); err != nil {
		return err
	}
	if len(args) == 0 {
		args = []string{sampleMark + scenarios.Default}
	}
	made, err := f.build(c, s, args)
	if err != nil {
		return err
	}
	if f.data != "" || s.again != nil {
		sup, err := made.supplement(f, s)
		if err == nil {
			err = s.keep(c, f.data, sup)
		}
		if err != nil || s.again != nil {
			return err
		}
	}
	if f.out == "" {
		return nil
	}
	if ending == ".md" {
		folder := picturesFolder(f.out)
		if err := writeFolder(ctx, folder, f.force, made.pictures()); err != nil {
			return err
		}
		s.say("pictures written to %s", folder)
	}
	if err := writeFile(ctx, f.out, f.force, func(w io.Writer) error { return made.write(w, f.out) }); err != nil {
		return err
	}
	s.say("study written to %s", f.out)
	return nil
}

// picturesFolder is the folder for the pictures of a Markdown file, beside it.
func picturesFolder(out string) string {
	return strings.TrimSuffix(out, filepath.Ext(out)) + "-pictures"
}
