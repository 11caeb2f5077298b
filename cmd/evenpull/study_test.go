package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"testing"
	"time"

	"evenpull/scenarios"
)

// The test binary is the command itself when this is set.
const asCommand = "EVENPULL_TEST_AS_COMMAND"

func TestMain(m *testing.M) {
	if os.Getenv(asCommand) != "" {
		os.Exit(Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
	}
	os.Exit(m.Run())
}

func TestGoldenStudies(t *testing.T) {
	for name, args := range map[string]string{
		"sweep": "sweep --steps 11", "sweep-fill": "sweep --steps 11 --hold fill", "map": "sweep --steps 5 --against going.line.thickness_mm --steps2 4",
		"rank": "rank", "spread": "spread --runs 2000", "setup": "setup", "sweep-striking": "sweep strike-quick --steps 7",
		"record": "record", "record-fit": "record --scenario three-trains --spring C --fit going.mainspring.thickness_mm,going.mainspring.efficiency",
		"assign": "assign --scenario three-trains", "plan": "plan --full", "plan-error": "plan --error 0.25 --repeats 2", "plan-against": "plan --set going.mainspring.thickness_mm=0.381 --against eight-day --power 80",
	} {
		code, out, errs := call(t, "", strings.Fields(args)...)
		if code != exitDone || errs != "" {
			t.Errorf("%s: exit %d, %s", args, code, errs)
		}
		golden(t, name+".txt", out)
	}
	_, out, _ := call(t, "", "sweep", "--steps", "5", "--format", "json")
	golden(t, "sweep.json", out)
	_, out, _ = call(t, "", "spread", "--runs", "500", "--format", "json")
	golden(t, "spread.json", out)
	_, out, _ = call(t, "", "setup", "--format", "json")
	golden(t, "setup.json", out)
	_, out, _ = call(t, "", "assign", "--format", "json")
	golden(t, "assign.json", out)
	_, out, _ = call(t, "", "plan", "--format", "json")
	golden(t, "plan.json", out)
}

func TestStudiesExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	cases := []struct {
		args string
		code int
		says string
	}{
		{"sweep --over going.mainspring.thicknes_mm", exitUsage, "--over going.mainspring.thicknes_mm: unknown key; did you mean going.mainspring.thickness_mm?"},
		{"sweep --over going.mesh.centre.wheel", exitUsage, "--over going.mesh.centre.wheel: found"},
		{"sweep --against nonsense", exitUsage, "--against nonsense: unknown key"},
		{"sweep --from 0.4 --to 0.3", exitUsage, "want a range"},
		{"sweep --from NaN --to 0.39", exitDone, ""}, // as if left out
		{"sweep --from Inf", exitUsage, "want a range"},
		{"sweep --steps 1", exitUsage, "want a range"},
		{"sweep --steps 100000", exitUsage, "want a range"},
		{"sweep --steps 900 --steps2 900 --against going.line.thickness_mm", exitUsage, "a map is over two inputs"},
		{"sweep --over going.mesh.centre.drag_nm", exitUsage, "want a range"},
		{"sweep --over going.mesh.centre.drag_nm --from 0 --to 0.01 --steps 3", exitDone, ""},
		{"sweep --from2 3", exitUsage, "go with --against"},
		{"sweep --hold width", exitUsage, "want length or fill"},
		{"sweep three-trains --train going --over striking.line.thickness_mm", exitUsage, "no input of the train going"},
		{"sweep --from -1 --to 5 --steps 9", exitDone, ""},
		{"rank --of fusee_torque.mean", exitUsage, "did you mean fusee_torque_nm.mean?"},
		{"rank --change 0", exitUsage, "--change"},
		{"rank --change 60%", exitUsage, "--change"},
		{"rank --change x", exitUsage, "--change"},
		{"rank --total --change 1%", exitUsage, "--total and --change: want one of them"},
		{"rank --total --shares=false", exitUsage, "--shares=false leaves out"},
		{"rank three-trains --train chimes", exitUsage, "the scenario has: going, striking, quarters"},
		{"spread --runs 0", exitUsage, "--runs 0: want 1 to"},
		{"spread --runs -5", exitUsage, "--runs -5: want 1 to"},
		{"spread --runs 10 --shares=false --seed -9", exitDone, ""},
		{"spread --runs 10 --shares=false --seed 0", exitDone, ""},
		{"spread --runs 10 --seed 99999999999999999999", exitUsage, "--seed"},
		{"spread --runs 10 --of nothing", exitUsage, "no result"},
		{"spread too-weak --runs 10 --shares=false", exitDone, ""}, // which has no tolerances
		{"spread --runs 10 --shares=false --set tolerance.1.plus_minus=5", exitDone, ""},
		{"spread --runs 10 --set tolerance.1.plus_minus=-5", exitUsage, "--set tolerance.1.plus_minus: found -5"},
		{"setup", exitDone, ""},
		{"setup --set going.mainspring.length_mm=700", exitInput, "the fusee takes more turns of the spring than it has"},
	}
	for _, c := range cases {
		wantExit(t, c.args, c.code, c.says)
	}
}

