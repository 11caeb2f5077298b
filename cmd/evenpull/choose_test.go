package main

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"evenpull/scenarios"
)

const stockCSV = "label,width_mm,thickness_mm,length_mm,may_be_cut\nA1,36,0.38,1650,true\nB1,38,0.38,1650,\n"

func TestGoldenChoose(t *testing.T) {
	for name, args := range map[string]string{"choose.txt": "choose", "choose-full.txt": "choose --full", "choose.json": "choose --format json", "choose.csv": "choose --format csv", "choose-striking.txt": "choose strike-quick",
		"choose-all.txt": "choose three-trains --all --set going.mainspring.present=false --set striking.mainspring.present=false"} {
		code, out, errs := call(t, "", strings.Fields(args)...)
		// The cautions of a CSV, which has no room for them, go where errors go.
		if code != exitDone || strings.Contains(args, "csv") != strings.HasPrefix(errs, "Caution: Wound, the strongest of these springs") || !strings.Contains(args, "csv") && errs != "" || strings.Contains(args, "csv") && strings.Contains(out, "Caution") {
			t.Errorf("%s: exit %d, %s", args, code, errs)
		}
		golden(t, name, out)
	}
}

// Of all trains the JSON is as its schema says, and no strip is given twice.
func TestChooseAll(t *testing.T) {
	args := []string{"choose", "three-trains", "--all", "--draws", "200", "--set", "going.mainspring.present=false", "--set", "striking.mainspring.present=false", "--format", "json"}
	code, out, errs := call(t, "", args...)
	if code != exitDone {
		t.Fatal(errs)
	}
	holdsSchema(t, strings.Join(args, " "), "choose-all", out)
	var doc struct {
		Trains []struct {
			Train        string
			Wants        bool `json:"wants_another"`
			Given, Order string
		}
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil || len(doc.Trains) != 3 {
		t.Fatal(err, doc)
	}
	for i, want := range []bool{true, true, false} {
		if g := doc.Trains[i]; g.Wants != want || (g.Given != "") != want || (g.Order != "") != want || !strings.HasPrefix(g.Order, g.Given) {
			t.Errorf("%+v", g)
		}
	}
	if doc.Trains[0].Given == doc.Trains[1].Given {
		t.Errorf("%s is given twice", doc.Trains[0].Given)
	}
	for _, no := range []string{"--train=going", "--plot=x.svg", "--full"} {
		if code, _, errs := call(t, "", "choose", "three-trains", "--all", no); code != exitUsage || !strings.Contains(errs, "--all goes without --train, --plot and --full") {
			t.Errorf("%s: %d, %s", no, code, errs)
		}
	}
}

func TestChooseExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	writeText(t, "drawer.csv", stockCSV)
	writeText(t, "drawer.CSV", stockCSV)
	writeText(t, "inches.csv", "label,width_in,thickness_in,length_in,quantity,price\nN1,1.26,0.015,65,2,$14\nN2,1.1,0.0157,63,1,\"12,50 EUR\"\n")
	writeText(t, "comma.csv", "label;width_mm;thickness_mm;length_mm\nA1;36;0,38;1650\n")
	writeText(t, "empty.toml", "title = \"nothing left\"\n")
	writeText(t, "twice.toml", "spring = [ { label = 'a', width_mm = 36, thickness_mm = 0.38, length_mm = 1650 }, { label = 'a', width_mm = 36, thickness_mm = 0.4, length_mm = 1650 } ]\n")
	writeText(t, "wide.toml", "spring = [ { label = 'a', width_mm = 60, thickness_mm = 0.38, length_mm = 1650 } ]\n")
	eightDay, _ := scenarios.Text("eight-day")
	from, to := strings.Index(eightDay, "[train.escapement]"), strings.Index(eightDay, "# How well each value")
	writeText(t, "bare.toml", eightDay[:from]+eightDay[to:])
	writeText(t, "clock.toml", eightDay)
	for _, name := range []string{"eight-day", "three-trains"} {
		text, _ := scenarios.Text(name)
		spring, barrel := strings.Index(text, "[train.mainspring]"), strings.Index(text, "[train.barrel]")
		writeText(t, "lost-"+name+".toml", text[:spring]+"[train.mainspring]\npresent = false\n"+text[barrel:])
	}
	writeText(t, "drawer.txt", stockCSV)
	writeText(t, "drawer", stockCSV)
	cases := []struct {
		args string
		code int
		says string
	}{
		{"choose", exitDone, ""}, {"choose too-strong --stock drawer.csv", exitDone, ""}, {"choose --stock ./drawer.CSV", exitDone, ""},
		{"choose --stock inches.csv", exitDone, ""},
		{"choose --stock shop-drawr", exitInput, "did you mean shop-drawer?"},
		{"choose --stock nowhere.toml", exitInput, "nowhere.toml cannot be read"},
		{"choose --stock comma.csv", exitInput, "comma.csv:1: found \"label;width_mm;thickness_mm;length_mm\"; want commas between columns and a decimal point"},
		{"choose --stock empty.toml", exitInput, "found no spring; want at least one spring"},
		{"choose --stock twice.toml", exitInput, "twice.toml:1: spring.2.label: found \"a\" a second time, after line 1"},
		{"choose --stock wide.toml", exitDone, ""},
		{"choose --stock clock.toml", exitInput, "train: this is a scenario, not a stock list; want at least one spring"},
		{"choose --stock drawer.txt", exitInput, "drawer.txt: the name ends neither in .toml nor in .csv"},
		{"choose --stock drawer", exitInput, "drawer: the name ends neither in .toml nor in .csv"},
		{"choose --stock=", exitUsage, "--stock \"\": want a file that ends in .toml or .csv"},
		{"choose --end-shake-mm 0.1 --format csv", exitDone, "! an end shake of 0.1 mm is less than 0.2 mm"},
		{"choose bare.toml", exitInput, "no need is known; give demand.least_torque_nm"},
		{"choose lost-eight-day.toml", exitDone, ""}, {"choose lost-three-trains.toml --bench mixed-barrels", exitDone, "by the bench book: going train: needs 0.348 N·m by weights"},
		{"choose three-trains --set going.mainspring.present=false --train striking", exitDone, ""},
		{"run lost-eight-day.toml", exitInput, `lost-eight-day.toml:13: going.mainspring.present: found false: the mainspring is broken or lost, and nothing runs without one; want another spring first: "evenpull choose"`},
		{"cut --set going.mainspring.present=false", exitUsage, "going.mainspring.present: found false"},
		{"choose --reserve 0", exitUsage, "--reserve 0: want a reserve above 0"},
		{"choose --reserve NaN", exitUsage, "--reserve NaN"},
		{"choose --reserve Inf", exitUsage, "--reserve +Inf"},
		{"choose --reserve 1.5", exitDone, ""},
		{"choose --end-shake-mm -1", exitUsage, "--end-shake-mm -1: want an end shake from 0 to 20 mm"},
		{"choose --end-shake-mm 0", exitDone, ""},
		{"choose - --stock -", exitUsage, "not both"},
		{"choose three-trains --train chimes", exitUsage, "the scenario has: going, striking, quarters"},
		{"choose three-trains --train quarters", exitDone, ""},
		{"choose --set going.mainspring.width_mm=-3", exitUsage, "--set going.mainspring.width_mm"},
		{"choose --format yaml", exitUsage, "want text, json or csv"}, {"choose --plot x.gif", exitUsage, ".svg, .png or .pdf"},
		{"choose a b", exitUsage, "found 2 arguments: a, b; want evenpull choose [SCENARIO]"},
	}
	for _, c := range cases {
		wantExit(t, c.args, c.code, c.says)
	}
}

