package main

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What is asked of a picture is done, and what cannot be is refused before anything is
// computed.
func TestLookFlags(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct{ args, want string }{
		{"--plot a.svg --width 84", `--width "84": want a width such as 84mm, 17.4cm or 6.85in, or A4 or A5`},
		{"--plot a.svg --width 5cm", `--width "5cm": want 80 to 1000 mm`},
		{"--plot a.png --dpi 5", "--dpi 5: want 36 to 1200 dots to an inch"},
		{"--width 84mm", "--width goes with --plot"},
		{"--no-title", "--no-title goes with --plot"},
		{"--drawing a.svg --no-zero", "--no-zero goes with --plot"},
		{"--grey", "--grey goes with a picture"},
		{"--dpi 300", "--dpi goes with a picture"},
	} {
		code, out, errs := call(t, "", append([]string{"run", "--draws", "0"}, strings.Fields(c.args)...)...)
		if code != exitUsage || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%s: exit %d, %s", c.args, code, errs)
		}
	}
	if list, _ := os.ReadDir("."); len(list) != 0 {
		t.Errorf("%d files were written", len(list))
	}
	read := func(args string, file string) []byte {
		t.Helper()
		if code, _, errs := call(t, "", strings.Fields(args)...); code != exitDone {
			t.Fatalf("%s: exit %d, %s", args, code, errs)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	svg := read("setup --draws 0 --plot a.svg --width 84mm --grey", "a.svg") // 84 mm are 238.11 points
	if !bytes.Contains(svg, []byte(`width="238.11pt"`)) || !bytes.Contains(svg, []byte("leave the set-up as it is")) {
		t.Error("not as wide, or without its sentence")
	}
	for _, part := range strings.Split(string(svg), "fill:#")[1:] {
		if part[:2] != part[2:4] || part[2:4] != part[4:6] {
			t.Fatalf("a colour, #%s", part[:6])
		}
	}
	if bare := read("setup --draws 0 --plot b.svg --no-title", "b.svg"); bytes.Contains(bare, []byte("leave the set-up")) {
		t.Error("a sentence")
	}
	png := read("setup --draws 0 --plot c.png --width 5in --dpi 100", "c.png")
	if wide := binary.BigEndian.Uint32(png[16:]); wide != 500 { // ISO/IEC 15948, 11.2.2, from memory
		t.Errorf("%d dots wide", wide)
	}
	if pages := bytes.Count(read("run three-trains --draws 0 --plot d.pdf --width A4", "d.pdf"), []byte("/Type /Page\n")); pages < 2 || pages > 4 {
		t.Errorf("%d pages of A4", pages)
	}
	if left, a4 := read("run three-trains --draws 0 --plot h.pdf", "h.pdf"), []byte("/MediaBox [0 0 595.28 841.89]"); !bytes.Contains(left, a4) || bytes.Count(left, []byte("/Type /Page\n")) < 2 {
		t.Error("a PDF of which no width was asked is not laid on A4")
	}
	if wide := read("run --draws 0 --plot i.pdf --width 120mm", "i.pdf"); !bytes.Contains(wide, []byte("/MediaBox [0 0 340.16 ")) || bytes.Count(wide, []byte("/Type /Page\n")) != 1 {
		t.Error("a PDF of 120 mm is not")
	}
	read("run three-trains --draws 0 --plot e.svg --width A5", "e-2.svg")
	if list, _ := filepath.Glob("e*.svg"); len(list) < 3 {
		t.Errorf("%v", list)
	}
	code, _, errs := call(t, "", "run", "three-trains", "--draws", "0", "--plot", "f.svg", "--width", "A5", "--drawing", "f-2.svg")
	if code != exitUsage || !strings.Contains(errs, "want two files") {
		t.Errorf("exit %d, %s", code, errs)
	}
	if dots := binary.BigEndian.Uint32(read("run --draws 0 --drawing g.png --dpi 48 --grey", "g.png")[16:]); dots > 480 {
		t.Errorf("a drawing %d dots wide", dots)
	}
}
