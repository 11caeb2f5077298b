package document

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Text reads at most so many bytes of a text in UTF-8, without the mark that may stand
// before it. Source names it in messages, noun is what it is to be, with its article, and
// form what it is to be saved as. What is wrong with it comes back as a Fault, in words
// where it is another kind of file; any other error is the reader's own.
func Text(r io.Reader, source, noun, form string, most int) (string, error) {
	data, err := io.ReadAll(io.LimitReader(r, int64(most)+1))
	if err != nil {
		return "", fmt.Errorf("%s: reading %s: %w", strings.TrimPrefix(noun, "a "), source, err)
	}
	text := string(data)
	line, is, want := 0, "", ""
	if is, want = kindOf(text); is == "" && len(data) > most {
		is, want = fmt.Sprintf("more than %d bytes", most), fmt.Sprintf("%s of at most %d bytes", noun, most)
	} else if is == "" {
		line, is, want = unfit(text)
	}
	if is != "" {
		want = strings.NewReplacer("{noun}", noun, "{form}", form).Replace(want)
		return "", &Fault{Line: line, Found: "found " + is, Want: "want " + want}
	}
	return strings.TrimPrefix(text, "\ufeff"), nil
}

// What is wanted in place of a file that is no text in UTF-8.
const (
	another = "{noun}: open it in the program that it is of, and save it as {form} in UTF-8"
	again   = "{noun}: save it again as {form} in UTF-8"
	unpack  = "{noun}: unpack it first"
	retype  = "{noun}: write its values into a file of {form} in UTF-8"
)

// signs are what files that are no text begin with.
var signs = []struct{ begins, is, want string }{
	{"%PDF", "a PDF", retype},
	{`{\rtf`, "a text with formats (.rtf)", another},
	{"\xd0\xcf\x11\xe0", "a document of an office program (.doc or .xls)", another},
	{"\x1f\x8b", "a file packed with gzip", unpack},
	{"\xfd7zXZ\x00", "a file packed with xz", unpack},
	{"\x28\xb5\x2f\xfd", "a file packed with zstd", unpack},
	{"7z\xbc\xaf", "a packed archive (.7z)", unpack},
	{"\x89PNG", "a picture (.png)", retype},
	{"\xff\xd8\xff", "a picture (.jpg)", retype},
	{"GIF8", "a picture (.gif)", retype},
	{"II*\x00", "a picture (.tif)", retype},
	{"MM\x00*", "a picture (.tif)", retype},
	{"\xff\xfe\x00\x00", "a text in UTF-32", again},
	{"\x00\x00\xfe\xff", "a text in UTF-32", again},
	{"\xff\xfe", "a text in UTF-16", again},
	{"\xfe\xff", "a text in UTF-16", again},
}

// packed are names within an archive by which documents are told.
var packed = []struct{ name, is, want string }{
	{"word/document", "a document of a word processor (.docx)", another},
	{"xl/workbook", "a spreadsheet (.xlsx)", another},
	{"application/vnd.oasis.opendocument.spreadsheet", "a spreadsheet (.ods)", another},
	{"application/vnd.oasis.opendocument", "a document of an office program (.odt or the like)", another},
	{"Index/Document.iwa", "a document of an office program (.pages or .numbers)", another},
	{"", "a packed archive (.zip)", unpack},
}

// kindOf tells what a file that is no text in UTF-8 is, and what is wanted; "" when
// nothing in it says so.
func kindOf(text string) (is, want string) {
	if strings.HasPrefix(text, "PK\x03\x04") || strings.HasPrefix(text, "PK\x05\x06") {
		for _, p := range packed {
			if strings.Contains(text, p.name) {
				return p.is, p.want
			}
		}
	}
	for _, s := range signs {
		if strings.HasPrefix(text, s.begins) {
			return s.is, s.want
		}
	}
	head := text[:min(len(text), 512)]
	if len(head) > 12 && head[4:8] == "ftyp" {
		return "a picture or a film", retype
	}
	first := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(head, "\ufeff")))
	if strings.HasPrefix(first, "<!doctype") || strings.HasPrefix(first, "<html") || strings.HasPrefix(first, "<?xml") {
		return "a web page or other XML", another
	}
	if n := strings.Count(head, "\x00"); 3*n > len(head) { // of letters of two bytes the first or the second is 0
		return "a text in UTF-16", again
	}
	return "", ""
}

// unfit is the first fault of what is to be a text in UTF-8, with its line.
func unfit(text string) (line int, is, want string) {
	for at, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[at:], "\ufffd"):
			is, want = "a byte that is not UTF-8, as in a text in Latin-1 or Windows-1252", again
			if strings.Contains(text, "\x00") {
				is, want = "a file that is no text", retype
			}
		case r == '\r' && !strings.Contains(text, "\n"):
			is, want = "lines that end in a carriage return alone", again+", its lines ending as on Unix or Windows"
		default:
			continue
		}
		return 1 + strings.Count(text[:at], "\n"), is, want
	}
	return 0, "", ""
}

// Unprintable describes the first character of a text that would upset a terminal, a
// page or a picture; "" for none. Those are controls, what turns the direction of
// writing, line separators and what is no character (Unicode's Bidi_Control and
// Noncharacter_Code_Point; XML 1.0, 2.2). A note may have lines, a title is one line.
func Unprintable(s string, lines bool) string {
	for _, r := range s {
		switch {
		case r >= ' ' && r < 0x7f: // most are
		case printable(r) || lines && (r == '\n' || r == '\r' || r == '\t'):
		case unicode.IsControl(r):
			return fmt.Sprintf("the control character %q", r)
		default:
			return fmt.Sprintf("the character %U, which cannot be printed", r)
		}
	}
	return ""
}

func printable(r rune) bool {
	return !unicode.IsControl(r) && r != utf8.RuneError && r != '\ufeff' &&
		!unicode.In(r, unicode.Bidi_Control, unicode.Noncharacter_Code_Point, unicode.Zl, unicode.Zp)
}

// clean spells what cannot be printed, in a message that is not ours.
func clean(s string) string {
	var b strings.Builder
	for _, r := range s {
		if printable(r) {
			b.WriteRune(r)
		} else {
			b.WriteString(strings.Trim(strconv.QuoteRuneToASCII(r), "'"))
		}
	}
	return b.String()
}
