package numeric

// Minimum is where a function with one trough between lo and hi is least, by the
// golden section. Where it has several troughs, it is in one of them.
//
// Error: within width/2, but not less than a smooth function can tell: beside its
// trough that rises with the square of the way, so that about √1e-16 of the
// bracket is lost in rounding. Work: two calls, and one for every factor of 0.618
// from hi−lo to width.
func Minimum(lo, hi, width float64, f func(x float64) float64) float64 {
	const g = 0.6180339887498949
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := f(a), f(b)
	for hi-lo > width && lo < a && a < b && b < hi {
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = f(b)
		}
	}
	return lo/2 + hi/2
}
