// Package sim runs a clock down and judges it.
//
// Compile turns a scenario into one Train per train, in SI and ready to run:
// all that a run-down depends on is a plain field of it, so a what-if is a copy
// with a field changed. Run steps a train through the fusee's turns.
//
// Figures of the whole run (least, greatest, spread) are taken at every quarter
// turn whatever rows are asked for; the mean is exact, from the energy of the
// spring.
package sim
