package sim

import "evenpull/escapement"

// Clock puts escapement and pendulum together.
func (t *Train) Clock() (escapement.Clock, error) { return t.clock() }

// SwingOf gathers amplitude and rate from rows.
func SwingOf(rows []Row, seconds, stopsAt float64) Swing { return swingOf(rows, seconds, stopsAt) }

// Judge sets the verdict and the faults of a digest made by hand.
func (d *Digest) Judge() { d.judge() }

// NoCadence is that of a train that does not strike.
var NoCadence = noCadence
