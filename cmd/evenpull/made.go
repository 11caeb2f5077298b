package main

import (
	"cmp"
	"context"
	"io"
	"path/filepath"
	"strings"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/bench/book"
	"evenpull/sim/scenario"
	"evenpull/sim/show/page"
	"evenpull/sim/study/dossier"
	"evenpull/sim/vary"

	"github.com/spf13/cobra"
)

// made is the document of a report with what it was made from.
type made struct {
	document *page.Document
	clocks   []*dossier.Clock
	bench    *dossier.Bench // nil for none
	studies  []study
	read     []*reads // for every clock; the bench book with the first
}

// build reads all that a document is made from, computes what it says and makes the document.
func (f *reportFlags) build(c *cobra.Command, s streams, args []string) (*made, error) {
	m := &made{}
	scenarios, bench, err := f.gather(c, s, m, args)
	if err != nil {
		return nil, err
	}
	ctx := c.Context()
	for i, sc := range scenarios {
		if i == 0 && bench != nil {
			if sc, err = f.at(ctx, m, bench, sc); err != nil {
				return nil, err
			}
		}
		if err := vary.Apply(sc, f.set); err != nil {
			return nil, usageError{err}
		}
		clock, err := dossier.OfClock(ctx, sc, f.sureness())
		if err != nil {
			return nil, err
		}
		m.clocks = append(m.clocks, clock)
	}
	m.document, err = page.Build(m.clocks, m.bench, m.told(), f.origin(c, s))
	return m, err
}

// gather reads scenarios, bench book and studies; what was read for each clock is taken down
// by itself.
func (f *reportFlags) gather(c *cobra.Command, s streams, m *made, args []string) (all []*scenario.Scenario, bench *book.Book, err error) {
	for i, name := range args {
		own := s
		own.read = new(reads)
		sc, err := open(own, name)
		if err == nil && i == 0 && f.book != "" {
			bench, err = openBook(c, own, args, f.book)
		}
		if err != nil {
			return nil, nil, err
		}
		all, m.read = append(all, sc), append(m.read, own.read)
		s.read.also(own.read)
	}
	for _, dir := range f.studies {
		st, err := openStudy(c.Context(), s, dir)
		if err != nil {
			return nil, nil, err
		}
		m.studies = append(m.studies, st)
	}
	return all, bench, nil
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

// told are the studies as the document tells of them.
func (m *made) told() (all []page.Study) {
	for i := range m.studies {
		st := &m.studies[i]
		all = append(all, page.Study{Name: st.called(), Of: st.now.title, Says: st.says(), Command: st.m.Command, SVG: st.picture()})
	}
	return all
}

// origin tells what the document is made by.
func (f *reportFlags) origin(c *cobra.Command, s streams) page.Origin {
	if s.again != nil {
		return s.again.m.Origin
	}
	b := s.build()
	return page.Origin{Version: b.version, Commit: b.commit, Date: cmp.Or(f.date, today()), Command: commandOf(c)}
}

// write writes the page under a name, by whose ending it is a page or Markdown.
func (m *made) write(w io.Writer, name string) error {
	if strings.EqualFold(filepath.Ext(name), ".md") {
		return page.Markdown(w, m.document, picturesOf(name))
	}
	return page.HTML(w, m.document)
}

// pictures are those of the document, each in a file of its own.
func (m *made) pictures() (parts []files.Part) {
	for _, p := range m.document.Pictures {
		parts = append(parts, files.Part{Name: p.ID + ".svg", Data: p.SVG})
	}
	return parts
}
