package scenario

import (
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"
)

// The checksum is that of the bytes that were read, whatever is set afterwards; that of one
// that was not read is none. The SHA-256 of "abc" is printed in FIPS 180-4 (from memory).
func TestChecksum(t *testing.T) {
	if abc := fmt.Sprintf("%x", sha256.Sum256([]byte("abc"))); abc != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Error(abc)
	}
	text := threeTrains(t)
	for _, text := range []string{text, text + "# a remark\n", strings.ReplaceAll(text, "\n", "\r\n")} {
		s, err := Read(strings.NewReader(text), "a.toml")
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Apply([]string{"going.mainspring.thickness_mm=0.4"}); err != nil {
			t.Fatal(err)
		}
		if want := fmt.Sprintf("%x", sha256.Sum256([]byte(text))); s.Checksum() != want {
			t.Errorf("%s, want %s", s.Checksum(), want)
		}
	}
	if got := (&Scenario{}).Checksum(); got != "" {
		t.Error(got)
	}
}
