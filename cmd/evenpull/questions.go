package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// question is one that people come with. It heads its commands in the help, and has a call
// to begin with.
type question struct {
	asks     string
	start    string
	commands []*cobra.Command
}

// questions are all, in the order in which they come up, with every command below one.
func questions(s streams) []question {
	return []question{
		{"Where do I begin?", "init my-clock.toml --ask",
			[]*cobra.Command{newInit(s), newSamples(s)}},
		{"What does this drive give, and does it suit?", "run my-clock.toml",
			[]*cobra.Command{newRun(s), newBeat(s), newCoils(s)}},
		{"What if a figure were another, and which one matters?", "sweep my-clock.toml",
			[]*cobra.Command{newSweep(s), newTry(s), newRank(s), newSpread(s), newBatch(s)}},
		{"What did the bench find, and which spring goes where?", "record my-clock-bench.toml --scenario my-clock.toml",
			[]*cobra.Command{newRecord(s), newAssign(s), newPlan(s)}},
		{"What shall I set up, order or cut?", "choose my-clock.toml",
			[]*cobra.Command{newChoose(s), newSetup(s), newCut(s)}},
		{"What do I write down, for me and for the owner?", "report my-clock.toml --out study.html",
			[]*cobra.Command{newReport(s), newLetter(s)}},
		{"What else does the program do?", "", []*cobra.Command{newHelp(s), newCompletion(s), newMan(s), newSchema(s), newVersion(s)}},
	}
}

// group puts the commands below root, each in the group of its question.
func group(root *cobra.Command, qs []question) {
	for _, q := range qs {
		root.AddGroup(&cobra.Group{ID: q.asks, Title: q.asks})
		for _, c := range q.commands {
			c.GroupID = q.asks
			root.AddCommand(c)
			if c.Name() == "help" {
				root.SetHelpCommand(c)
			}
		}
	}
}

// wayIn is what evenpull says when it is asked nothing: the questions, and under each the
// call to begin with.
func wayIn(qs []question) string {
	var b strings.Builder
	b.WriteString("evenpull tells what a mainspring gives through its fusee, and whether it suits.\n\n")
	for _, q := range qs {
		if q.start != "" {
			b.WriteString(q.asks + "\n  evenpull " + q.start + "\n")
		}
	}
	b.WriteString("\nTo look around first: \"evenpull run\" without a file takes a sample clock.\nAll commands, and what there is to read: evenpull help\n")
	return b.String()
}
