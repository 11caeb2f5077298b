package rules

// ActTogether tells whether inputs that have a share of a variance only together, known
// with a standard error, are to be warned of.
func ActTogether(share, standardError float64) bool {
	return share > Together && share > TogetherErrors*standardError
}
