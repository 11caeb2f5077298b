package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"evenpull/sim/show/page"
)

// runVerify computes kept data again, and the page that was written with them: the one
// named, or else the one beside the folder.
func runVerify(ctx context.Context, s streams, dir, pageFile string) error {
	kept, err := openFolder(dir)
	if err != nil {
		return err
	}
	defer kept.Close()
	m, err := readManifest(kept)
	if err != nil {
		return fmt.Errorf("%s: %w", dir, err)
	}
	held, err := readFolder(kept)
	if err != nil {
		return fmt.Errorf("%s: %w", dir, err)
	}
	faults := m.changed(held)
	beside := ""
	if len(faults) == 0 {
		f := reportFlags{set: m.Set, drawFlags: drawFlags{m.Draws}, atBench: atBench{springs: m.Springs}}
		again, err := f.build(ctx, m.sources(held), m.Origin)
		if err != nil {
			return fmt.Errorf("%s: %v", dir, err) // not of the command line, which says nothing of it
		}
		if faults, err = again.differs(m, held); err != nil {
			return err
		}
		more := ""
		if beside, more, err = again.page(m, dir, pageFile); err != nil {
			return err
		}
		if more != "" {
			faults = append(faults, more)
		}
	}
	if len(faults) > 0 {
		return fmt.Errorf("%s, made by evenpull %s on %s, is not the same:\n  %s", dir, m.Version, m.Date, strings.Join(firstOf(faults), "\n  "))
	}
	fmt.Fprintf(s.out, "%s: %d files are as they were made, and their figures come out the same to 1 in 10⁹ (made by evenpull %s on %s)\n", dir, len(m.SHA256), m.Version, m.Date)
	fmt.Fprint(s.out, beside)
	return nil
}

// openFolder opens a folder to read of it.
func openFolder(dir string) (folder, error) {
	if st, err := os.Stat(dir); err != nil {
		return folder{}, fmt.Errorf("%s cannot be read: %w", dir, bare(err))
	} else if !st.IsDir() {
		return folder{}, fmt.Errorf("%s is no folder", dir)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return folder{}, fmt.Errorf("%s cannot be read: %w", dir, bare(err))
	}
	return folder{root}, nil
}

// firstOf are the first faults of a list, and how many more there are.
func firstOf(faults []string) []string {
	const most = 10
	if len(faults) > most {
		return append(faults[:most:most], fmt.Sprintf("and %d more", len(faults)-most))
	}
	return faults
}

// differs lists the files that come out otherwise when made again, each with the first
// number that differs.
func (d *made) differs(m *manifest, held map[string][]byte) ([]string, error) {
	files, err := d.files(manifest{Set: m.Set, Springs: m.Springs, Draws: m.Draws, Page: m.Page})
	if err != nil {
		return nil, err
	}
	var list []string
	now := map[string]bool{}
	for _, f := range files {
		now[f.Name] = true
		switch content, there := held[f.Name]; {
		case f.Name == manifestName:
		case !there:
			list = append(list, f.Name+" is missing")
		default:
			if what := otherwise(content, f.Data, path.Ext(f.Name) == ".svg"); what != "" {
				list = append(list, f.Name+": "+what)
			}
		}
	}
	for name := range m.SHA256 {
		if !now[name] {
			list = append(list, told(name)+" is none that the study has")
		}
	}
	return list, nil
}

// page compares the page of the study: the file named, or the one beside the folder. It
// gives a line of what was found, or the fault.
func (d *made) page(m *manifest, dir, file string) (found, fault string, err error) {
	if m.Page.Name == "" && file == "" {
		return "", "", nil
	} else if m.Page.Name == "" {
		return "", "", fmt.Errorf("%s was kept without a page to compare %s with", dir, file)
	}
	sought := file != ""
	if !sought {
		whole, err := filepath.Abs(dir)
		if err != nil {
			return "", "", err
		}
		file = filepath.Join(filepath.Dir(whole), m.Page.Name)
	}
	name := told(filepath.Base(file))
	at, err := openFolder(filepath.Dir(file))
	if err != nil {
		return "", "", err
	}
	defer at.Close()
	text, err := readPlain(at, filepath.Base(file), mostBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !sought:
		return fmt.Sprintf("its page %s is not beside it and was not compared; name it after %s\n", name, dir), "", nil
	case err != nil && sought:
		return "", "", fmt.Errorf("--verify %s %s: %w", dir, file, err)
	case err != nil:
		return "", "", err
	case checksum(text) != m.Page.SHA256:
		return "", name + " was changed", nil
	}
	now, err := d.written(m.Page.Name)
	if err != nil {
		return "", "", err
	}
	if what := otherwise(text, now, true); what != "" {
		return "", name + ": " + what, nil
	}
	if strings.EqualFold(filepath.Ext(m.Page.Name), ".md") {
		for _, p := range d.pictures() {
			file := path.Join(picturesOf(m.Page.Name), p.Name)
			if picture, err := readPlain(at, file, mostBytes); err != nil {
				return "", err.Error(), nil
			} else if checksum(picture) != m.SHA256[path.Join("pictures", p.Name)] {
				return "", told(file) + " was changed", nil
			}
		}
	}
	return "its page " + name + " is as it was made\n", "", nil
}

// written is the page of a name, as it is written.
func (d *made) written(name string) ([]byte, error) {
	var b bytes.Buffer
	if strings.EqualFold(filepath.Ext(name), ".md") {
		err := page.Markdown(&b, d.document, picturesOf(name))
		return b.Bytes(), err
	}
	err := page.HTML(&b, d.document)
	return b.Bytes(), err
}