// Every study of every train of every sample, in every format and as a picture.
func TestStudiesOfEverySample(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range scenarios.Names() {
		_, doc, _ := call(t, "", "run", name, "--format", "json")
		var run struct{ Trains []struct{ Name string } }
		if err := json.Unmarshal([]byte(doc), &run); err != nil {
			t.Fatal(err)
		}
		for _, train := range run.Trains {
			for _, study := range []string{
				"sweep --steps 9", "sweep --steps 4 --steps2 4 --against " + train.Name + ".barrel.set_up_turns", "rank --shares=false", "setup", "spread --runs 40 --shares=false", "plan",
			} {
				args := append(strings.Fields(study), name, "--train", train.Name)
				for _, more := range []string{"--format json", "--format csv", "--plot p.svg --force"} {
					code, out, errs := call(t, "", few(append(args, strings.Fields(more)...))...)
					switch {
					case code == exitInput && (strings.Contains(errs, "takes more turns")):
					case code != exitDone:
						t.Errorf("%s %s: exit %d, %s", args, more, code, errs)
					case strings.HasSuffix(more, "json") && !json.Valid([]byte(out)):
						t.Errorf("%s %s: %s", args, more, out)
					case strings.Contains(more, "plot"):
						if picture, _ := os.ReadFile("p.svg"); bytes.Contains(picture, []byte("NaN")) || !bytes.Contains(picture, []byte("</svg>")) {
							t.Errorf("%s: the picture is broken", args)
						}
					}
				}
			}
		}
	}
}

// An interrupt in the middle of a long study: it reports what it has, whole.
func TestInterrupt(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no interrupt to send")
	}
	for _, format := range []string{"text", "json"} {
		// On a busy machine it may not have begun: it is given longer.
		var out, errs string
		var err error
		for wait := 400 * time.Millisecond; wait < 30*time.Second; wait *= 2 {
			if out, errs, err = runInterrupted(t, wait, "spread", "--runs", "1000000000", "--format", format); err == nil {
				break
			}
		}
		if err != nil || errs != "" {
			t.Errorf("%v: %s", err, errs)
		}
		if format == "text" && !strings.Contains(out, "stopped early") {
			t.Errorf("%s", out)
		}
		var doc struct {
			Runs    int
			Stopped bool
		}
		if format == "json" && (json.Unmarshal([]byte(out), &doc) != nil || !doc.Stopped || doc.Runs == 0) {
			t.Errorf("%+v: %s", doc, out)
		}
	}
}

// runInterrupted runs a command, interrupts it after a while and gives what it wrote.
func runInterrupted(t *testing.T, wait time.Duration, args ...string) (out, errs string, err error) {
	t.Helper()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), asCommand+"=1")
	var o, e bytes.Buffer
	cmd.Stdout, cmd.Stderr = &o, &e
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(wait)
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	err = cmd.Wait()
	return o.String(), e.String(), err
}

func TestKeysAreCompleted(t *testing.T) {
	for args, want := range map[string]string{
		"sweep --over ": "going.mainspring.thickness_mm", "run three-trains --set ": "striking.line.thickness_mm=", "run three-trains --train ": "quarters",
		"rank --of ": "reserve.min", "sweep --hold ": "fill",
	} {
		words := strings.Split(args, " ")
		if _, out, _ := call(t, "", append([]string{"__complete"}, words...)...); !strings.Contains(out, want) {
			t.Errorf("%q: %s", args, out)
		}
	}
}
