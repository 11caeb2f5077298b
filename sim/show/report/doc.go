// Package report writes the results of a run-down: text for people, JSON and
// CSV for programs. The keys and their units are a contract: they are added to,
// never changed.
package report

import (
	"evenpull/sim"
)

// Run is everything a report of a run-down speaks of.
type Run struct {
	Title   string
	Note    string
	Assumed []string
	Trains  []sim.Result
}
