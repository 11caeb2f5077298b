package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// command is the program with these arguments, as a process of its own.
func command(args string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], strings.Fields(args)...)
	cmd.Env = append(os.Environ(), asCommand+"=1")
	return cmd
}

// TestInterruptInWords: a long command that is interrupted ends at once, says so and that
// nothing was written, and writes nothing; so does one to which nothing comes on standard
// input.
func TestInterruptInWords(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no interrupt to send")
	}
	t.Chdir(t.TempDir())
	for _, args := range []string{
		"run --draws 1000000 --plot a.svg", "rank three-trains", "cut --draws 1000000 --plot a.svg", "setup --draws 1000000", "choose --draws 1000000 --plot a.svg",
		"assign --scenario three-trains --draws 1000000", "report --draws 1000000 --out a.html --data kept", "sweep --steps 500 --steps2 500 --against going.line.thickness_mm", "coils --nodes 192", "run -", "record -",
	} {
		// On a busy machine it may not have begun, or have ended: other times are tried.
		code, says := 0, ""
		for _, wait := range []time.Duration{300, 600, 1200, 100, 5000} {
			cmd := command(args)
			in, err := cmd.StdinPipe()
			if err != nil {
				t.Fatal(err)
			}
			var errs bytes.Buffer
			cmd.Stderr = &errs
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(wait * time.Millisecond)
			_ = cmd.Process.Signal(os.Interrupt) // fails when it has ended
			_ = cmd.Wait()                       // the status tells
			in.Close()
			if code, says = cmd.ProcessState.ExitCode(), errs.String(); code == exitInterrupted {
				break
			}
		}
		if code != exitInterrupted || says != "evenpull: interrupted; nothing was written\n" {
			t.Errorf("%s: exit %d, %s", args, code, says)
		}
	}
	if left := tree(t); left != ".=\n" {
		t.Errorf("left behind: %s", left)
	}
}

// TestSecondInterrupt: what does not end with one interrupt, here one that waits for
// another program to open its input, ends with the second.
func TestSecondInterrupt(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := exec.Command("mkfifo", "pipe").Run(); err != nil {
		t.Skip("no pipes with names here")
	}
	cmd := command("run pipe")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	for range 300 {
		select {
		case <-ended:
			return
		case <-time.After(100 * time.Millisecond):
			_ = cmd.Process.Signal(os.Interrupt)
		}
	}
	t.Error("it goes on")
	_ = cmd.Process.Kill()
}

// TestRacesOfProcesses: of twelve processes that write one new file at once exactly one
// says that it did. EVENPULL_TRIALS is how often they race.
func TestRacesOfProcesses(t *testing.T) {
	t.Chdir(t.TempDir())
	rounds := 4
	if n, err := strconv.Atoi(os.Getenv("EVENPULL_TRIALS")); err == nil {
		rounds = n
	}
	for round := range rounds {
		name := "clock-" + strconv.Itoa(round) + ".toml"
		var all sync.WaitGroup
		says := make([]string, 12)
		for i := range says {
			all.Go(func() {
				text, err := command("init " + name).CombinedOutput()
				says[i] = string(text)
				if err != nil && !strings.Contains(says[i], name+" exists already") {
					t.Errorf("%v: %s", err, text)
				}
			})
		}
		all.Wait()
		if n := strings.Count(strings.Join(says, ""), "written: "+name); n != 1 {
			t.Errorf("%d of %d say that they wrote it", n, len(says))
		}
		if text, err := os.ReadFile(name); err != nil || !strings.Contains(string(text), "[[train]]") {
			t.Errorf("%v: %s", err, text)
		}
	}
}

// TestReading: standard input is read as it comes.
func TestReading(t *testing.T) {
	const text = "title = \"a clock\"\n"
	if got, err := io.ReadAll(reading{t.Context(), strings.NewReader(text)}); err != nil || string(got) != text {
		t.Errorf("%q, %v", got, err)
	}
}
