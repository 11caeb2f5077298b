package data

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"
)

// Cut is the document of the cone for a spring; its rows are the coordinates of the
// cone.
func Cut() Document[cut.Study] {
	own := func(st *cut.Study) *sim.Digest { return &st.Now }
	now := func(st *cut.Study) *sim.Digest { return st.Now.Where(st.Wanted == nil) }
	turns := func(st *cut.Study) []cut.Row { return st.Rows }
	return Document[cut.Study]{Object[cut.Study]{
		trainOf(own),
		Flag("from_blank", "a new cone, rather than one cut within the present one", func(st *cut.Study) bool { return st.FromBlank }),
		Text("suits", "whether the cone suits the spring: as it is, with another set-up, with a new cone, no, or not judged", func(st *cut.Study) string { return st.Suits().String() }),
		Text("answer", "the answer in words", func(st *cut.Study) string { return words.CutAnswer(st, rules.Code.String) }),
		Flag("nothing_to_cut", "there is nothing to cut, or nothing can be cut", func(st *cut.Study) bool { return st.Nothing }),
		Flag("cutting_advised", "cutting is advised", (*cut.Study).Advised),
		Text("advice", "whether cutting is advised, with the rule and its figure", words.CutAdvice),
		Text("cannot_be_cut", "why no even cone can be cut within the present one", words.CutRefused),
		Sub("now", "as it is; null of a cone that is wanted", Digest(), now),
		Sub("set_up", "with the set-up advised, else the least uneven, and nothing cut; null when the fusee cannot be wound with any", Digest(), func(st *cut.Study) *sim.Digest { return only(st.Wanted == nil, st.SetUp()) }),
		Sub("cut_present_set_up", "cut, with the present set-up; null from blank", way(), func(st *cut.Study) *cut.Way { return only(!st.FromBlank, &st.Present) }),
		Sub("cut_least_metal", "cut, with the set-up in whole clicks that takes the least metal off; null from blank", way(), func(st *cut.Study) *cut.Way { return only(!st.FromBlank, &st.Least) }),
		Sub("after", "with the cone of the turns below; null when none can be cut", way(), func(st *cut.Study) *cut.Way { return only(st.Refused == nil && !st.None(), &st.After) }),
		Number("line_mm", "line on the fusee", "mm", func(st *cut.Study) float64 { return st.After.Line.OnFusee * 1e3 }),
		Number("free_span_mm", "line between fusee and barrel when wound", "mm", func(st *cut.Study) float64 { return st.Span * 1e3 }),
		Number("unevenness_at_whole_turns", "unevenness of a cone turned to the diameters at whole turns and joined smoothly in between", "", func(st *cut.Study) float64 { return st.Whole }),
		Sub("groove", "for the line", Object[cut.Groove]{
			Flag("square", "for a chain; else round", func(g *cut.Groove) bool { return g.Square }),
			Number("width_mm", "width", "mm", func(g *cut.Groove) float64 { return g.Width * 1e3 }),
			Number("depth_mm", "depth, of its bottom below the lands", "mm", func(g *cut.Groove) float64 { return g.Depth * 1e3 }),
			Number("land_mm", "left between two turns of the groove", "mm", func(g *cut.Groove) float64 { return g.Land * 1e3 }),
		}, func(st *cut.Study) *cut.Groove { return only(!st.None(), &st.Groove) }),
		Sub("blank", "what the groove is cut into", Object[cut.Blank]{
			Number("end_margin_mm", "bare cone beyond the groove, at each end", "mm", func(b *cut.Blank) float64 { return b.Margin * 1e3 }),
			Number("height_mm", "from face to face", "mm", func(b *cut.Blank) float64 { return b.Height * 1e3 }),
		}, func(st *cut.Study) *cut.Blank { return only(!st.None(), &st.Blank) }),
		Sub("thickness", "with the cone below and a spring off its thickness", Object[cut.Sensitivity]{
			Number("by_mm", "off by", "mm", func(s *cut.Sensitivity) float64 { return s.By * 1e3 }),
			Sub("thinner", "thinner by that", off(), func(s *cut.Sensitivity) *cut.Off { return &s.Thinner }),
			Sub("thicker", "thicker by that", off(), func(s *cut.Sensitivity) *cut.Off { return &s.Thicker }),
		}, func(st *cut.Study) *cut.Sensitivity { return only(!st.None(), &st.Sensitivity) }),
		Sub("wanted", "the search for a cone that is not there yet; null of a cone that is there", wanted(), func(st *cut.Study) *cut.Wanted { return st.Wanted }),
		List("turns", "the cone, turn by turn", cutRow(), turns),
		Texts("warnings", "what is to be minded before the cone is cut", words.CutWarns),
		Texts("cautions", "what to mind with the spring and at the lathe", words.CutCautions),
	}, rows(cutRow(), turns)}
}

