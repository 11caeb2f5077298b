package main

import (
	"strings"
	"testing"
)

func TestLegible(t *testing.T) {
	long := strings.Repeat("ä", 300)
	for message, want := range map[string]string{
		"two\nlines, N·m\tand ≥ 3\n":   "two\nlines, N·m\tand ≥ 3\n",
		"\x1b[31mred\x00 \u009c\u202e": `\x1b[31mred\x00 \u009c\u202e`,
		"no text: \xff":                "no text: \ufffd",
		long + "ä " + long[2:]:         strings.Repeat("ä", 100) + "… (301 characters) " + long[2:],
	} {
		if got := legible(message); got != want {
			t.Errorf("%q: %q, want %q", message, got, want)
		}
	}
	for _, args := range []string{"run --plot \x1b[31mx", "run --set \x1b=1", "run \x1b.toml", "\x1b", "run --train \x1b", "--\x1b"} {
		if code, _, errs := call(t, "", strings.Fields(args)...); code == exitDone || strings.Contains(errs, "\x1b") || !strings.Contains(errs, `\x1b`) {
			t.Errorf("%q: exit %d, says %q", args, code, errs)
		}
	}
	t.Chdir(t.TempDir())
	for _, args := range []string{"run --draws 0 --plot \x1b.svg", "init \x1b.toml", "report --draws 0 --out \x1b.html --data \x1b"} {
		if _, _, errs := call(t, "", strings.Fields(args)...); strings.Contains(errs, "\x1b") || !strings.Contains(errs, `\x1b`) {
			t.Errorf("%q says %q", args, errs)
		}
	}
}
