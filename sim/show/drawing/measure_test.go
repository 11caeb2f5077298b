package drawing

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"image/png"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/show/canvas"
	"evenpull/sim/show/data"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

const ofOutline = 0.8 // points, the width of what is measured off a sheet

// faces are the two ends of the blank and its outline at top and foot.
func faces(t testing.TB, r *read) (small, large, top, foot []spot) {
	t.Helper()
	lines := r.lines(ofOutline)
	lines = slices.DeleteFunc(lines, func(l []spot) bool { return len(l) < 2 })
	for _, l := range lines {
		switch {
		case len(l) == 2 && math.Abs(l[0].x-l[1].x) < 1e-3:
			if small == nil {
				small = l
			} else {
				large = l
			}
		case len(l) > 20 && top == nil:
			top = l
		case len(l) > 20:
			foot = l
		}
	}
	if small == nil || large == nil || top == nil || foot == nil {
		t.Fatalf("no outline among %d lines", len(lines))
	}
	return small, large, top, foot
}

// 30 mm of the bar are 30 mm to 0.02, and the large end is as large as it is told, on every
// paper (ISO 216; letter of 8½ by 11 inches) and in both formats.
func TestDrawingIsTrueToSize(t *testing.T) {
	worst := 0.0
	for name, size := range map[string][2]float64{"A4": {297, 210}, "A3": {420, 297}, "letter": {279.4, 215.9}} {
		for _, st := range []*cut.Study{study(t, "strike-quick", 0, cut.Options{}), leftChain(t), study(t, "eight-day", 0, cut.Options{FromBlank: true, Large: 18e-3})} {
			for _, format := range []string{"svg", "pdf"} {
				data := files(t, st, name, format)[0]
				var r *read
				if format == "svg" {
					r = readSVG(t, data)
				} else {
					r = readPDF(t, data)[0]
				}
				if math.Abs(r.width-size[0]) > 0.02 || math.Abs(r.height-size[1]) > 0.02 {
					t.Errorf("%s, %s: %v by %v mm", name, format, r.width, r.height)
				}
				var blocks [][]spot // of the bar: 10 mm by 2.5
				for _, f := range r.fills {
					if len(f) >= 4 && math.Abs(f[1].x-f[0].x-10) < 0.1 && math.Abs(f[2].y-f[1].y-2.5) < 0.1 {
						blocks = append(blocks, f)
					}
				}
				if len(blocks) != 3 { // of the five, every other
					t.Fatalf("%s, %s: %d black blocks", name, format, len(blocks))
				}
				_, large, _, _ := faces(t, r)
				for _, pair := range [][2]float64{
					{blocks[1][1].x - blocks[0][0].x, 30}, {blocks[2][1].x - blocks[0][0].x, 50},
					{math.Abs(large[1].y - large[0].y), st.Rows[len(st.Rows)-1].OverLands * 1e3},
				} {
					worst = math.Max(worst, math.Abs(pair[0]-pair[1]))
					if math.Abs(pair[0]-pair[1]) > 0.02 {
						t.Errorf("%s, %s: %v mm, want %v", name, format, pair[0], pair[1])
					}
				}
			}
		}
	}
	t.Logf("out by %.4f mm at the most", worst)
}

