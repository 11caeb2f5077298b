package scenario

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"evenpull/fusee"
	"evenpull/fusee/mainspring"
)

// cones are those cut even for invented springs, straight ones and those that go as a
// straight law of the couple, as someone reads them to a tenth: noise of 0.1 to 0.2 mm
// (standard deviation), ends and one place worn by up to 0.7 mm. In mm, small end first.
func cones(t *testing.T, n int) (all [][]float64) {
	random := rand.New(rand.NewPCG(27, 4))
	at := func(lo, hi float64) float64 { return lo + (hi-lo)*random.Float64() }
	for len(all) < n {
		turns := 3 + random.IntN(15)
		d := make([]float64, turns+1)
		small := at(6, 25)
		large := small * at(1.1, 2.6)
		for i := range d {
			d[i] = small + (large-small)*float64(i)/float64(turns)
		}
		if len(all)%4 != 0 {
			drive := fusee.Drive{
				Spring: mainspring.Strip{Width: 36 * mm, Thickness: at(0.3, 0.5) * mm, Length: at(1.2, 2.2), Modulus: 206 * gpa, Poisson: 0.3,
					Form: mainspring.Form(random.IntN(3)), FreeCoils: at(0, 8), Yield: at(1300, 1900) * mpa, Packing: at(1, 1.13)},
				Housing: mainspring.Housing{Arbor: 7.5 * mm, Inside: 23 * mm}, Efficiency: 0.9,
				Barrel: fusee.Barrel{Radius: 25 * mm, Length: 1, Height: 1, SetUp: at(0.1, 2)},
				Line:   fusee.Line{Thickness: 1.6 * mm, Width: 1.6 * mm, Efficiency: 0.95},
				Cone:   fusee.Cone{Turns: float64(turns), Pitch: 2.4 * mm, Shape: fusee.EvenByLarge, End: at(12, 22) * mm},
			}
			w, err := drive.Wind()
			if err != nil {
				continue
			}
			cone := w.CutCone()
			for i := range d {
				rho, _, _ := cone.Profile.At(float64(i))
				d[i] = 2 * rho / mm
			}
		}
		noise, worn := at(0.1, 0.2), random.IntN(len(d))
		for i := range d {
			d[i] += noise * random.NormFloat64()
		}
		d[0] -= at(0, 0.7)
		d[len(d)-1] -= at(0, 0.7)
		d[worn] -= at(0, 0.7)
		for i := range d {
			d[i] = math.Round(d[i]*10) / 10
		}
		if d[0] > 3 {
			all = append(all, d)
		}
	}
	return all
}

// Of real cones none is asked about; with two digits changed about, or the decimal point
// moved, what is asked is which was meant, wherever that is clear; turned about they are
// told so.
func TestCones(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 5))
	clear, found, moved := 0, 0, 0
	all := cones(t, 700)
	for _, d := range all {
		if i, cure, why := outOfLine(d, 1); i >= 0 || wrongWayRound(d) {
			t.Errorf("%v: %d %v %s", d, i, cure, why)
		}
		turned := make([]float64, len(d))
		for i := range d {
			turned[i] = d[len(d)-1-i]
		}
		if d[len(d)-1] > 1.4*d[0] && !wrongWayRound(turned) {
			t.Errorf("not seen the wrong way round: %v", turned)
		}
		k := random.IntN(len(d))
		was := d[k]
		d[k] = 10 * was
		if i, cure, _ := outOfLine(d, 1); i == k && math.Abs(cure-was) < 1e-9 {
			moved++
		}
		text := []byte(rounded(was))
		if len(text) != 4 || text[2] != '.' {
			continue
		}
		text[1], text[3] = text[3], text[1]
		fmt.Sscan(string(text), &d[k])
		lo, hi := between(d, k)
		if past := max(lo-d[k], d[k]-hi); past < max(1.5, 0.05*was) || k == 0 || k == len(d)-1 || lo > hi {
			continue
		}
		clear++
		if i, cure, why := outOfLine(d, 1); i == k && math.Abs(cure-was) < 1e-9 && why == "two digits changed about" {
			found++
		}
	}
	t.Logf("%d of %d changed about, %d of %d moved", found, clear, moved, len(all))
	if clear < 150 || float64(found) < 0.75*float64(clear) || float64(moved) < 0.97*float64(len(all)) {
		t.Errorf("%d of %d changed about, %d of %d moved", found, clear, moved, len(all))
	}
}

