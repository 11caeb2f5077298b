package main

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"evenpull/scenarios"
	"evenpull/sim/show/page"
	"evenpull/sim/study/dossier"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"

	"github.com/spf13/cobra"
)

// reportFlags are the flags of report.
type reportFlags struct {
	set                             []string
	out, data, record, verify, date string
	force                           bool
	drawFlags
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
a folder beside it. --record adds a bench file. Several scenarios are set side by
side, what differs first.

--data DIR keeps what the page was made from: the scenarios, all figures as JSON and
CSV, the pictures, and a manifest with checksums. --verify DIR computes from there
again and tells whether the figures are the same; its exit status is 1 when they
are not.`,
		Example: `  evenpull report --out clock.html --force
  evenpull report three-trains --record mixed-barrels --out trains.html --force
  evenpull report eight-day too-strong --out side-by-side.md --force
  evenpull report --out clock.html --data clock-data --force
  evenpull report --verify clock-data`,
		RunE: func(_ *cobra.Command, args []string) error { return runReport(s, &f, args) },
	}
	c.Flags().StringVar(&f.out, "out", "", "`file` to write: .html, or .md with pictures beside it")
	c.Flags().StringVar(&f.data, "data", "", "also keep scenarios, figures, pictures and checksums in this `folder`")
	c.Flags().StringVar(&f.record, "record", "", "a bench `file` of the first scenario")
	c.Flags().StringVar(&f.verify, "verify", "", "compute a `folder` of data again and compare")
	c.Flags().StringVar(&f.date, "date", "", "the `date` that the study is to bear; left out, today's")
	c.Flags().StringArrayVar(&f.set, "set", nil, "change a value of every scenario: `KEY=VALUE` (repeatable)")
	c.Flags().BoolVar(&f.force, "force", false, "overwrite what exists")
	f.registerDraws(c)
	completeKeys(c, "set", "=")
	c.ValidArgsFunction = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return scenarios.Names(), cobra.ShellCompDirectiveDefault
	}
	return c
}

func runReport(s streams, f *reportFlags, args []string) error {
	ending := strings.ToLower(filepath.Ext(f.out))
	switch {
	case f.verify != "" && (f.out != "" || f.data != "" || f.record != "" || len(args)+len(f.set) > 0):
		return usagef("--verify stands by itself")
	case f.verify != "":
		return runVerify(s, f.verify)
	case f.out == "" && f.data == "":
		return usagef("want --out FILE.html or FILE.md, or --data DIR")
	case f.out != "" && ending != ".html" && ending != ".md":
		return usagef("--out %s: want a name ending in .html or .md", f.out)
	}
	if err := f.checkDraws(); err != nil {
		return err
	}
	if len(args) == 0 {
		args = []string{scenarios.Default}
	}
	made, err := f.build(s, args)
	if err != nil {
		return err
	}
	if f.data != "" {
		if err := f.keep(s, made); err != nil {
			return err
		}
	}
	switch ending {
	case ".html":
		err = writeFile(f.out, f.force, func(w io.Writer) error { return page.HTML(w, made.document) })
	case ".md":
		err = f.markdown(made)
	default:
		return nil
	}
	if err == nil {
		s.say("study written to %s", f.out)
	}
	return err
}

// made is a document with what it was made from.
type made struct {
	document *page.Document
	clocks   []*dossier.Clock
	sources  []string
	bench    string // "" for none
}

func (f *reportFlags) build(s streams, args []string) (*made, error) {
	m := &made{}
	ctx, stop := interruptible()
	defer stop()
	for _, name := range args {
		text, err := textOf(s, ofScenario, name)
		if err != nil {
			return nil, err
		}
		sc, err := parse(name, text)
		if err != nil {
			return nil, err
		}
		if err := vary.Apply(sc, f.set); err != nil {
			return nil, usageError{err}
		}
		c, err := dossier.OfClock(ctx, sc, f.sureness())
		if err != nil {
			return nil, interrupted(err)
		}
		m.sources = append(m.sources, text)
		m.clocks = append(m.clocks, c)
	}
	var bench *dossier.Bench
	if f.record != "" {
		text, err := textOf(s, ofBench, f.record)
		if err != nil {
			return nil, err
		}
		book, err := parseBench(f.record, text)
		if err != nil {
			return nil, err
		}
		if bench, err = dossier.OfBench(ctx, book, m.clocks[0].Scenario, f.sureness()); err != nil {
			return nil, interrupted(err)
		}
		m.bench = text
	}
	var err error
	m.document, err = page.Build(m.clocks, bench, f.origin(args))
	return m, err
}

// interrupted says in a word that somebody stopped it.
func interrupted(err error) error {
	if errors.Is(err, context.Canceled) {
		return errors.New("interrupted")
	}
	return err
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
	if f.draws != sure.Draws {
		words = append(words, "--draws", strconv.Itoa(f.draws))
	}
	for _, flag := range [][2]string{{"--record", f.record}, {"--date", f.date}, {"--out", f.out}, {"--data", f.data}} {
		if flag[1] != "" {
			words = append(words, flag[0], flag[1])
		}
	}
	for i, w := range words {
		if strings.ContainsAny(w, " \t\"'$\\;&|<>()*?") {
			words[i] = "'" + strings.ReplaceAll(w, "'", `'\''`) + "'"
		}
	}
	return page.Origin{Version: thisBuild().version, Date: date, Command: strings.Join(words, " ")}
}

// markdown writes the text and, beside it, the pictures.
func (f *reportFlags) markdown(m *made) error {
	folder := strings.TrimSuffix(filepath.Base(f.out), filepath.Ext(f.out)) + "-pictures"
	if err := writeFolder(filepath.Join(filepath.Dir(f.out), folder), f.force, m.pictures()); err != nil {
		return err
	}
	return writeFile(f.out, f.force, func(w io.Writer) error { return page.Markdown(w, m.document, folder) })
}

func (f *reportFlags) keep(s streams, m *made) error {
	files, err := m.files(f.set, f.draws)
	if err != nil {
		return err
	}
	if err := writeFolder(f.data, f.force, files); err != nil {
		return err
	}
	s.say("data written to %s", f.data)
	return nil
}
