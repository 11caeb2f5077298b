package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"math"
	"net/http"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// started is evenpull try as a process of its own, and the address that it printed.
func started(t *testing.T, args string) (cmd *exec.Cmd, address string, errs *bytes.Buffer) {
	t.Helper()
	cmd = command("try --no-open " + args)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	errs = new(bytes.Buffer)
	cmd.Stderr = errs
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill() })
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		cmd.Wait()
		t.Fatalf("no address: %v %s", err, errs)
	}
	return cmd, strings.TrimSpace(line), errs
}

// try serves its page at the address that it prints until it is interrupted, keeps a trial
// only as a new file in its own folder, and then ends well.
func TestTry(t *testing.T) {
	t.Chdir(t.TempDir())
	begun := time.Now()
	cmd, address, errs := started(t, "three-trains --stock shop-drawer --bench mixed-barrels --spring going=C")
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	get := func(url string) (int, string) {
		r, err := client.Get(url)
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		text, err := io.ReadAll(r.Body)
		if err != nil {
			t.Fatal(err)
		}
		return r.StatusCode, string(text)
	}
	if code, page := get(address); code != 200 || !strings.Contains(page, "<!doctype html>") {
		t.Fatalf("%d %s", code, page)
	}
	t.Logf("the page is there after %v", time.Since(begun))
	of := func(path string) string { return strings.Replace(address, "/?", path+"?", 1) }
	code, text := get(of("/start"))
	var start struct {
		Trains []struct {
			Name     string
			Readings []struct {
				Spring string
				Turn   float64 `json:"fusee_turn"`
			}
		}
	}
	if err := json.Unmarshal([]byte(text), &start); err != nil || code != 200 || len(start.Trains) != 3 {
		t.Fatalf("%d %v %.300s", code, err, text)
	}
	var list map[string]struct {
		Stock   []struct{ Label, Says string }
		NoStock string `json:"no_stock"`
	}
	code, text = get(of("/list"))
	if err := json.Unmarshal([]byte(text), &list); err != nil || code != 200 {
		t.Fatalf("%d %v %.300s", code, err, text)
	}
	for _, train := range start.Trains {
		if of := list[train.Name]; len(of.Stock) == 0 && of.NoStock == "" {
			t.Errorf("the %s train is offered nothing, and not told why", train.Name)
		}
		if train.Name == "going" && (len(train.Readings) < 10 || train.Readings[0].Spring != "C") {
			t.Errorf("%+v", train.Readings)
		}
	}
	post := func(path, question string) string {
		r, err := client.Post(of(path), "application/json", strings.NewReader(question))
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		text, _ := io.ReadAll(r.Body)
		return string(text)
	}
	const question = `{"train":"going","set":{"going.barrel.set_up_turns":1},"draws":0,"name":"kept.toml"}`
	if says := post("/keep", question); !strings.Contains(says, `"kept":"kept.toml"`) {
		t.Error(says)
	}
	if says := post("/keep", question); !strings.Contains(says, "exists") {
		t.Errorf("written over? %s", says)
	}
	// What is kept comes to what was tried, the bench book's findings included.
	var tried struct{ Run json.RawMessage }
	if err := json.Unmarshal([]byte(post("/run", question)), &tried); err != nil {
		t.Fatal(err)
	}
	code, kept, says := call(t, "", "run", "kept.toml", "--train", "going", "--draws", "0", "--format", "json")
	if code != exitDone {
		t.Fatal(says)
	}
	for _, name := range []string{"mean", "min", "used"} {
		if a, b := figureOf(t, string(tried.Run), name), figureOf(t, kept, name); math.Abs(a-b) > 1e-9*b {
			t.Errorf("%s: tried %v, kept %v", name, a, b)
		}
	}
	// A timed strike cannot be written as a line.
	if says := post("/keep", `{"train":"striking","set":{"striking.barrel.set_up_turns":1},"name":"other.toml"}`); !strings.Contains(says, "change the file by hand") || strings.Contains(says, "--set") {
		t.Error(says)
	}
	cmd.Process.Signal(os.Interrupt)
	if err := cmd.Wait(); err != nil || !strings.Contains(errs.String(), "closing the page leaves this running") {
		t.Errorf("%v %s", err, errs)
	}
}

// figureOf is the first figure of a name in a document.
func figureOf(t *testing.T, document, name string) float64 {
	t.Helper()
	m := regexp.MustCompile(`"` + name + `": ?([0-9.e-]+)`).FindStringSubmatch(document)
	if m == nil {
		t.Fatalf("no %s in %.300s", name, document)
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestTryExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	writeText(t, "clock.toml", "title = 3")
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"try --port 70000", exitUsage, "want 0 to 65535"},
		{"try -", exitUsage, "not standard input"},
		{"try none.toml", exitInput, "none.toml"},
		{"try clock.toml", exitInput, "clock.toml:1"},
		{"try --spring going=A", exitUsage, "--spring goes with --bench"},
		{"try --stock none.toml", exitInput, "none.toml"},
		{"try three-trains --bench mixed-barrels --no-open", exitUsage, "want which is in it"},
	} {
		if code, _, errs := call(t, "", strings.Fields(c.args)...); code != c.code || !strings.Contains(errs, c.says) {
			t.Errorf("%s: %d %s", c.args, code, errs)
		}
	}
}

// What the help has as examples serves.
func TestTryExamples(t *testing.T) {
	t.Chdir(t.TempDir())
	if code, _, errs := call(t, "", "init", "my-clock.toml"); code != exitDone {
		t.Fatal(errs)
	}
	for line := range strings.Lines(newTry(streams{}).Example) {
		cmd, address, errs := started(t, strings.Replace(strings.TrimPrefix(strings.TrimSpace(line), "evenpull try"), "--port 8123", "--port 0", 1))
		r, err := http.Get(address)
		if err != nil || r.StatusCode != 200 {
			t.Errorf("%s: %v %s", line, err, errs)
			continue
		}
		r.Body.Close()
		cmd.Process.Signal(os.Interrupt)
		if err := cmd.Wait(); err != nil {
			t.Errorf("%s: %v %s", line, err, errs)
		}
	}
}
