// Package numeric holds the numerical methods of the whole module, one of each:
// where a condition ends (Bisect), where a function passes 0 (Root, Newton),
// where it is least (Minimum), and integrals (Gauss, Adaptive). It knows nothing
// of clocks and has no state.
//
// Every search ends, whatever the function gives, infinities and NaN included:
// it stops at the latest when no number lies between the ends of its bracket.
// Functions given are called one after the other, never at once, and are not
// kept.
package numeric
