package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
)

func TestPlanExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"plan --for going.mainspring.thicknes_mm", exitUsage, "--for going.mainspring.thicknes_mm: unknown key; did you mean going.mainspring.thickness_mm?"},
		{"plan --for going.pendulum.mass_g", exitUsage, "--for going.pendulum.mass_g moves the torque at no turn"},
		{"plan three-trains --train going --for striking.line.thickness_mm", exitUsage, "--for striking.line.thickness_mm is no input of the train going"},
		{"plan --error 0", exitUsage, `--error "0": want a percentage above 0`},
		{"plan --error x", exitUsage, "--error"},
		{"plan --error NaN", exitUsage, "--error"},
		{"plan --error 0.3%", exitDone, ""},
		{"plan --error 1 --for going.mesh.centre.drag_nm", exitUsage, "is 0, so that an error in percent of it says nothing"},
		{"plan --repeats 0", exitUsage, "--repeats 0: want 1 to 1000"},
		{"plan --repeats 1001", exitUsage, "--repeats 1001"},
		{"plan --turns 0", exitUsage, "--turns 0: want at least one turn"},
		{"plan --turns 18", exitUsage, "--turns 18: the run-down has fewer whole turns: there are 17, from 0 to 16"},
		{"plan --turns 17", exitDone, ""},
		{"plan --scatter 0.6", exitUsage, `--scatter: found "0.6"; want a share of the torque from 0 to 0.2, such as 0.006 or 0.6%`},
		{"plan --offset -1", exitUsage, `--offset: found "-1"; want a share`},
		{"plan --meter-relative NaN", exitUsage, "--meter-relative: found"},
		{"plan --meter-resolution -1", exitUsage, "--meter-resolution -1: want a step"},
		{"plan --scatter 0 --offset 0 --meter-relative 0", exitDone, ""},
		{"plan --scatter 0.6% --offset 0.004", exitDone, ""},
		{"plan --power 80", exitUsage, "--power goes with --against"},
		{"plan --against too-weak --error 1", exitUsage, "--error goes with --for"},
		{"plan --against too-weak --for going.line.thickness_mm", exitUsage, "want one of them"},
		{"plan --against too-weak --power 100", exitUsage, "--power"},
		{"plan --against too-weak --power 90 --format csv", exitDone, ""},
		{"plan --against strike-quick", exitUsage, "it has no train going; it has: striking"},
		{"plan --against eight-day", exitUsage, "both springs pull alike"},
		{"plan --against nothing.toml", exitInput, "nothing.toml"},
		{"plan - --against -", exitUsage, "not both"},
		{"plan three-trains --for striking.mainspring.efficiency", exitDone, ""},
		{"plan too-strong", exitDone, ""},
	} {
		wantExit(t, c.args, c.code, c.says)
	}
}

// A plan is carried out as it says: what was read at its turns, written down as it tells,
// is fitted by record, which then tells about the error that was promised.
func TestPlanIsCarriedOut(t *testing.T) {
	t.Chdir(t.TempDir())
	const key = "going.mainspring.yield_mpa"
	var p struct {
		Turns   []int
		Repeats int
		SE      float64 `json:"standard_error"`
		At      []struct {
			Torque float64 `json:"torque_nm"`
		} `json:"fusee_turns"`
	}
	code, out, errs := call(t, "", "plan", "--for", key, "--repeats", "3", "--meter-relative", "1%", "--format", "json")
	if err := json.Unmarshal([]byte(out), &p); code != exitDone || err != nil {
		t.Fatal(errs, err)
	}
	// Three run-downs that differ as wholes by 0.4 % of the mean (standard deviation).
	var lists []string
	for _, whole := range []float64{-0.004, 0, 0.004} {
		items := []string{}
		for turn := 0; turn <= p.Turns[len(p.Turns)-1]; turn++ {
			item := `"-"`
			for _, at := range p.Turns {
				if at == turn {
					item = fmt.Sprintf("%.9f", p.At[turn].Torque+0.4225*whole)
				}
			}
			items = append(items, item)
		}
		lists = append(lists, "["+strings.Join(items, ", ")+"]")
	}
	book := fmt.Sprintf("title = \"read as planned\"\n[[torque]]\ntrain = \"going\"\nspring = \"S\"\nfirst_turn = 0\nmeter_relative = 0.01\nmeter_resolution_nm = 0.0\nrunning_down = [ %s ]\n", strings.Join(lists, ", "))
	if err := os.WriteFile("book.toml", []byte(book), 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, errs = call(t, "", "record", "book.toml", "--scenario", "eight-day", "--fit", key, "--draws", "0", "--format", "json")
	var r struct {
		Fit struct {
			Values []struct {
				Value float64
				SE    float64 `json:"standard_error"`
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &r); code != exitDone || err != nil {
		t.Fatal(errs, err)
	}
	got := r.Fit.Values[0]
	// Without scatter within the run-downs the error is a little less than promised.
	if math.Abs(got.Value-1620) > 0.01 || got.SE > p.SE || got.SE < 0.85*p.SE {
		t.Errorf("record finds %v ± %v, promised %v", got.Value, got.SE, p.SE)
	}
}