// way is a run with a cone that is cut: RUN, what comes off, and why it cannot be had.
func way() Object[cut.Way] {
	had := append(Within(Digest(), func(w *cut.Way) *sim.Digest { return &w.Digest }),
		Number("removed_mm3", "metal that comes off; null of a new cone", "mm³", func(w *cut.Way) float64 { return w.Removed * 1e9 }),
		Number("removed_share", "share of the present diameter that comes off at the most", "", func(w *cut.Way) float64 { return w.Share }),
		Number("touches_at_turn", "fusee turn at which nothing comes off", "turns", func(w *cut.Way) float64 { return w.Touch }))
	return append(Within(had, func(w *cut.Way) *cut.Way { return only(w.Fault == nil, w) }),
		Text("fault", "why it cannot be had", func(w *cut.Way) string { return words.Why(w.Fault) }))
}

func off() Object[cut.Off] {
	return append(Within(Digest(), func(o *cut.Off) *sim.Digest { return o.Digest.Where(o.Fault == nil) }),
		Text("fault", "why it cannot be built", func(o *cut.Off) string { return words.Why(o.Fault) }))
}

// cutRow is the cone at one fusee turn, its lengths to 1e-9 mm.
func cutRow() Object[cut.Row] {
	length := func(name, words string, of func(*cut.Row) float64) Member[cut.Row] {
		return Number(name, words, "mm", func(r *cut.Row) float64 { return settled(of(r)) })
	}
	return Object[cut.Row]{
		Number("fusee_turn", "fusee turn paid out", "turns", func(r *cut.Row) float64 { return settled(r.FuseeTurn) }),
		length("along_mm", "along the axis, from the small end", func(r *cut.Row) float64 { return r.Along * 1e3 }),
		length("from_great_wheel_mm", "along the axis, from the face of the blank at the large end, which carries the great wheel", func(r *cut.Row) float64 { return r.FromWheel * 1e3 }),
		length("diameter_mm", "diameter over the groove bottom, to cut", func(r *cut.Row) float64 { return r.Diameter * 1e3 }),
		length("over_lands_mm", "diameter over the lands, to cut", func(r *cut.Row) float64 { return r.OverLands * 1e3 }),
		length("now_mm", "diameter over the groove bottom as it is", func(r *cut.Row) float64 { return r.Now * 1e3 }),
		length("remove_mm", "diameter that comes off; below 0: metal is missing", func(r *cut.Row) float64 { return settled(r.Now*1e3) - settled(r.Diameter*1e3) }),
		Number("now_fusee_torque_nm", "torque at the fusee as it is", "N·m", func(r *cut.Row) float64 { return r.TorqueBefore }),
		Number("fusee_torque_nm", "torque at the fusee, once cut", "N·m", func(r *cut.Row) float64 { return r.Torque }),
		length("free_span_mm", "line between fusee and barrel, once cut", func(r *cut.Row) float64 { return r.Span * 1e3 }),
		Number("fleet_angle_deg", "fleet angle, once cut", "°", func(r *cut.Row) float64 { return words.Degrees(r.Fleet) }),
	}
}

// settled is a figure to 1e-9: what is less is rounding.
func settled(v float64) float64 {
	if v = math.Round(v*1e9) / 1e9; v == 0 {
		return 0 // nor −0
	}
	return v
}