// The groove bottoms and lands that are drawn stand where CSV has them and as far off the
// axis, to a micrometre: a groove of the right hand is at the top at whole turns, with a
// land at the foot; one of the left hand the other way about.
func TestDrawingAgreesWithCSV(t *testing.T) {
	worst := 0.0
	for name, st := range map[string]*cut.Study{
		"right": study(t, "strike-quick", 0, cut.Options{}), "left, chain": leftChain(t), "as it is": study(t, "three-trains", 2, cut.Options{}),
		"long": longCone(t, 2.2), "over three sheets": longCone(t, 7),
	} {
		var sheet *read
		var small, large, top, foot []spot
		text := map[string]bool{}
		for _, file := range files(t, st, "A4", "svg") {
			r := readSVG(t, file)
			for _, row := range r.rows() {
				text[row] = true
			}
			if sheet == nil && bytes.Contains(file, []byte(">small end,<")) {
				sheet = r
				small, large, top, foot = faces(t, r)
			}
		}
		axis := (small[0].y + small[1].y) / 2
		if st.Cut.Drive.Cone.Left {
			top, foot = foot, top
		}
		// What is drawn at a place, as a diameter about the axis.
		at := func(line []spot, x float64) float64 {
			i := slices.IndexFunc(line, func(p spot) bool { return math.Abs(p.x-x) < 1e-3 })
			if i < 0 {
				t.Fatalf("%s: nothing is drawn at %v mm", name, x)
			}
			return 2 * math.Abs(line[i].y-axis)
		}
		rows := coordinates(t, st)
		for _, row := range rows {
			x := large[0].x - row["from_great_wheel_mm"]
			var pairs [][2]float64
			if turn := row["fusee_turn"]; turn == math.Round(turn) {
				pairs = append(pairs, [2]float64{at(top, x), row["diameter_mm"]})
				if turn > 0 && turn < st.Cut.Drive.Cone.Turns {
					pairs = append(pairs, [2]float64{at(foot, x), row["over_lands_mm"]})
				}
			}
			for _, pair := range pairs {
				worst = math.Max(worst, math.Abs(pair[0]-pair[1]))
				if math.Abs(pair[0]-pair[1]) > 1e-3 {
					t.Errorf("%s, turn %v: Ø %v is drawn, CSV has %v", name, row["fusee_turn"], pair[0], pair[1])
				}
			}
			want := fmt.Sprintf("%g %.2f %.2f %.2f", row["fusee_turn"], row["from_great_wheel_mm"], row["diameter_mm"], row["over_lands_mm"])
			if !st.Nothing {
				want += fmt.Sprintf(" %.2f %.2f", row["now_mm"], row["remove_mm"])
			}
			if !slices.ContainsFunc(rowsOf(text), func(s string) bool { return strings.Contains(" "+s+" ", " "+want+" ") }) {
				t.Errorf("%s: the table has no row %s", name, want)
			}
		}
	}
	t.Logf("diameters drawn and written differ by %.2f µm at the most", worst*1e3)
}

func rowsOf(set map[string]bool) (list []string) {
	for row := range set {
		list = append(list, row)
	}
	return list
}

