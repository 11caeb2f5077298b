package page

import (
	"strings"
	"testing"
)

// A study is headed by its folder, and its lines are in one piece again.
func TestStudies(t *testing.T) {
	d := &Document{}
	d.studies([]Study{
		{Name: "thickness_and_set-up", Of: "A clock", Says: []string{"going train: SUITS; swept: the", "thickness", "  - below 0.3 mm", "    it stops", "  ! fault at 0.4 mm: it", "    binds", "  ! inputs act together"}, Command: "evenpull sweep", SVG: []byte("<svg>")},
		{Name: "one-batch", Of: "B", Command: "evenpull batch"}, {Name: "_", Of: "C"},
	})
	var got []string
	for _, s := range d.Sections {
		got = append(got, s.ID+" "+s.Title)
		for _, b := range s.Blocks {
			switch {
			case b.Text != nil:
				got = append(got, b.Text.Text)
			case b.Picture != nil:
				got = append(got, "picture "+b.Picture.ID+": "+b.Picture.Alt+", "+b.Picture.Caption)
			case b.Quoted != nil:
				got = append(got, b.Quoted.Text)
			}
			for _, it := range b.List {
				got = append(got, strings.TrimSpace(it.Class+" "+it.Mark+" "+it.Text))
			}
		}
	}
	want := `study-1 Thickness and set-up
going train: SUITS; swept: the thickness
below 0.3 mm it stops
fault Fault at 0.4 mm: it binds
Note: inputs act together
picture study-1-picture: Thickness and set-up, A clock
evenpull sweep
study-2 One batch
Of: B
evenpull batch
study-3 _
Of: C
`
	if strings.Join(got, "\n") != want {
		t.Errorf("%s", strings.Join(got, "\n"))
	}
	if len(d.Pictures) != 1 {
		t.Errorf("%d pictures", len(d.Pictures))
	}
}
