// Package numeric holds the numerical methods of the whole module, one of each:
// where a condition ends (Bisect), where a function passes 0 (Root, Newton),
// where it is least (Minimum), and integrals (Gauss, Adaptive). It knows nothing
// of clocks and has no state.
//
// Every search ends, whatever the function gives, infinities and NaN included:
// it stops at the latest when no number lies between the ends of its bracket.
// Functions given are called one after the other, never at once, and are not
// kept. Places x and values f(x) may be in any unit: what is found along x is in that of
// x, an integral in that of f times that of x.
//
// Where a method is another's its source stands at its name; what has none is textbook
// knowledge. Errors are told of functions in float64, about 1e-16 of themselves.
package numeric
