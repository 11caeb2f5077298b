package train

// StrikesIn12Hours is the number of blows of an hour strike in 12 hours: the
// hours by count, and a single blow at each half hour if it strikes them.
func StrikesIn12Hours(halfHours bool) int {
	sum := 0
	for hour := 1; hour <= 12; hour++ {
		sum += hour
		if halfHours {
			sum++
		}
	}
	return sum
}

// QuartersIn12Hours is the number of times that a quarter train moves on in 12
// hours when it strikes the quarters by count: one at the first quarter, to
// four at the hour.
func QuartersIn12Hours() int {
	sum := 0
	for quarter := 1; quarter <= 4; quarter++ {
		sum += quarter
	}
	return sum * 12
}

// BlowsPerTurn is the number of blows a turn of the fusee.
func (s *Strike) BlowsPerTurn() float64 { return s.train.BlowsPerTurn(s.design.PinArbor, s.pins) }

// BlowsInRun is the number of blows in a run of the given turns of the fusee; a
// blow not finished does not count. A run that is within a millionth of the
// last blow has struck it.
func (s *Strike) BlowsInRun(turns float64) int {
	if !(turns > 0) {
		return 0
	}
	return int(min(turns*s.BlowsPerTurn()+1e-6, 1<<53))
}