// Files, standard input and sample say the same; the sample is listed and printed.
func TestChooseReadsEverywhere(t *testing.T) {
	t.Chdir(t.TempDir())
	text, _ := scenarios.StockText(scenarios.DefaultStock)
	writeText(t, "mine.toml", text)
	_, sample, _ := call(t, "", "choose")
	_, file, _ := call(t, "", "choose", "--stock", "mine.toml")
	_, piped, _ := call(t, text, "choose", "--stock", "-")
	if sample != file || sample != piped {
		t.Error("file, standard input and sample differ")
	}
	if _, printed, _ := call(t, "", "samples", scenarios.DefaultStock); printed != text {
		t.Error("samples NAME does not print the sample")
	}
	if code, _, errs := call(t, "", "choose", "--plot", "c.svg"); code != exitDone || !strings.Contains(errs, "plot written to c.svg") {
		t.Errorf("exit %d: %s", code, errs)
	}
	if picture, err := os.ReadFile("c.svg"); err != nil || !bytes.Contains(picture, []byte("least torque needed")) {
		t.Errorf("%v", err)
	}
	if _, out, _ := call(t, "", "__complete", "choose", "--stock", ""); !strings.Contains(out, scenarios.DefaultStock) {
		t.Errorf("stock lists are not completed: %s", out)
	}
}

