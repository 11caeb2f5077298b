package main

import (
	"context"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/types"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

// source is a package as it stands, read and typed.
type source struct {
	*packages.Package
	name string // below the module
	text map[string][]byte
}

// Import gives the packages that the source imports, for types.Config.
func (s *source) Import(path string) (*types.Package, error) {
	if p := s.Imports[path]; p != nil && p.Types != nil {
		return p.Types, nil
	}
	if path == "unsafe" {
		return types.Unsafe, nil
	}
	return nil, fmt.Errorf("%s is not loaded", path)
}

func load(ctx context.Context, patterns []string) ([]*source, error) {
	loaded, err := packages.Load(&packages.Config{Mode: packages.LoadSyntax | packages.NeedModule, Context: ctx}, patterns...)
	if err != nil {
		return nil, err
	}
	var sources []*source
	var faults []error
	for _, p := range loaded {
		for _, e := range p.Errors {
			faults = append(faults, e)
		}
		if p.Module == nil {
			faults = append(faults, fmt.Errorf("%s: not a package of this module", p.PkgPath))
			continue
		}
		s := &source{Package: p, name: strings.TrimPrefix(p.PkgPath, p.Module.Path+"/"), text: map[string][]byte{}}
		for _, file := range p.CompiledGoFiles {
			text, err := os.ReadFile(file)
			faults = append(faults, err)
			s.text[file] = text
		}
		sources = append(sources, s)
	}
	return sources, errors.Join(faults...)
}

// mutant is a fault: text in place of what stands between two offsets of a file.
type mutant struct {
	kind, file   string
	from, to     int
	text         string
	line, column int
	was          string
	fate         fate
}

func (m *mutant) String() string {
	short := func(s string) string {
		s = strings.Join(strings.Fields(s), " ")
		if r := []rune(s); len(r) > 60 {
			return string(r[:60]) + "…"
		}
		return s
	}
	return fmt.Sprintf("%s:%d:%d: %s: %s → %s", filepath.Base(m.file), m.line, m.column, m.kind, short(m.was), short(m.text))
}

// faulty is the file with the fault in it.
func (s *source) faulty(m *mutant) []byte {
	text := s.text[m.file]
	return slices.Concat(text[:m.from], []byte(m.text), text[m.to:])
}

// builds tells whether the package with the fault still compiles.
func (s *source) builds(m *mutant) bool {
	file, err := parser.ParseFile(s.Fset, m.file, s.faulty(m), parser.SkipObjectResolution)
	if err != nil {
		return false
	}
	files := slices.Clone(s.Syntax)
	i := slices.IndexFunc(files, func(f *ast.File) bool { return s.Fset.Position(f.Package).Filename == m.file })
	files[i] = file
	config := types.Config{Importer: s, Sizes: s.TypesSizes}
	_, err = config.Check(s.PkgPath, s.Fset, files, nil)
	return err == nil
}

// draw takes n of the mutants that build at random, or all where n is 0, in the
// order of the source.
func (s *source) draw(all []*mutant, n int, seed uint64) []*mutant {
	h := fnv.New64()
	h.Write([]byte(s.name))
	random := rand.New(rand.NewPCG(seed, h.Sum64()))
	var drawn []int
	for _, i := range random.Perm(len(all)) {
		if n > 0 && len(drawn) == n {
			break
		}
		if s.builds(all[i]) {
			drawn = append(drawn, i)
		}
	}
	slices.Sort(drawn)
	picked := make([]*mutant, len(drawn))
	for i, d := range drawn {
		picked[i] = all[d]
	}
	return picked
}
