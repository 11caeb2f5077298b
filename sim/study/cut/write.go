package cut

import (
	"encoding/csv"
	"io"
	"math"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

type number = text.Number

type wayJSON struct {
	SetUp      number  `json:"set_up_turns"`
	Unevenness number  `json:"unevenness"`
	Mean       number  `json:"mean"`
	Min        number  `json:"min"`
	Reserve    number  `json:"reserve_min"`
	Verdict    *string `json:"verdict"`
	Lost       number  `json:"turns_lost"`
	Spare      number  `json:"turns_spare"`
	Removed    number  `json:"removed_mm3"`
	Touch      number  `json:"touches_at_turn"`
	Fault      *string `json:"fault"`
}

type turnJSON struct {
	Turn     number `json:"fusee_turn"`
	Along    number `json:"along_mm"`
	Diameter number `json:"diameter_mm"`
	Now      number `json:"now_mm"`
	Remove   number `json:"remove_mm"`
	Before   number `json:"torque_before_nm"`
	Torque   number `json:"torque_nm"`
	Span     number `json:"free_span_mm"`
	Fleet    number `json:"fleet_angle_deg"`
}

type offJSON struct {
	Unevenness number  `json:"unevenness"`
	Mean       number  `json:"mean"`
	Lost       number  `json:"turns_lost"`
	Fault      *string `json:"fault"`
}

type grooveJSON struct {
	Square bool   `json:"square"`
	Width  number `json:"width_mm"`
	Depth  number `json:"depth_mm"`
	Land   number `json:"land_mm"`
}

type sensitivityJSON struct {
	By      number  `json:"by_mm"`
	Thinner offJSON `json:"thinner"`
	Thicker offJSON `json:"thicker"`
}

type studyJSON struct {
	Train         string          `json:"train"`
	FromBlank     bool            `json:"from_blank"`
	Suits         string          `json:"suits"`
	Nothing       bool            `json:"nothing_to_cut"`
	Advised       bool            `json:"cutting_advised"`
	Refused       *string         `json:"cannot_be_cut"`
	UnevennessNow number          `json:"unevenness_now"`
	Unevenness    number          `json:"unevenness_after"`
	SetUp         number          `json:"set_up_turns"`
	Line          number          `json:"line_mm"`
	Span          number          `json:"free_span_mm"`
	Room          number          `json:"barrel_room_mm"`
	Spread        number          `json:"spread_mm"`
	Fleet         number          `json:"max_fleet_angle_deg"`
	Need          number          `json:"least_torque_nm"`
	Whole         number          `json:"unevenness_at_whole_turns"`
	AsItIs        wayJSON         `json:"as_it_is"`
	BestSetUp     wayJSON         `json:"best_set_up"`
	Present       *wayJSON        `json:"cut_present_set_up"`
	Least         *wayJSON        `json:"cut_least_metal"`
	After         wayJSON         `json:"after"`
	Groove        grooveJSON      `json:"groove"`
	Sensitivity   sensitivityJSON `json:"thickness"`
	Turns         []turnJSON      `json:"turns"`
	Warnings      []string        `json:"warnings"`
	Cautions      []string        `json:"cautions"`
}

// JSON writes the machine-readable study.
func JSON(w io.Writer, st *Study) error {
	s := &st.Sensitivity
	doc := studyJSON{
		Train: st.Train.Name, FromBlank: st.FromBlank, Suits: st.Suits().String(), Nothing: st.Nothing, Advised: st.Advised(),
		UnevennessNow: number(settled(st.AsItIs.Torque.Unevenness)), Unevenness: number(settled(st.After.Torque.Unevenness)), SetUp: number(st.After.SetUp),
		Line: number(st.Line.OnFusee * 1e3), Span: number(st.Span * 1e3), Room: number(st.Line.Room * 1e3), Spread: number(st.Line.Spread * 1e3),
		Fleet: text.Null, Need: number(st.Need), Whole: number(st.Whole),
		AsItIs: wayOut(&st.AsItIs), BestSetUp: wayOut(&st.SetUp), After: wayOut(&st.After),
		Groove:      grooveJSON{st.Groove.Square, number(st.Groove.Width * 1e3), number(st.Groove.Depth * 1e3), number(st.Groove.Land * 1e3)},
		Sensitivity: sensitivityJSON{number(s.By * 1e3), s.Thinner.out(), s.Thicker.out()},
		Turns:       make([]turnJSON, len(st.Rows)), Warnings: st.Warnings(), Cautions: st.Cautions(),
	}
	if st.Line.FleetKnown {
		doc.Fleet = number(st.Line.MaxFleet.Degrees())
	}
	if st.Refused != "" {
		doc.Refused, doc.Unevenness = &st.Refused, text.Null
	}
	if !st.FromBlank {
		present, least := wayOut(&st.Present), wayOut(&st.Least)
		doc.Present, doc.Least = &present, &least
	}
	for i := range st.Rows {
		f := st.Rows[i].figures()
		doc.Turns[i] = turnJSON{number(f[0]), number(f[1]), number(f[2]), number(f[3]), number(f[4]), number(f[5]), number(f[6]), number(f[7]), number(f[8])}
	}
	return text.JSON(w, doc)
}

func wayOut(w *Way) wayJSON {
	if w.Fault != "" {
		none := text.Null
		return wayJSON{none, none, none, none, none, nil, none, none, none, none, &w.Fault}
	}
	return wayJSON{number(w.SetUp), number(settled(w.Torque.Unevenness)), number(w.Torque.Mean), number(w.Torque.Min), number(w.Reserve.Min),
		text.Code(w.Verdict), number(w.Lost), number(settled(w.Spare)), number(w.Removed * 1e9), number(w.Touch), nil}
}

func (o *Off) out() offJSON {
	j := offJSON{number(o.Unevenness), number(o.Mean), number(o.Lost), nil}
	if o.Fault != "" {
		j.Fault = &o.Fault
	}
	return j
}

// figures are those of the CSV's columns, lengths to 1e-9 mm.
func (r *Row) figures() [9]float64 {
	diameter, now := settled(r.Diameter*1e3), settled(r.Now*1e3)
	return [9]float64{settled(r.FuseeTurn), settled(r.Along * 1e3), diameter, now, settled(now - diameter), r.TorqueBefore, r.Torque, r.Span * 1e3, words.Degrees(r.Fleet)}
}

// LeastCount is what no gauge tells from nothing (m): a ten thousandth of a millimetre.
const LeastCount = 1e-7

// settled is a figure to 1e-9: what is less is rounding.
func settled(v float64) float64 {
	if v = math.Round(v*1e9) / 1e9; v == 0 {
		return 0 // nor −0
	}
	return v
}

// clean is a length without the rounding about 0.
func clean(v float64) float64 {
	if math.Abs(v) < 1e-12 {
		return 0
	}
	return v
}

// CSV writes the coordinates of the cone, comma-separated with a header (RFC 4180).
// What does not apply is empty.
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"fusee_turn", "along_mm", "diameter_mm", "now_mm", "remove_mm", "torque_before_nm", "torque_nm", "free_span_mm", "fleet_angle_deg"}}
	for i := range st.Rows {
		var cells []string
		for _, v := range st.Rows[i].figures() {
			cells = append(cells, text.Cell(v))
		}
		lines = append(lines, cells)
	}
	return out.WriteAll(lines)
}
