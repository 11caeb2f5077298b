package train

// SecondsPerTurn is the time (s) of a fusee turn of a going train whose escape
// wheel, on the last arbor, has the given teeth: one tooth passes a period.
func (t *Train) SecondsPerTurn(teeth int, period float64) float64 {
	return t.Speed(t.Last()) * float64(teeth) * period
}

// BlowsPerTurn is the number of blows a fusee turn of a striking train whose
// pins stand on the given arbor.
func (t *Train) BlowsPerTurn(pinArbor, pins int) float64 {
	return t.Speed(pinArbor) * float64(pins)
}

// StrikingSecondsPerTurn is the time (s) of a fusee turn of a striking train with so many
// pins on the given arbor when it strikes the given blows in 12 hours.
func (t *Train) StrikingSecondsPerTurn(pinArbor, pins int, blowsPer12h float64) float64 {
	return t.BlowsPerTurn(pinArbor, pins) / blowsPer12h * 12 * 3600
}