// The ideal spring of the JSON, put into run by --set, gives the reserve aimed at to
// 0.1 %, as the contract has it.
func TestIdealThroughRun(t *testing.T) {
	_, out, _ := call(t, "", "choose", "--format", "json", "--reserve", "1.4")
	var doc struct {
		Ideal struct {
			Thickness json.Number `json:"thickness_mm"`
			Width     json.Number `json:"width_mm"`
			Length    json.Number `json:"length_mm"`
			Spring    struct {
				SetUp json.Number `json:"set_up_turns"`
			}
		}
		Candidates []struct{ Label string }
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil || len(doc.Candidates) != 15 {
		t.Fatalf("%v: %s", err, out)
	}
	const key = "going.mainspring."
	_, out, _ = call(t, "", "run", "--format", "json", "--set", key+"thickness_mm="+doc.Ideal.Thickness.String(),
		"--set", key+"width_mm="+doc.Ideal.Width.String(), "--set", key+"length_mm="+doc.Ideal.Length.String(),
		"--set", "going.barrel.set_up_turns="+doc.Ideal.Spring.SetUp.String())
	var run struct {
		Trains []struct{ Reserve struct{ Mean float64 } }
	}
	if err := json.Unmarshal([]byte(out), &run); err != nil || len(run.Trains) != 1 {
		t.Fatalf("%v: %s", err, out)
	}
	if got := run.Trains[0].Reserve.Mean; !(got > 1.4*0.999 && got < 1.4*1.001) {
		t.Errorf("a reserve of %v, want 1.4", got)
	}
}

// FuzzChoose takes any text as a stock list, as TOML and as CSV: refused with a
// reason, or whole.
func FuzzChoose(f *testing.F) {
	text, _ := scenarios.StockText(scenarios.DefaultStock)
	f.Add(text)
	f.Add(stockCSV)
	f.Add("spring = [ { label = 'x', width_mm = 0.5, thickness_mm = 10, length_mm = 1e5, yield_mpa = 50, modulus_gpa = 500 } ]")
	f.Fuzz(func(t *testing.T, text string) {
		for _, args := range [][]string{{"choose"}, {"choose", "strike-quick"}, {"choose", "--end-shake-mm", "20", "--reserve", "0.01"}} {
			var out, errs bytes.Buffer
			switch code := Main(few(append(args, "--stock", "-", "--format", "json")), strings.NewReader(text), &out, &errs); {
			case code != exitDone && errs.Len() == 0:
				t.Fatalf("%s: exit %d without a word", args, code)
			case code == exitDone && !json.Valid(out.Bytes()):
				t.Fatalf("%s: not JSON: %s", args, out.String())
			}
		}
	})
}
