package main

import (
	"bytes"
	_ "embed"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/scenario"

	"github.com/spf13/pflag"
)

// maker makes bad inputs out of good ones.
type maker struct {
	scenarios, books, stocks []string // texts
	kept                     map[string]string
	flags                    map[string][]*pflag.Flag // by command
	keysOf                   map[string][]string      // of a scenario, as --set has them
}

// A clock without its fusee, and one without its spring.
var (
	//go:embed testdata/lost-fusee.toml
	lostFusee string
	//go:embed testdata/lost-spring.toml
	lostSpring string
)

// Readings and a stock list as a spreadsheet writes them.
const (
	goodReadings = "turn,repeat,torque_nm\n0,1,0.55\n1,1,0.54\n2,1,0.53\n0,2,0.55\n1,2,-\n2,2,0.52\n"
	goodStock    = "label,width_mm,thickness_mm,length_mm,yield_mpa,may_be_cut\nA1,32,0.38,1650,,true\n\"B, 2\",28,0.40,1600,1700,false\n"
	goodBook     = `title = "readings apart"
[[torque]]
train = "going"
spring = "A"
file = "readings.csv"
first_turn = 0
`
)

func newMaker(t *testing.T) *maker {
	t.Helper()
	m := &maker{flags: map[string][]*pflag.Flag{}, keysOf: map[string][]string{}, books: []string{goodBook}}
	for _, name := range scenarios.Names() {
		text, _ := scenarios.Text(name)
		m.scenarios = append(m.scenarios, text)
	}
	m.scenarios = append(slices.Concat(m.scenarios, m.scenarios), lostFusee, lostSpring) // few commands take these
	for _, name := range scenarios.BenchNames() {
		text, _ := scenarios.BenchText(name)
		m.books = append(m.books, text)
	}
	for _, name := range scenarios.StockNames() {
		text, _ := scenarios.StockText(name)
		m.stocks = append(m.stocks, text)
	}
	for _, c := range newRoot(streams{in: strings.NewReader(""), out: &bytes.Buffer{}, err: &bytes.Buffer{}}).Commands() {
		c.Flags().VisitAll(func(f *pflag.Flag) { m.flags[c.Name()] = append(m.flags[c.Name()], f) })
	}
	for _, text := range m.scenarios {
		sc, err := scenario.Read(strings.NewReader(text), "sample")
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range sc.Quantities() {
			m.keysOf[text] = append(m.keysOf[text], q.Key)
		}
	}
	m.kept = keptFiles(t)
	return m
}

