package main

import (
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"

	"evenpull/sim/scenario"
)

// damage draws what is damaged, and how.
type damage struct {
	*rand.Rand
	*maker
	keys []string // of the scenario
}

// one is true once in so many times.
func (d *damage) one(in int) bool { return d.IntN(in) == 0 }

func pick[T any](d *damage, from []T) T { return from[d.IntN(len(from))] }

// extremes are values that no key takes, or hardly.
var extremes = []string{
	"0", "-1", "-0.0", "5e-324", "1e-300", "1e-9", "1e9", "1e308", "-1e308", "1e999", "nan", "inf", "-inf", "true", "false", `""`, `"x"`, "[]", "[1, 2]", "[[1, 2], [3]]", "[[0, 9], [3, 10], [16, 30]]", "{ a = 1 }", "{}",
	"1979-05-27", "9223372036854775807", "99999999999999999999", "0x10", "1_000", "1_0e3", "1,5", "", "'''\nx\n'''", `"\u0000\u001b[31m"`, `"\uFFFF"`, "\"\u200f\u2028\"", `"</script><img src=x onerror=alert(1)>|` + "```" + `"`, `"=1+1"`,
	`"even"`, `"wanted"`, `"straight"`, `"plate"`, `"uniform"`, "\"\xff\"", "\xe2\x80\x9cx\xe2\x80\x9d",
	`"` + strings.Repeat("x", 100_000) + `"`, "[" + strings.Repeat("1, ", 100_000) + "]", strings.Repeat("[", 10_000) + strings.Repeat("]", 10_000), "1" + strings.Repeat("0", 100_000),
}

// value is one in place of another: an extreme, or the same but larger or smaller.
func (d *damage) value(now string) string {
	if v, err := strconv.ParseFloat(now, 64); err == nil && !d.one(3) {
		return strconv.FormatFloat(v*pick(d, []float64{0.01, 0.1, 0.3, 0.6, 0.8, 0.9, 0.95, 0.97, 0.99, 1.01, 1.03, 1.05, 1.1, 1.3, 1.7, 3, 10, 100, -1}), 'g', -1, 64)
	}
	return pick(d, extremes)
}

var (
	setting = regexp.MustCompile(`^(\s*)([A-Za-z0-9_."]+)(\s*=\s*)([^#]*?)(\s*(?:#.*)?)$`)
	header  = regexp.MustCompile(`^\s*\[`)
	figures = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)
)

// text damages a text of the kind that its ending tells.
func (d *damage) text(text, ending string) string {
	switch {
	case d.one(10):
		return d.whole(text)
	case d.one(8):
		return d.bytes(text)
	case ending == ".toml":
		return d.toml(text)
	}
	return d.figure(text)
}

// whole puts something else in place of a whole text, or another coding of it.
func (d *damage) whole(text string) string {
	return pick(d, []func() string{
		func() string { return "" },
		func() string { return "\x00" },
		func() string { return "\ufeff" + text },
		func() string { return "\xff\xfe" + strings.Join(strings.Split(text, ""), "\x00") + "\x00" },
		func() string { return strings.ReplaceAll(text, "\n", "\r\n") },
		func() string { return strings.ReplaceAll(text, "\n", "\r") },
		func() string { return strings.ReplaceAll(text, `"`, "\xe2\x80\x9d") },
		func() string { return strings.ReplaceAll(text, "=", "\u00a0=") },
		func() string { return strings.ReplaceAll(text, ".", ",") },
		func() string { return text + "# M\xfcller\n" },
		func() string { return "PK\x03\x04" + text },
		func() string { return `{\rtf1 ` + text + "}" },
		func() string { return "%PDF-1.4\n" + text },
		func() string { return text + "\n#" + strings.Repeat("x", 2<<20) },
		func() string { return text + text },
		func() string { return pick(d, d.scenarios) },
		func() string { return pick(d, d.books) },
		func() string { return pick(d, d.stocks) },
		func() string { return goodReadings },
		func() string { return "[" + strings.Repeat("a.", 10_000) + "a]\n" },
		func() string { return strings.Repeat("[[train]]\n", 20_000) },
		func() string { return strings.Repeat("[[spring]]\n", 20_000) },
		func() string { return strings.Repeat("x = [", 10_000) },
		func() string { return goodStock + strings.Repeat("C,1,1,1,1,true\n", 20_000) },
		func() string { return strings.Repeat("{\"a\":", 10_000) },
	})()
}

// bytes damages a text byte by byte.
func (d *damage) bytes(text string) string {
	at := d.IntN(len(text) + 1)
	switch d.IntN(4) {
	case 0:
		return text[:at]
	case 1:
		return text[at:]
	case 2:
		return text[:at] + pick(d, []string{"\x00", "\xff", "\"", "'", "[", "]", "=", "\n", ",", "\\", "\u00a0", "\u2028", "\x1b", "e999"}) + text[at:]
	}
	return text[:at] + string(rune(d.IntN(256))) + text[min(at+1, len(text)):]
}

// figure changes one number of a text.
func (d *damage) figure(text string) string {
	all := figures.FindAllStringIndex(text, -1)
	if len(all) == 0 {
		return d.bytes(text)
	}
	at := pick(d, all)
	return text[:at[0]] + d.value(text[at[0]:at[1]]) + text[at[1]:]
}

// toml damages a text line by line: a key, its value, or a table.
func (d *damage) toml(text string) string {
	lines := strings.Split(text, "\n")
	var keys, heads []int
	for i, l := range lines {
		switch {
		case header.MatchString(l):
			heads = append(heads, i)
		case setting.MatchString(l):
			keys = append(keys, i)
		}
	}
	if len(keys) == 0 || len(heads) == 0 {
		return d.figure(text)
	}
	at := pick(d, keys)
	part := setting.FindStringSubmatch(lines[at])
	from := d.IntN(len(heads))
	to := len(lines)
	if from+1 < len(heads) {
		to = heads[from+1]
	}
	block := strings.Join(lines[heads[from]:to], "\n")
	switch d.IntN(20) {
	case 0:
		lines[at] = ""
	case 1:
		lines[at] += "\n" + lines[at]
	case 2:
		lines[at] = part[1] + d.bytes(part[2]) + part[3] + part[4]
	case 3: // another unit
		lines[at] = part[1] + part[2][:strings.LastIndex(part[2], "_")+1] + pick(d, []string{"mm", "in", "cm", "kg", "lb", "cnm", "ozin", "rad", "h", "ksi"}) + part[3] + part[4]
	case 4: // a key of the format anywhere
		f := pick(d, scenario.Fields())
		lines[at] += "\n" + f.Key + " = " + d.value(strconv.FormatFloat((f.Lo+f.Hi)/2, 'g', -1, 64))
	case 5:
		return text + "\n" + block
	case 6:
		return strings.Replace(text, block, "", 1)
	case 7:
		return text + strings.Repeat("\n"+block, 300)
	case 8:
		return strings.Replace(text, block, d.toml(pick(d, pick(d, [][]string{d.scenarios, d.books, d.stocks}))), 1)
	default:
		lines[at] = part[1] + part[2] + part[3] + d.value(part[4])
	}
	return strings.Join(lines, "\n")
}
