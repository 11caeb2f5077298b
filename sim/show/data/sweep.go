package data

import (
	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"
)

// Sweep is the document of a sweep; its rows are the points.
func Sweep() Document[sweep.Study] {
	own := func(st *sweep.Study) *sim.Digest { return st.Own.Digest }
	points := func(st *sweep.Study) []sweep.Point { return st.Points }
	second := Within(Object[sweep.Axis]{
		Text("against", "the second input of a map", func(a *sweep.Axis) string { return a.Key }),
		Text("unit2", "its unit", func(a *sweep.Axis) string { return a.Quantity.Unit }),
	}, func(st *sweep.Study) *sweep.Axis { return st.Against })
	return Document[sweep.Study]{Object[sweep.Study]{
		trainOf(own),
		Text("over", "the input that is swept", func(st *sweep.Study) string { return st.Over.Key }),
		Text("unit", "its unit", func(st *sweep.Study) string { return st.Over.Quantity.Unit }),
		Number("value", "that the scenario has of it", "", func(st *sweep.Study) float64 { return st.Own.Value }),
		second[0],
		second[1],
		Number("value2", "that the scenario has of it", "", func(st *sweep.Study) float64 { return st.Own.Value2 }),
		Text("hold", "what of the strip stays: length or fill", func(st *sweep.Study) string { return st.Hold.String() }),
		Text("of", "the result that the exponent is of", func(st *sweep.Study) string { return st.Of.Name }),
		Number("exponent", "power of the input with which the result goes at the scenario's own value", "", func(st *sweep.Study) float64 { return st.Exponent.Value }),
		Number("exponent_error", "error that the exponent may have", "", func(st *sweep.Study) float64 { return st.Exponent.Error }),
		Sub("own", "the scenario as it is", sweepPoint(), func(st *sweep.Study) *sweep.Point { return &st.Own }),
		List("verdict_changes", "where the verdict changes, over one input", Object[sweep.Change]{
			Number("at", "value of the input", "", func(c *sweep.Change) float64 { return c.At }),
			Text("below", "the code below it", func(c *sweep.Change) string { return c.Below.String() }),
			Text("above", "the code above it", func(c *sweep.Change) string { return c.Above.String() }),
		}, func(st *sweep.Study) []sweep.Change { return st.Changes }),
		List("limits", "where the train can no longer be built, over one input", Object[sweep.Limit]{
			Number("at", "value of the input", "", func(l *sweep.Limit) float64 { return l.At }),
			Text("cannot_be_built", "above or below", func(l *sweep.Limit) string { return words.Side(l.Above) }),
			Text("fault", "why", func(l *sweep.Limit) string { return l.Fault }),
		}, func(st *sweep.Study) []sweep.Limit { return st.Limits }),
		List("points", "at every value; of a map, every value of the first input for the first of the second, and so on", sweepPoint(), points),
		cautionsOf(own),
	}, rows(sweepPoint(), points).with(func(st *sweep.Study) []Field {
		of := func(name string, a *sweep.Axis) Field {
			return Field{name, "number", a.Quantity.Unit, a.Quantity.Words + ", " + a.Key}
		}
		if st.Against == nil {
			return []Field{of("value", &st.Over)}
		}
		return []Field{of("value", &st.Over), of("value2", st.Against)}
	})}
}

func sweepPoint() Object[sweep.Point] {
	return withRun((*sweep.Point).Run,
		Number("value", "of the input", "", func(p *sweep.Point) float64 { return p.Value }),
		Number("value2", "of the second input of a map", "", func(p *sweep.Point) float64 { return p.Value2 }),
		Text("fault", "why the train cannot be built; the rest is null then", func(p *sweep.Point) string { return p.Fault }))
}