// keptFiles are those of a kept study.
func keptFiles(t *testing.T) map[string]string {
	t.Helper()
	dir, files := t.TempDir(), map[string]string{}
	data := filepath.Join(dir, "kept")
	if code, _, errs := call(t, "", "report", "three-trains", "--bench", "mixed-barrels", "--draws", "20", "--out", filepath.Join(dir, "x.html"), "--data", data); code != exitDone {
		t.Fatal(errs)
	}
	err := filepath.WalkDir(data, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		files[filepath.ToSlash(name)] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// turns are the commands as they take turns, with few draws: those that read most come
// most often.
var turns = [][]string{
	{"run", "--draws", "20"}, {"sweep", "--steps", "5"}, {"record", "--draws", "20"}, {"choose", "--draws", "20"},
	{"run", "--draws", "0"}, {"cut", "--draws", "20"}, {"setup", "--draws", "20"}, {"assign", "--draws", "20"},
	{"run", "--draws", "0"}, {"rank", "--shares=false"}, {"spread", "--runs", "30", "--shares=false"}, {"beat", "--periods", "50"},
	{"run", "--draws", "0"}, {"report", "--draws", "20"}, {"report", "--verify", "{dir}/kept"}, {"sweep", "--steps", "3", "--steps2", "3", "--against", "going.barrel.set_up_turns"},
	{"cut", "--draws", "0"}, {"setup", "--draws", "0"}, {"run", "--draws", "20"}, {"sweep", "--steps", "5"}, {"record", "--draws", "0", "--full"}, {"assign", "--draws", "0"}, {"rank", "--shares=false"},
	{"plan"}, {"coils", "--turns", "2", "--nodes", "24", "--friction", "0"}, {"letter", "--draws", "10"}, {"choose", "--draws", "0"}, {"samples"}, {"init", "{dir}/new.toml"}, {"schema"}, {"man", "{dir}"}, {"completion"}, {"version"}, {"help"},
}

// input is the bad input of a number: the same for the same number.
func (m *maker) input(n int) *badInput {
	d := &damage{rand.New(rand.NewPCG(15, uint64(n))), m, m.keysOf[m.scenarios[0]]}
	in := &badInput{args: slices.Clone(turns[n%len(turns)]), files: map[string]string{}}
	switch in.args[0] {
	case "record", "assign":
		d.book(in, "")
		if d.one(2) {
			d.scenario(in, "--scenario")
		}
	case "report":
		if in.args[1] == "--verify" {
			maps.Copy(in.files, m.kept)
		} else {
			d.report(in)
		}
	case "samples", "schema", "completion", "help":
		in.args = append(in.args, pick(d, []string{"run", "eight-day", "bash", "shop-drawer", "sweep"}))
	case "init":
		in.args = append(in.args, "--from", pick(d, scenarios.Names()))
	case "man", "version":
	case "choose":
		d.scenario(in, "")
		d.stock(in)
	case "letter":
		d.scenario(in, "")
		if d.one(2) {
			d.stock(in)
		}
		in.args = append(in.args, "--out", "{dir}/page"+pick(d, []string{".html", ".md", ".txt"}))
	default:
		d.scenario(in, "")
	}
	if in.args[0] != "report" && m.takes(in, "bench") && d.one(4) {
		d.book(in, "--bench")
	}
	for _, file := range []string{"plot", "drawing", "save"} {
		if m.takes(in, file) && d.one(8) {
			in.args = append(in.args, "--"+file, "{dir}/"+file+pick(d, []string{".svg", ".png", ".pdf", ".toml"}))
		}
	}
	if m.takes(in, "format") {
		in.args = append(in.args, "--format", pick(d, []string{"text", "json", "csv"}))
	}
	for range 1 + d.IntN(4)/3 {
		d.harm(in)
	}
	return in
}

// takes tells whether the command has a flag.
func (m *maker) takes(in *badInput, flag string) bool {
	return slices.ContainsFunc(m.flags[in.args[0]], func(f *pflag.Flag) bool { return f.Name == flag })
}

// file gives the command a file, or standard input; flag "" for an argument.
func (d *damage) file(in *badInput, flag, name, text string) {
	if flag != "" {
		in.args = append(in.args, flag)
	}
	if in.stdin == "" && d.one(4) && !strings.HasSuffix(name, ".csv") {
		in.stdin, name = text, "-"
	} else {
		in.files[name], name = text, "{dir}/"+name
	}
	in.args = append(in.args, name)
}

func (d *damage) scenario(in *badInput, flag string) {
	text := pick(d, d.scenarios)
	d.keys = d.keysOf[text]
	d.file(in, flag, fmt.Sprintf("clock%d.toml", len(in.files)), text)
}

func (d *damage) book(in *badInput, flag string) {
	text := pick(d, d.books)
	if text == goodBook {
		in.files["readings.csv"] = goodReadings
	}
	d.file(in, flag, "book.toml", text)
}

func (d *damage) stock(in *badInput) {
	if d.one(2) {
		d.file(in, "--stock", "stock.csv", goodStock)
	} else {
		d.file(in, "--stock", "stock.toml", pick(d, d.stocks))
	}
}

func (d *damage) report(in *badInput) {
	d.scenario(in, "")
	if d.one(3) {
		d.scenario(in, "")
	}
	if d.one(3) {
		d.book(in, "--bench")
	}
	in.args = append(in.args, "--out", "{dir}/page"+pick(d, []string{".html", ".md", ".txt", ""}))
	if d.one(3) {
		in.args = append(in.args, "--data", "{dir}/"+pick(d, []string{"data", "page-pictures", ".", "new/data"}))
	}
}

// harm damages one thing: a file, a --set or another flag.
func (d *damage) harm(in *badInput) {
	switch what := d.IntN(10); {
	case what < 6 && len(in.files) > 0:
		name := pick(d, slices.Sorted(maps.Keys(in.files)))
		if in.files["kept/manifest.json"] != "" && d.one(2) {
			name = "kept/manifest.json"
		}
		d.inFolder(in, name)
	case what < 6 && in.stdin != "":
		in.stdin = d.text(in.stdin, ".toml")
	case what < 8 && d.takes(in, "set"):
		key := pick(d, d.keys)
		if d.one(5) {
			key = d.bytes(key)
		}
		in.args = append(in.args, "--set", key+"="+d.value("1.5"))
	default:
		d.flag(in)
	}
}

// inFolder damages a file of the input, or its folder.
func (d *damage) inFolder(in *badInput, name string) {
	switch d.IntN(20) {
	case 0:
		delete(in.files, name)
	case 1:
		in.files[name+"/file-where-a-folder-stands"] = in.files[name]
		delete(in.files, name)
	case 2:
		in.files[filepath.ToSlash(filepath.Join(filepath.Dir(name), pick(d, []string{"more.toml", ".hidden", "page.html", "plot.svg", "new.toml", "data/x", "page-pictures/x.svg"})))] = "mine"
	case 3:
		in.files[name] = linked + pick(d, []string{"/dev/zero", "/dev/null", "nowhere", "{dir}", filepath.Base(name)})
	default:
		in.files[name] = d.text(in.files[name], filepath.Ext(name))
	}
}

// flag gives a flag of the command a value that it may not take, or a further argument.
func (d *damage) flag(in *badInput) {
	flags := d.flags[in.args[0]]
	if len(flags) == 0 || d.one(8) {
		in.args = append(in.args, pick(d, []string{"", "-", "--", "-x", "--no-such-flag", "--set", "nothing", "{dir}", "{dir}/none.toml", "run", "\x00", "\x1b[31m", "é\xff", strings.Repeat("x", 100_000)}))
		return
	}
	f := pick(d, flags)
	value := ""
	switch f.Value.Type() {
	case "bool":
		if value = pick(d, []string{"true", "false", "maybe", ""}); f.Name == "shares" {
			value = "maybe" // they are work that was asked for
		}
	case "int", "int64": // few: more is work that was asked for
		value = pick(d, []string{"0", "-1", "1", "2", "3", "7", "40", "99999999999999999999", "1e3", "x", "", "0x10", "NaN", "1,5"})
	case "float64":
		value = pick(d, []string{"0", "-1", "1", "1.5", "30", "5e-324", "1e-300", "1e308", "-1e308", "1e999", "NaN", "inf", "x", "", "1,5"})
	default:
		value = pick(d, []string{"", "x", "{dir}", "{dir}/x.svg", "{dir}/no/x.svg", "{dir}/clock0.toml", "{dir}/plot.svg", "going", "eight-day", "reserve.min", "fusee_torque_nm.mean",
			pick(d, d.keys), "fill", "json", "-", "\x00", "a\nb", "\x1b[31mred", "é\xff", strings.Repeat("y", 100_000), "5%", "-5%", "1e308%", "2026-02-30"})
	}
	in.args = append(in.args, "--"+f.Name+"="+value)
}
