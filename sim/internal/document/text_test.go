package document

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"errors"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
	"unicode/utf16"
)

// archived is an archive with files of these names, some hundred bytes each, the first
// one stored and the others deflated, as office programs do.
func archived(t *testing.T, names ...string) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for i, name := range names {
		name, text, _ := strings.Cut(name, "=")
		h := &zip.FileHeader{Name: name, Method: zip.Deflate}
		if i == 0 {
			h.Method = zip.Store
		}
		w, err := z.CreateHeader(h)
		if err == nil {
			_, err = w.Write([]byte(text + strings.Repeat("<xml/>", 50)))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func made(t *testing.T, write func(b *bytes.Buffer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// wide is a text in UTF-16.
func wide(text string, bigEndian bool) string {
	var b strings.Builder
	for _, u := range utf16.Encode([]rune(text)) {
		pair := []byte{byte(u), byte(u >> 8)}
		if bigEndian {
			pair[0], pair[1] = pair[1], pair[0]
		}
		b.Write(pair)
	}
	return b.String()
}

const small = "title = \"Zürich\"\n"

// TestOtherFiles: what people save in place of plain text is told in words, with what to
// do. The archives and pictures are made by Go's own writers; what a PDF, RTF and the
// documents of older office programs begin with is from memory.
func TestOtherFiles(t *testing.T) {
	picture := image.NewGray(image.Rect(0, 0, 40, 40))
	const open, again, unpack, write = "open it in the program", "save it again as plain text in UTF-8", "unpack it first", "write its values into a file of plain text in UTF-8"
	for name, c := range map[string]struct{ text, is, want string }{
		"docx":    {archived(t, "[Content_Types].xml", "_rels/.rels", "word/document.xml"), "(.docx)", open},
		"xlsx":    {archived(t, "[Content_Types].xml", "_rels/.rels", "xl/workbook.xml"), "(.xlsx)", open},
		"ods":     {archived(t, "mimetype=application/vnd.oasis.opendocument.spreadsheet", "content.xml"), "(.ods)", open},
		"odt":     {archived(t, "mimetype=application/vnd.oasis.opendocument.text", "content.xml"), "(.odt", open},
		"pages":   {archived(t, "Index/Document.iwa", "preview.jpg"), "(.pages", open},
		"zip":     {archived(t, "clock.toml"), "(.zip)", unpack},
		"empty":   {archived(t), "(.zip)", unpack},
		"gzip":    {made(t, func(b *bytes.Buffer) error { z := gzip.NewWriter(b); z.Write([]byte(small)); return z.Close() }), "gzip", unpack},
		"png":     {made(t, func(b *bytes.Buffer) error { return png.Encode(b, picture) }), "picture (.png)", write},
		"jpg":     {made(t, func(b *bytes.Buffer) error { return jpeg.Encode(b, picture, nil) }), "picture (.jpg)", write},
		"gif":     {made(t, func(b *bytes.Buffer) error { return gif.Encode(b, picture, nil) }), "picture (.gif)", write},
		"heic":    {"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1", "picture", write},
		"rtf":     {`{\rtf1\ansi title = 1}`, "(.rtf)", open},
		"pdf":     {"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", "a PDF", write},
		"doc":     {"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "(.doc or .xls)", open},
		"html":    {"\ufeff \n<!DOCTYPE html><html>", "web page", open},
		"xml":     {"<?xml version='1.0'?>", "web page or other XML", open},
		"LE, BOM": {wide("\ufeff"+small, false), "UTF-16", again},
		"BE, BOM": {wide("\ufeff"+small, true), "UTF-16", again},
		"LE":      {wide(small, false), "UTF-16", again},
		"BE":      {wide(small, true), "UTF-16", again},
		"binary":  {"a = 1\x00\x01\xff and much more of plain text", "no text", write},
		"CR":      {"a = 1\rb = 2\r", "carriage return", again},
	} {
		_, err := Text(strings.NewReader(c.text), "t", "a list", "plain text", 1<<20)
		var f *Fault
		if !errors.As(err, &f) || !strings.Contains(f.Found, c.is) || !strings.HasPrefix(f.Found, "found a") && name != "CR" || !strings.HasPrefix(f.Want, "want a list: ") || !strings.Contains(f.Want, c.want) {
			t.Errorf("%s: %+v", name, f)
		}
	}
}

// TestText: what a text is that can be read, and the line of what is not UTF-8.
func TestText(t *testing.T) {
	for _, text := range []string{"", small, strings.ReplaceAll(small, "\n", "\r\n"), "GIF = 1", "PK = 1", "<a", "# \ufffd lost", "\x1b", "a\x00b = and much more of plain text"} {
		if got, err := Text(strings.NewReader("\ufeff"+text), "t", "a list", "plain text", 100); got != text || err != nil {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
	for want, text := range map[string]string{"Latin-1": "a = 1\n\ntitle = \"Z\xfcrich\"\n", "Windows-1252": "a = 1\r\n\r\ntitle = \x93x\x94\r\n", "not UTF-8": "\n\n\xed\xa0\x80 a lone surrogate"} {
		_, err := Text(strings.NewReader(text), "t", "readings", "CSV", 100)
		var f *Fault
		if !errors.As(err, &f) || f.Line != 3 || !strings.Contains(f.Found, want) || f.Want != "want readings: save it again as CSV in UTF-8" {
			t.Errorf("%s: %+v", want, f)
		}
	}
	large := archived(t, "word/document.xml", strings.Repeat("x", 200))
	var f *Fault
	if _, err := Text(strings.NewReader(large), "t", "a list", "plain text", 100); !errors.As(err, &f) || !strings.Contains(f.Found, ".docx") {
		t.Error("a document that is larger than a text may be:", err)
	}
}

func TestUnprintable(t *testing.T) {
	for _, c := range []struct {
		s     string
		lines bool
		want  string
	}{
		{"plain ~, grün – ½ שלום 時計 e\u0301 👩\u200d🔧", false, ""}, {"a\r\n\tb", true, ""}, {"", false, ""},
		{"a\x1bb", false, `the control character '\x1b'`}, {"a\x1bb", true, `the control character '\x1b'`}, {"a\nb", false, `the control character '\n'`}, {"a\tb", false, `the control character '\t'`}, {"a\rb", false, `the control character '\r'`},
		{"a\x7f", true, `the control character '\x7f'`}, {"a\u0085", false, `the control character '\u0085'`},
		{"\x00", true, `the control character '\x00'`}, {"\x00\x1b[31m", false, `the control character '\x00'`},
		{"a\xff", false, "the character U+FFFD, which cannot be printed"}, {"a\xed\xa0\x80", false, "the character U+FFFD, which cannot be printed"},
		{"a\uffff", true, "the character U+FFFF, which cannot be printed"}, {"\ufdd0", true, "the character U+FDD0, which cannot be printed"}, {"\U0010fffe", true, "the character U+10FFFE, which cannot be printed"},
		{"a\u202eb", false, "the character U+202E, which cannot be printed"}, {"\u2066", true, "the character U+2066, which cannot be printed"}, {"\u2028", true, "the character U+2028, which cannot be printed"}, {"a\ufeff", true, "the character U+FEFF, which cannot be printed"},
	} {
		if got := Unprintable(c.s, c.lines); got != c.want {
			t.Errorf("%q, %v: %q, want %q", c.s, c.lines, got, c.want)
		}
	}
}

// TestPrintableIsXML: no text that is let through makes XML that is not well-formed. XML
// 1.0 (fifth edition), 2.2: Char ::= #x9 | #xA | #xD | [#x20-#xD7FF] | [#xE000-#xFFFD] |
// [#x10000-#x10FFFF].
func TestPrintableIsXML(t *testing.T) {
	for r := rune(0); r <= 0x10ffff; r++ {
		char := r == 9 || r == 10 || r == 13 || r >= 0x20 && r <= 0xd7ff || r >= 0xe000 && r <= 0xfffd || r >= 0x10000
		if !char && Unprintable(string(r), true) == "" {
			t.Errorf("%U is let through", r)
		}
	}
}
