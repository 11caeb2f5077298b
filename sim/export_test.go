package sim

import "evenpull/escapement"

// Clock puts escapement and pendulum together.
func (t *Train) Clock() (escapement.Clock, error) { return t.clock() }

// SwingOf gathers amplitude and rate from rows.
func SwingOf(rows []Row, seconds float64) Swing { return swingOf(rows, seconds) }

// Halt stops the clock at a row.
func Halt(rows []Row, turn float64) float64 { return halt(rows, turn) }

// Judge sets the verdict and the faults of a digest made by hand.
func (d *Digest) Judge() { d.judge() }

// NoCadence is that of a train that does not strike.
var NoCadence = noCadence
