package scenarios

import (
	"strings"
	"testing"
)

// TestLoad: every sample is sound, and says that it is invented; a name that is none is
// refused with those there are.
func TestLoad(t *testing.T) {
	if len(Names()) < 6 {
		t.Fatal(Names())
	}
	for _, name := range Names() {
		s, err := Load(name)
		if err != nil || s.Source != name || !strings.Contains(s.Title, "invented") || len(s.Trains) == 0 {
			t.Errorf("%s: %+v, %v", name, s, err)
		}
	}
	if _, err := Load(Default); err != nil {
		t.Error(err)
	}
	const all = "the samples are eight-day, strike-pleasant, strike-quick, three-trains, too-strong, too-weak"
	for name, want := range map[string]string{
		"eightday":          `scenarios: there is no sample "eightday"; did you mean eight-day? ` + all,
		"":                  `scenarios: there is no sample ""; ` + all,
		"../scenarios":      `scenarios: there is no sample "../scenarios"; ` + all,
		"bench/" + Default:  `scenarios: there is no sample "bench/eight-day"; ` + all,
		"stock/shop-drawer": `scenarios: there is no sample "stock/shop-drawer"; ` + all,
	} {
		if s, err := Load(name); s != nil || err == nil || err.Error() != want {
			t.Errorf("%q: %v, %v, want %s", name, s, err, want)
		}
	}
}
