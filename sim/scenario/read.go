package scenario

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"math"
	"os"

	"evenpull/sim/internal/document"
)

// ReadFile reads the scenario in a file and checks it. See Read.
func ReadFile(path string) (*Scenario, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("scenario: %w", err)
	}
	defer f.Close()
	return Read(f, path)
}

// Read reads a scenario of at most MaxBytes of TOML and checks it. Source
// names it in messages. What is wrong with the scenario comes back as Faults,
// all at once; any other error is the reader's own.
func Read(r io.Reader, source string) (*Scenario, error) {
	sum := sha256.New()
	tree, lines, err := document.Read(io.TeeReader(r, sum), source, "a scenario", MaxBytes)
	if err != nil {
		return nil, OfText(source, err)
	}
	s := &Scenario{Source: source, sum: hex.EncodeToString(sum.Sum(nil)), lines: lines}
	root.blank(s)
	tr := &trail{s: s}
	tr.decode(root, s, 0, s, tree)
	s.Complete()
	s.tolerancesInUnit()
	tr.ask(s)
	tr.check(root, s)
	if err := tr.faults.Sorted(); err != nil {
		return nil, err
	}
	return s, nil
}

// Checksum is the SHA-256 of the bytes that the scenario was read from, in hexadecimal
// digits, whatever was changed in it since; "" for one that was not read.
func (s *Scenario) Checksum() string { return s.sum }

// blank makes every value of a table's struct one that was not given, and
// those of the tables that are always in it.
func (t *table) blank(item any) {
	for i := range t.fields {
		switch v := t.fields[i].ref(item).(type) {
		case *float64:
			*v = math.NaN()
		case *int:
			*v = unset
		case *Range:
			*v = Range{math.NaN(), math.NaN()}
		}
	}
	for _, s := range t.subs {
		for i := range s.count(item) {
			s.blank(s.item(item, i))
		}
	}
}

// resize makes n blank items of a table inside parent.
func (t *table) resize(parent any, n int) {
	if t.grow != nil {
		t.grow(parent, n)
	}
	for i := range t.count(parent) {
		t.blank(t.item(parent, i))
	}
}
