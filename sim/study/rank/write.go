package rank

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

type number = text.Number

type studyJSON struct {
	Train  string `json:"train"`
	Change number `json:"change"`
	rankingJSON
	Others   []rankingJSON `json:"others"`
	Cautions []string      `json:"cautions"`
}

type rankingJSON struct {
	Of     string      `json:"of"`
	Result number      `json:"result"`
	Inputs []inputJSON `json:"inputs"`
}

type inputJSON struct {
	Key        string `json:"key"`
	Unit       string `json:"unit"`
	Value      number `json:"value"`
	Elasticity number `json:"elasticity"`
	Error      number `json:"elasticity_error"`
	By         number `json:"by"`
	Tolerance  bool   `json:"tolerance"`
	Minus      number `json:"minus"`
	Plus       number `json:"plus"`
}

// JSON writes the machine-readable study: the first ranking at the top, the
// others below "others".
func JSON(w io.Writer, st *Study) error {
	doc := studyJSON{Train: st.Train.Name, Change: number(st.Change), Others: []rankingJSON{}, Cautions: []string{st.Caution}}
	for i := range st.Rankings {
		r := &st.Rankings[i]
		j := rankingJSON{Of: r.Of.Name, Result: number(r.Value), Inputs: make([]inputJSON, len(r.Inputs))}
		for k, in := range r.Inputs {
			j.Inputs[k] = inputJSON{in.Key, in.Unit, number(in.Value), number(in.Elasticity.Value), number(in.Elasticity.Error),
				number(in.By), in.Tolerated, number(in.Minus), number(in.Plus)}
		}
		if i == 0 {
			doc.rankingJSON = j
		} else {
			doc.Others = append(doc.Others, j)
		}
	}
	return text.JSON(w, doc)
}

// CSV writes every input of every ranking, comma-separated with a header (RFC
// 4180).
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"of", "result", "key", "unit", "value", "elasticity", "elasticity_error", "by", "tolerance", "minus", "plus"}}
	for i := range st.Rankings {
		r := &st.Rankings[i]
		for _, in := range r.Inputs {
			lines = append(lines, []string{r.Of.Name, text.Cell(r.Value), in.Key, in.Unit, text.Cell(in.Value), text.Cell(in.Elasticity.Value),
				text.Cell(in.Elasticity.Error), text.Cell(in.By), fmt.Sprint(in.Tolerated), text.Cell(in.Minus), text.Cell(in.Plus)})
		}
	}
	return out.WriteAll(lines)
}

// Text writes a study for people.
type Text struct{ Colour bool }

// Write writes it: for each result the inputs that move it, the one it hangs on
// most first.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	for i := range st.Rankings {
		if i > 0 {
			p.Line("")
		}
		st.ranking(p, &st.Rankings[i])
	}
	p.Line("")
	p.Wrap("", fmt.Sprintf("Elasticity: how many %% the result changes for 1 %% more of the input. The last two columns move each input by %s, or by its own tolerance, marked ±. Whole numbers, such as teeth, are left out.", fmt.Sprintf("%.4g %%", 100*st.Change)))
	p.Line("")
	p.Wrap("Caution: ", st.Caution)
	return p.Flush()
}

func (st *Study) ranking(p *text.Page, r *Ranking) {
	p.Wrap("", fmt.Sprintf("%s train: the %s is %s; it hangs on", st.Train.Name, r.Of.Words, withUnit(r, r.Value)))
	var g text.Grid
	g.Row("  input", "value", "", "elasticity", "", "moved by", "less makes", "more makes")
	var less []string
	shown, idle := 0, 0
	for i := range r.Inputs {
		in := &r.Inputs[i]
		switch {
		case !r.Moves(in):
			idle++
		case shown >= textRows:
			less = append(less, st.short(in.Key)+",")
		default:
			shown++
			g.Row("  "+st.short(in.Key), fmt.Sprintf("%.6g", in.Value), in.Unit, elasticity(in), doubt(in), st.moved(in), change(r, in.Minus), change(r, in.Plus))
		}
	}
	g.Right(1, 3, 5, 6, 7)
	g.Write(p)
	if n := len(less); n > 0 {
		less[n-1] = strings.TrimSuffix(less[n-1], ",")
		p.WrapWords("  less: ", less)
	}
	if idle > 0 {
		p.Line(fmt.Sprintf("  no effect: %d others, which --format csv lists", idle))
	}
}

// textRows is the number of inputs that the text lists with their figures.
const textRows = 16

// short is a key without the train's name.
func (st *Study) short(key string) string { return strings.TrimPrefix(key, st.Train.Name+".") }

func (st *Study) moved(in *Input) string {
	if in.Tolerated {
		return fmt.Sprintf("± %.4g", in.By)
	}
	return fmt.Sprintf("%.4g %%", 100*st.Change)
}

func elasticity(in *Input) string {
	if math.IsNaN(in.Elasticity.Value) {
		return "–"
	}
	return words.Minus(fmt.Sprintf("%+.3f", in.Elasticity.Value))
}

// doubt is the error of an elasticity where it shows in the figures printed.
func doubt(in *Input) string {
	if !(in.Elasticity.Error > 0.0005) {
		return ""
	}
	return "± " + words.Figure(in.Elasticity.Error)
}

// change is a change of the result with its sign, in the result's unit.
func change(r *Ranking, v float64) string {
	switch {
	case math.IsNaN(v):
		return "not built"
	case v > 0:
		return "+" + withUnit(r, v)
	}
	return words.Minus(withUnit(r, v))
}

func withUnit(r *Ranking, v float64) string {
	return strings.TrimSpace(r.Of.Show(v) + " " + r.Of.Unit)
}