// coordinates are the rows of the CSV.
func coordinates(t testing.TB, st *cut.Study) (rows []map[string]float64) {
	t.Helper()
	var b bytes.Buffer
	if err := data.Cut().CSV(&b, data.Origin{}, st); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, cells := range lines[1:] {
		row := map[string]float64{}
		for i, cell := range cells {
			if cell != "" {
				row[lines[0][i]] = figure(t, cell)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// One hand on both drawings, in both formats, and the scenario's own: from the side, what is
// seen of a right-hand groove goes down to the right, of a left-hand one up.
func TestOneHand(t *testing.T) {
	for hand, down := range map[string]bool{"right": true, "left": false} {
		const pitch = "pitch_mm           = 2.2"
		replace := []string{pitch, "hand = \"" + hand + "\"\n" + pitch}
		run := results(t, "eight-day", replace...)
		st := studyOf(t, "eight-day", replace...)
		drawn := map[string]*read{
			"run, svg": readSVG(t, []byte(svg(t, run))), "run, pdf": readPDF(t, pdf(t, run))[0],
			"cut, svg": readSVG(t, files(t, st, "A4", "svg")[0]), "cut, pdf": readPDF(t, files(t, st, "A4", "pdf")[0])[0],
		}
		for name, r := range drawn {
			grooves := 0
			for _, s := range r.strokes {
				if !s.grey {
					continue
				}
				first, last := s.spots[0], s.spots[len(s.spots)-1]
				if first.x > last.x {
					first, last = last, first
				}
				if grooves++; last.y < first.y != down || math.Abs(last.x-first.x-1.1) > 0.02 && last.x-first.x > 1.12 {
					t.Errorf("%s, %s-hand: a groove from %v to %v", name, hand, first, last)
				}
			}
			if want := map[bool]int{true: 16, false: 32}[strings.HasPrefix(name, "run")]; grooves != want { // both edges where the land is drawn
				t.Errorf("%s: %d lines of groove, want %d", name, grooves, want)
			}
		}
	}
}

// A cone too long for a sheet goes over several. Each says its number and whom it joins, the
// crosses of one letter are one place of the cone, and every place of it is on some sheet.
func TestSheetsJoin(t *testing.T) {
	st := longCone(t, 7)
	sheets := files(t, st, "A4", "svg")
	if len(sheets) != 3 || len(readPDF(t, files(t, st, "A4", "pdf")[0])) != 3 {
		t.Fatalf("%d sheets", len(sheets))
	}
	crosses := map[string]spot{} // from the great-wheel face and the axis
	shared := 0
	for i, file := range sheets {
		r := readSVG(t, file)
		all := strings.Join(r.rows(), "\n")
		wants := []string{fmt.Sprintf("sheet %d of 3", i+1), "Check that this bar measures 50 mm"}
		if i > 0 {
			wants = append(wants, map[int]string{1: "joins sheet 3 at the right: lay cross on cross", 2: "joins sheet 2 at the left: lay cross on cross"}[i])
		}
		for _, want := range wants {
			if !strings.Contains(all, want) {
				t.Errorf("sheet %d has no %q", i+1, want)
			}
		}
		if i == 0 {
			continue
		}
		_, large, _, _ := faces(t, r)
		for _, s := range r.strokes {
			if a := s.spots[0]; len(s.spots) == 2 && math.Abs(s.spots[1].x-a.x-8) < 0.01 && math.Abs(s.spots[1].y-a.y) < 1e-3 {
				at := spot{a.x + 4, a.y}
				k := slices.IndexFunc(r.texts, func(w written) bool {
					return len(w.words) == 1 && math.Hypot(w.at.x-at.x-2.6, w.at.y-at.y-2.6) < 1.5
				})
				if k < 0 {
					t.Errorf("sheet %d: a cross without a letter at %v", i+1, at)
					continue
				}
				from := spot{at.x - large[0].x, at.y - (large[0].y+large[1].y)/2}
				other, known := crosses[r.texts[k].words]
				if crosses[r.texts[k].words] = from; known {
					if shared++; math.Hypot(other.x-from.x, other.y-from.y) > 0.02 {
						t.Errorf("cross %s is at %v and %v of the cone", r.texts[k].words, other, from)
					}
				}
			}
		}
	}
	if len(crosses) != 2 || shared != 2 {
		t.Errorf("%d crosses, %d of them on two sheets", len(crosses), shared)
	}
	room := box{10, 20, 100, 60}
	for wide, want := range map[float64]int{50: 1, 100: 1, 100.5: 2, 188: 2, 188.5: 3, 276: 3} { // 100, and 88 with each further one
		if parts := tilesOf(wide, 60, room); parts.columns != want || parts.rows != 1 {
			t.Errorf("%v mm take %d sheets, want %d", wide, parts.columns, want)
		}
	}
	if parts := tilesOf(150, 100, room); parts.columns != 2 || parts.rows != 2 || parts.corner(0, 0, 100) != (spot{0, 40}) || parts.corner(1, 1, 100) != (spot{88, -8}) || len(parts.crosses(100)) != 8 {
		t.Errorf("%+v", parts)
	}
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA"} {
		if got := letters(i); got != want {
			t.Errorf("cross %d is %s, want %s", i, got, want)
		}
	}
}

// A drawing of very many sheets is refused, with their number: 4.55 m and 911 rows.
func TestMostSheets(t *testing.T) {
	st := longCone(t, 100)
	fine, err := st.Fine(910)
	if err != nil {
		t.Fatal(err)
	}
	st.Rows = fine
	if _, err := Cone(st, paper(t, "A4"), canvas.Form{Format: "png"}); err == nil || !strings.Contains(err.Error(), "sheets of A4 at true size; want 24 at the most: a larger paper, or fewer rows") {
		t.Errorf("%v", err)
	}
	if list, err := Cone(st, paper(t, "A3"), canvas.Form{Format: "png"}); err != nil || len(list) < 12 || len(list) > MostSheets {
		t.Errorf("%d sheets of A3, %v", len(list), err)
	}
}

// Every row stands on one sheet, at any step, and nothing runs off the paper.
func TestSheetsHoldAll(t *testing.T) {
	for _, c := range []struct {
		name   string
		number int
		step   float64
	}{{"eight-day", 0, 0.05}, {"three-trains", 1, 1}, {"three-trains", 2, 0.25}, {"too-strong", 0, 1}, {"too-weak", 0, 0.5}} {
		st := study(t, c.name, c.number, cut.Options{Step: c.step})
		for _, p := range Papers() {
			found := map[string]int{}
			for i, file := range files(t, st, p.Name, "svg") {
				r := readSVG(t, file)
				for _, row := range r.rows() {
					for _, one := range st.Rows {
						if want := strings.Join(cells(&one)[:4], " "); strings.Contains(" "+row+" ", " "+want+" ") {
							found[want]++
						}
					}
				}
				for _, s := range r.strokes {
					for _, at := range s.spots {
						if at.x < edge-1 || at.x > r.width-edge+1 || at.y < edge-1 || at.y > r.height-edge+1 {
							t.Fatalf("%s on %s, sheet %d: a line at %v", c.name, p.Name, i+1, at)
						}
					}
				}
				for _, w := range r.texts {
					if w.at.x < edge-3 || w.at.x > r.width-edge || w.at.y < edge-1 || w.at.y > r.height-edge {
						t.Errorf("%s on %s, sheet %d: %q at %v", c.name, p.Name, i+1, w.words, w.at)
					}
				}
			}
			if len(found) != len(st.Rows) {
				t.Errorf("%s on %s: %d of %d rows", c.name, p.Name, len(found), len(st.Rows))
			}
			for row, n := range found {
				if n != 1 {
					t.Errorf("%s on %s: %s stands %d times", c.name, p.Name, row, n)
				}
			}
		}
	}
}

// A PNG of a sheet has 300 dots to the inch.
func TestPixels(t *testing.T) {
	picture, err := png.Decode(bytes.NewReader(files(t, study(t, "strike-quick", 0, cut.Options{}), "letter", "png")[0]))
	if err != nil || picture.Bounds().Dx() != 3300 || picture.Bounds().Dy() != 2550 {
		t.Errorf("%v, %v", picture.Bounds(), err)
	}
}

// The section of the groove: as deep as told in its middle and nothing at its edges, an arc
// through both; deeper than half its width, a half circle with straight sides.
func TestGrooveSection(t *testing.T) {
	for _, c := range []struct {
		g                    cut.Groove
		radius, quarter, rim float64
	}{
		// r = (0.8² + 0.4²)/(2·0.4) = 1, and a quarter of the width off the middle 0.4 − (1 − √(1 − 0.4²)).
		{cut.Groove{Width: 1.6, Depth: 0.4}, 1, 0.4 - (1 - math.Sqrt(0.84)), 0},
		{cut.Groove{Width: 1.6, Depth: 0.8}, 0.8, 0.8 * math.Sqrt(0.75), 0},
		{cut.Groove{Width: 1.6, Depth: 1.1}, 0.8, 0.3 + 0.8*math.Sqrt(0.75), 0.3},
		{cut.Groove{Width: 1.6, Depth: 0.8, Square: true}, 0.8, 0.8, 0.8},
	} {
		if got := []float64{bottom(&c.g), below(&c.g, 0), below(&c.g, 0.4), below(&c.g, -0.4), below(&c.g, 0.8)}; math.Abs(got[0]-c.radius) > 1e-12 ||
			math.Abs(got[1]-c.g.Depth) > 1e-12 || math.Abs(got[2]-c.quarter) > 1e-12 || got[3] != got[2] || math.Abs(got[4]-c.rim) > 1e-7 {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// The arrow turns the fusee so that the line goes up the groove as it is drawn: wound, what
// lies nearer the small end comes to where the line runs on. Seen from the small end, with the
// side that is up on the sheet up, the side towards the eye of the sheet is at the right.
func TestWayOfWinding(t *testing.T) {
	for hand, want := range map[string]string{"right": "wind clockwise", "left": "wind anticlockwise"} {
		const pitch = "pitch_mm           = 2.2"
		st := studyOf(t, "eight-day", pitch, "hand = \""+hand+"\"\n"+pitch)
		c := &st.Cut.Drive.Cone
		near := (&sheet{scale: 1}).nearSide(spot{}, c, 0, 0, 3)
		clockwise := func(i int) float64 {
			r := 1e3 * over(c, 0, near[i].x/1e3)
			return math.Atan2(math.Sqrt(math.Max(r*r-near[i].y*near[i].y, 0)), near[i].y)
		}
		for i := 2; i < len(near)-1; i++ { // the place at i−1 is to come to where that at i is
			if turns := clockwise(i) - clockwise(i-1); turns > 0 != (hand == "right") {
				t.Fatalf("%s: %v", hand, turns)
			}
		}
		if got := words.WindingMark(c); !strings.HasPrefix(got, want+",") {
			t.Errorf("%s-hand: %q", hand, got)
		}
	}
}

// The arrow as it is drawn goes round as its words say, of a cone to cut and of one as it is.
func TestArrowOfWinding(t *testing.T) {
	for hand, clockwise := range map[string]bool{"right": true, "left": false} {
		const pitch = "pitch_mm           = 2.2"
		st := studyOf(t, "eight-day", pitch, "hand = \""+hand+"\"\n"+pitch)
		for _, st.Anyway = range []bool{true, false} {
			arrows := 0
			for _, s := range readSVG(t, files(t, st, "A4", "svg")[0]).strokes {
				if len(s.spots) != 49 || s.grey {
					continue
				}
				around := 0.0 // twice the area swept, by sense
				for i := 1; i < len(s.spots); i++ {
					around += s.spots[i-1].x*s.spots[i].y - s.spots[i].x*s.spots[i-1].y
				}
				around += s.spots[48].x*s.spots[0].y - s.spots[0].x*s.spots[48].y
				if arrows++; around < 0 != clockwise {
					t.Errorf("%s-hand, anyway %v: the arrow goes the other way", hand, st.Anyway)
				}
			}
			if arrows != 1 {
				t.Errorf("%s-hand, anyway %v: %d arrows", hand, st.Anyway, arrows)
			}
		}
	}
}
