package main

import (
	"context"
	"io"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/scenario"
	"evenpull/sim/show/page"
	"evenpull/sim/study/dossier"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"

	"github.com/spf13/cobra"
)

// reportFlags are the flags of report.
type reportFlags struct {
	set                     []string
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

--data DIR keeps what the page was made from: the scenarios, the bench file and the
files of readings that it names; all figures that stand on the page as JSON and CSV,
the pictures, and a manifest with checksums, that of the page too. --verify DIR
computes all of them again, from there alone, and tells whether they are the same:
figures to 1 in 10⁹, or to 10⁻⁹ in their unit, since another processor rounds
otherwise; words and counts exactly. The page beside the folder is compared as well,
or the one named after DIR. The exit status is 1 when something differs, is missing
or stands in the folder that does not belong there.`,
		Example: `  evenpull report --out clock.html --force
  evenpull report three-trains --bench mixed-barrels --spring going=C --out trains.html --force
  evenpull report eight-day too-strong --out side-by-side.md --force
  evenpull report --out clock.html --data clock-data --force
  evenpull report --verify clock-data
  evenpull report --verify clock-data clock.html`,
		RunE: func(c *cobra.Command, args []string) error { return runReport(c, s, &f, args) },
	}
	c.Flags().StringVar(&f.out, "out", "", "`file` to write: .html, or .md with pictures beside it")
	c.Flags().StringVar(&f.data, "data", "", "also keep scenarios, figures, pictures and checksums in this `folder`")
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
	case f.verify != "" && (f.out != "" || f.data != "" || f.book != "" || len(f.springs) > 0 || len(f.set) > 0 || len(args) > 1):
		return usagef("--verify stands by itself, or with the page to compare: --verify DIR PAGE")
	case f.verify != "":
		return runVerify(ctx, s, f.verify, argument(args, ""))
	case f.out == "" && f.data == "":
		return usagef("want --out FILE.html or FILE.md, or --data DIR")
	case f.book == "" && len(f.springs) > 0:
		return usagef("--spring goes with --bench")
	case len(args) > mostScenarios:
		return usagef("found %d scenarios; want at most %d side by side", len(args), mostScenarios)
	case f.out != "" && ending != ".html" && ending != ".md":
		return usagef("--out %s: want a name ending in .html or .md", f.out)
	}
	if err := f.checkDraws(); err != nil {
		return err
	}
	if len(args) == 0 {
		args = []string{sampleMark + scenarios.Default}
	}
	from, err := f.gather(s, args)
	if err == nil {
		err = apart(outputs(c, args), from.places(f.book))
	}
	if err != nil {
		return err
	}
	made, err := f.build(ctx, from, f.origin(args))
	if err != nil {
		return err
	}
	var text []byte
	if f.out != "" {
		if text, err = made.written(f.out); err != nil {
			return err
		}
	}
	if f.data != "" {
		if err := f.keep(ctx, s, made, text); err != nil {
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
	if err := writeFile(ctx, f.out, f.force, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return err
	}
	s.say("study written to %s", f.out)
	return nil
}

// made is a document with what it was made from.
type made struct {
	document *page.Document
	clocks   []*dossier.Clock
	bench    *dossier.Bench // nil for none
	from     *sources
}

// sources are the texts that a document is made from.
type sources struct {
	scenarios []named
	bench     *named            // nil for none
	readings  map[string]string // that the bench book has in files, by its names for them
}

// named is a text with what its file is called.
type named struct{ name, text string }

// gather reads all that a document is made from.
func (f *reportFlags) gather(s streams, args []string) (*sources, error) {
	from := &sources{readings: map[string]string{}}
	for _, name := range args {
		text, err := textOf(s, ofScenario, name)
		if err != nil {
			return nil, err
		}
		from.scenarios = append(from.scenarios, named{source(name), text})
	}
	if f.book == "" {
		return from, nil
	}
	text, err := textOf(s, ofBench, f.book)
	if err != nil {
		return nil, err
	}
	from.bench = &named{source(f.book), text}
	_, err = readBench(f.book, text, func(file string) (io.ReadCloser, error) {
		r, err := openBeside(s, f.book, file)
		if err != nil {
			return nil, err
		}
		from.readings[file], err = readAll(r, file)
		return from.open(file), err
	})
	return from, err
}

// places are the files of readings that a bench book of a name has.
func (from *sources) places(bench string) (all []place) {
	for file := range from.readings {
		all = append(all, readingsOf(bench, file))
	}
	return all
}

// open opens a file of readings that was read.
func (from *sources) open(file string) io.ReadCloser {
	return io.NopCloser(strings.NewReader(from.readings[file]))
}

// build computes what the texts say and makes the document of it.
func (f *reportFlags) build(ctx context.Context, from *sources, o page.Origin) (*made, error) {
	m := &made{from: from}
	bench, err := from.book()
	if err != nil {
		return nil, err
	}
	for i, text := range from.scenarios {
		sc, err := parse(text.name, text.text)
		if err != nil {
			return nil, err
		}
		if i == 0 && bench != nil {
			if sc, err = f.at(ctx, m, bench, sc); err != nil {
				return nil, err
			}
		}
		if err := vary.Apply(sc, f.set); err != nil {
			return nil, usageError{err}
		}
		c, err := dossier.OfClock(ctx, sc, f.sureness())
		if err != nil {
			return nil, err
		}
		m.clocks = append(m.clocks, c)
	}
	m.document, err = page.Build(m.clocks, m.bench, o)
	return m, err
}

// at works the bench book out beside the first scenario, and puts what it says into that.
func (f *reportFlags) at(ctx context.Context, m *made, bench *book.Book, sc *scenario.Scenario) (*scenario.Scenario, error) {
	chosen, err := f.chosen(sc)
	if err != nil {
		return nil, err
	}
	clock, err := clockOf(ctx, bench, sc)
	if err != nil {
		return nil, err
	}
	if m.bench, err = dossier.OfBench(ctx, clock, f.sureness()); err != nil {
		return nil, err
	}
	f.assigns = true
	sc, m.bench.Taken, err = f.with(ctx, clock, chosen)
	return sc, err
}

// book reads the bench book; nil for none.
func (from *sources) book() (*book.Book, error) {
	if from.bench == nil {
		return nil, nil
	}
	return readBench(from.bench.name, from.bench.text, func(file string) (io.ReadCloser, error) {
		if _, kept := from.readings[file]; !kept {
			return nil, fs.ErrNotExist
		}
		return from.open(file), nil
	})
}

// origin tells what the document is made by.
func (f *reportFlags) origin(args []string) page.Origin {
	date := f.date
	if date == "" {
		date = time.Now().Format(time.DateOnly)
	}
	words := append([]string{"evenpull", "report"}, args...)
	for _, set := range f.set {
		words = append(words, "--set", set)
	}
	for _, spring := range f.springs {
		words = append(words, "--spring", spring)
	}
	if f.draws != sure.Draws {
		words = append(words, "--draws", strconv.Itoa(f.draws))
	}
	for _, flag := range [][2]string{{"--bench", f.book}, {"--date", f.date}, {"--out", f.out}, {"--data", f.data}} {
		if flag[1] != "" {
			words = append(words, flag[0], flag[1])
		}
	}
	for i, w := range words {
		if !bareWord.MatchString(w) {
			words[i] = "'" + strings.ReplaceAll(w, "'", `'\''`) + "'"
		}
	}
	b := thisBuild()
	return page.Origin{Version: b.version, Commit: b.commit, Date: date, Command: strings.Join(words, " ")}
}

// bareWord is a word that a POSIX shell takes as it stands.
var bareWord = regexp.MustCompile(`^[A-Za-z0-9_@%+:,./=-]+$`)

// picturesFolder is the folder for the pictures of a Markdown file, beside it.
func picturesFolder(out string) string {
	return strings.TrimSuffix(out, filepath.Ext(out)) + "-pictures"
}

// keep writes the data, with the checksum of the page that is written beside them.
func (f *reportFlags) keep(ctx context.Context, s streams, d *made, text []byte) error {
	m := manifest{Set: f.set, Springs: f.springs, Draws: f.draws}
	if f.out != "" {
		m.Page = keptPage{filepath.Base(f.out), checksum(text)}
	}
	parts, err := d.files(m)
	if err != nil {
		return err
	}
	if err := writeFolder(ctx, f.data, f.force, parts); err != nil {
		return err
	}
	s.say("data written to %s", f.data)
	return nil
}
