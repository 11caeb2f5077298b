package scenario

import "testing"

// TestFollowing: the outside length of a barrel is by default its inside height.
func TestFollowing(t *testing.T) {
	const height, length = ".barrel.inside_height_mm", ".barrel.outside_length_mm"
	for _, c := range []struct {
		train  string
		except []string
		want   float64
	}{
		{"striking", nil, 39.5},
		{"striking", []string{"striking" + height}, 39.5},
		{"striking", []string{"going" + length}, 39.5},
		{"striking", []string{"striking" + height, "striking" + length}, 41},
		{"going", nil, 44}, // given
	} {
		s := mustRead(t, fullText(t))
		h, err := s.Value(c.train + height)
		if err != nil {
			t.Fatal(err)
		}
		l, err := s.Value(c.train + length)
		if err != nil {
			t.Fatal(err)
		}
		follow := s.Following(c.except...)
		*h = 39.5
		follow()
		if *l != c.want {
			t.Errorf("%s but for %q: %v, want %v", c.train, c.except, *l, c.want)
		}
		if n := testing.AllocsPerRun(100, func() { follow() }); n != 0 {
			t.Errorf("%v allocations", n)
		}
	}
}

// TestFollowingAfterSet: what --set gave is given.
func TestFollowingAfterSet(t *testing.T) {
	s := mustRead(t, fullText(t))
	if err := s.Apply([]string{"striking.barrel.outside_length_mm=43"}); err != nil {
		t.Fatal(err)
	}
	s.Trains[1].Barrel.InsideHeightMM = 39.5
	s.Following()()
	if l := s.Trains[1].Barrel.OutsideLengthMM; l != 43 {
		t.Error(l)
	}
}