// What is asked of a cone names the value, its neighbours and the cure, in the unit of the
// file.
func TestConesAskedAbout(t *testing.T) {
	measured := func(list string) []edit {
		return []edit{{1, "diameters_mm = […pitch_mm", list + "\n"}, {1, "turns = 16", "turns = 6"}}
	}
	for want, list := range map[string]string{
		"diameters_mm.3: found a diameter of 27.4, out of line with 24.1 and 25.3 beside it; want 24.7? two digits changed about":                       "diameters_mm = [22.4, 23.2, 24.1, 27.4, 25.3, 26.1, 27.0]",
		"diameters_in.3: found a diameter of 0.79, out of line with 0.95 and 0.998 beside it; want 0.97? two digits changed about":                      "diameters_in = [0.88, 0.91, 0.95, 0.79, 0.998, 1.03, 1.07]",
		"diameters_mm.0: found a diameter of 2.24, out of line with 23.2 beside it; want 22.4? the decimal point":                                       "diameters_mm = [2.24, 23.2, 24.1, 24.7, 25.3, 26.1, 27.0]",
		"diameters_mm.6: found a diameter of 270, out of line with 26.1 beside it; want 27? the decimal point":                                          "diameters_mm = [22.4, 23.2, 24.1, 24.7, 25.3, 26.1, 270]",
		"diameters_mm.3: found a diameter of 34.7, out of line with 24.1 and 25.3 beside it; want it measured again":                                    "diameters_mm = [22.4, 23.2, 24.1, 34.7, 25.3, 26.1, 27.0]",
		"diameters_mm: found diameters that fall, from 27 at the small end to 22.4; want the small end first: [22.4, 23.2, 24.1, 24.7, 25.3, 26.1, 27]": "diameters_mm = [27.0, 26.1, 25.3, 24.7, 24.1, 23.2, 22.4]",
		"points: found diameters that fall, from 36 at the small end to 18; want the small end first: [[0, 18], [3.5, 22], [6, 36]]":                    "points = [[0, 36], [2.5, 22], [6, 18]]",
		"points_in: found diameters that fall, from 1.4 at the small end to 0.7; want the small end first: [[0, 0.7], [3.5, 0.9], [6, 1.4]]":            "points_in = [[0, 1.4], [2.5, 0.9], [6, 0.7]]",
		"points_in.1: found a diameter of 9, out of line with 0.7 and 1.4 beside it; want 0.9? the decimal point":                                       "points_in = [[0, 0.7], [2.5, 9], [6, 1.4]]",
		"": "points_mm = [[0, 18], [2.5, 22], [6, 36]]",
	} {
		_, err := read(edited(t, measured(list)...))
		got, _, _ := strings.Cut(message(err), "\n")
		if (want != "" || got != "") && !strings.HasSuffix(got, " going.fusee."+want) {
			t.Errorf("%s\ngot  %s\nwant %s", list, got, want)
		}
	}
	s, err := read(edited(t, measured("points_in = [[0, 0.7], [2.5, 0.9], [6, 1.4]]")...))
	if err != nil {
		t.Fatal(err)
	}
	if p := s.Trains[0].Fusee.Points; p[1].Turn != 2.5 || math.Abs(p[1].DiameterMM-0.9*25.4) > 1e-12 {
		t.Errorf("%v", p)
	}
	if err := s.Apply([]string{"going.fusee.points_in=[[0, 0.7], [3, 0.9], [6, 1.4]]", "going.fusee.points_cm.1=2"}); err != nil || s.Trains[0].Fusee.Points[1] != (Point{3, 20}) {
		t.Errorf("%v: %v", err, s.Trains[0].Fusee.Points)
	}
	_, err = read(edited(t, edit{2, "large_diameter_mm = 36.0", "large_diameter_mm = 12.0"}))
	if got := message(err); !strings.HasSuffix(got, "small_diameter_mm: found 18, more than large_diameter_mm, 12 mm; want the two changed about") {
		t.Error(got)
	}
}
