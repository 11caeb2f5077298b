package words

import "testing"

func TestCounted(t *testing.T) {
	for blows, want := range map[float64]string{90: "90 blows in 12 h (the hours by count and one at each half)", 120: "120 blows in 12 h (the quarters by count)", 77: "77 blows in 12 h"} {
		if got := counted(blows); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
