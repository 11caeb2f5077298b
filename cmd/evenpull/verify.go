package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// runVerify computes kept data again, and the page that was written with them: the one
// named, or else the one beside the folder.
func runVerify(ctx context.Context, s streams, dir, pageFile string) error {
	m, held, err := openKept(dir)
	if err != nil {
		return err
	}
	faults := m.changed(held)
	beside := ""
	if len(faults) == 0 {
		var now *supplement
		if now, faults, err = m.comesOut(ctx, held); err != nil {
			return fmt.Errorf("%s: %w", dir, notOfCommandLine(err))
		}
		more := ""
		if beside, more, err = now.besides(m, dir, pageFile); err != nil {
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

// notOfCommandLine takes from an error that it is one of the command line, which says nothing
// of what is in a folder.
func notOfCommandLine(err error) error {
	if errors.Is(err, context.Canceled) {
		return err
	}
	return errors.New(err.Error())
}

// openKept reads a folder of data.
func openKept(dir string) (*manifest, map[string][]byte, error) {
	kept, err := openFolder(dir)
	if err != nil {
		return nil, nil, err
	}
	defer kept.Close()
	m, err := readManifest(kept)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", dir, err)
	}
	held, err := readFolder(kept)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", dir, err)
	}
	return m, held, nil
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

// comesOut runs the command of a folder again, and that of every study in it; it lists the
// files that come out otherwise, each with the first number that differs.
func (m *manifest) comesOut(ctx context.Context, held map[string][]byte) (*supplement, []string, error) {
	now, err := runAgain(ctx, m, held)
	if err != nil {
		return nil, nil, err
	}
	list, err := now.differs(m, held)
	if err != nil {
		return nil, nil, err
	}
	for _, st := range now.studies {
		for _, in := range m.Studies {
			for _, fault := range st.faults {
				if in.Given == st.given {
					list = append(list, in.Kept+"/"+fault)
				}
			}
		}
	}
	return now, list, nil
}

// differs lists the files that are not as they come out now.
func (sup *supplement) differs(m *manifest, held map[string][]byte) ([]string, error) {
	files, err := sup.files(manifest{Origin: m.Origin, Args: m.Args, Page: m.Page}, held)
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
			if what := otherwise(content, f.Data, slices.Contains([]string{".svg", ".txt"}, path.Ext(f.Name))); what != "" {
				list = append(list, f.Name+": "+what)
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(m.SHA256)) {
		if !now[name] {
			list = append(list, told(name)+" is none that the study has")
		}
	}
	return list, nil
}

// besides compares the page of the study: the file named, or the one beside the folder. It
// gives a line of what was found, or the fault.
func (sup *supplement) besides(m *manifest, dir, file string) (found, fault string, err error) {
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
	if what := otherwise(text, sup.page, true); what != "" {
		return "", name + ": " + what, nil
	}
	if strings.EqualFold(filepath.Ext(m.Page.Name), ".md") {
		for _, p := range sup.pictures {
			file := path.Join(picturesOf(m.Page.Name), p.Name)
			picture, err := readPlain(at, file, mostBytes)
			if err != nil {
				return "", err.Error(), nil
			}
			want, kept := m.SHA256[path.Join(picturesWithin, p.Name)]
			if kept && checksum(picture) != want {
				return "", told(file) + " was changed", nil
			}
			if what := otherwise(picture, p.Data, true); what != "" {
				return "", told(file) + ": " + what, nil
			}
		}
	}
	return "its page " + name + " is as it was made\n", "", nil
}
