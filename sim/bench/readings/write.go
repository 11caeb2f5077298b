package readings

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"

	"evenpull/sim/bench/measure"
	"evenpull/sim/show/text"
)

type number = text.Number

type studyJSON struct {
	Title    string       `json:"title"`
	Scenario *string      `json:"scenario"`
	Needs    []needJSON   `json:"needs"`
	Supplies []supplyJSON `json:"supplies"`
	Fit      *fitJSON     `json:"fit"`
	Cautions []string     `json:"cautions"`
}

type needJSON struct {
	Train       string      `json:"train"`
	Least       number      `json:"least_torque_nm"`
	Between     [2]number   `json:"between"`
	Uncertainty number      `json:"standard_uncertainty_nm"`
	Trials      []trialJSON `json:"trials"`
	Law         *lawJSON    `json:"fly_law"`
	Wanted      []paceJSON  `json:"wanted"`
	Notes       []string    `json:"notes"`
}

type trialJSON struct {
	Mass     number `json:"mass_g"`
	Torque   number `json:"torque_nm"`
	Runs     bool   `json:"runs"`
	Interval number `json:"blow_interval_s"`
}

// lawJSON is 1/interval² = slope × (torque − threshold).
type lawJSON struct {
	Slope     number `json:"slope_per_s2_nm"`
	Threshold number `json:"threshold_nm"`
	R2        number `json:"r2"`
}

type paceJSON struct {
	Interval number `json:"blow_interval_s"`
	Torque   number `json:"torque_nm"`
	How      string `json:"how"`
}

type supplyJSON struct {
	Train      string         `json:"train"`
	Spring     string         `json:"spring"`
	Mean       number         `json:"mean_nm"`
	HalfWidth  number         `json:"half_width_95_nm"`
	Unevenness number         `json:"unevenness"`
	Efficiency number         `json:"efficiency"`
	Turns      []turnJSON     `json:"turns"`
	Winding    []turnJSON     `json:"winding"`
	Predicted  *predictedJSON `json:"predicted"`
	Refused    *string        `json:"not_predicted"`
	Notes      []string       `json:"notes"`
}

type turnJSON struct {
	FuseeTurn int    `json:"fusee_turn"`
	Mean      number `json:"mean_nm"`
	SD        number `json:"sd_nm"`
	N         int    `json:"n"`
	HalfWidth number `json:"half_width_95_nm"`
	Outlier   bool   `json:"outlier"`
}

type predictedJSON struct {
	RMS       number      `json:"rms_nm"`
	ChiSquare number      `json:"chi2_per_dof"`
	Ratio     number      `json:"measured_over_predicted"`
	Turns     []pointJSON `json:"turns"`
}

type pointJSON struct {
	FuseeTurn int    `json:"fusee_turn"`
	Winding   bool   `json:"winding"`
	Predicted number `json:"predicted_nm"`
	Residual  number `json:"residual_nm"`
}

type fitJSON struct {
	Train       string      `json:"train"`
	Spring      string      `json:"spring"`
	Values      []valueJSON `json:"values"`
	Correlation [][]number  `json:"correlation"`
	ChiSquare   number      `json:"chi2_per_dof"`
	RMS         number      `json:"rms_nm"`
	Status      string      `json:"status"`
	Notes       []string    `json:"notes"`
}

type valueJSON struct {
	Key       string `json:"key"`
	Unit      string `json:"unit"`
	Before    number `json:"before"`
	Value     number `json:"value"`
	SE        number `json:"standard_error"`
	FromMeter number `json:"standard_error_from_meter"`
}

// JSON writes the machine-readable study.
func JSON(w io.Writer, st *Study) error {
	doc := studyJSON{Title: st.Title, Needs: []needJSON{}, Supplies: []supplyJSON{}, Cautions: []string{st.Caution}}
	if st.Scenario != "" {
		doc.Scenario = &st.Scenario
	}
	for i := range st.Needs {
		doc.Needs = append(doc.Needs, needOf(&st.Needs[i], st.Paces[i]))
	}
	for i := range st.Springs {
		doc.Supplies = append(doc.Supplies, st.supply(i))
	}
	if st.Explained != nil {
		doc.Fit = fitOf(st.Explained)
	}
	return text.JSON(w, doc)
}

func needOf(n *measure.Need, paces []Pace) needJSON {
	b := &n.Bracket
	j := needJSON{Train: n.Train, Least: number(b.Least), Between: [2]number{number(b.Between.Lo), number(b.Between.Hi)}, Uncertainty: number(b.Uncertainty), Wanted: []paceJSON{}, Notes: n.Notes()}
	for _, t := range n.Trials {
		j.Trials = append(j.Trials, trialJSON{number(t.Mass * 1e3), number(t.Torque), t.Runs, number(t.Interval)})
	}
	for _, p := range paces {
		j.Wanted = append(j.Wanted, paceJSON{number(p.Interval), number(p.Torque), hows[p.How].code})
	}
	if c := n.Cadence; c != nil {
		j.Law = &lawJSON{number(c.Slope), number(c.Threshold), number(c.R2)}
	}
	return j
}

func (st *Study) supply(i int) supplyJSON {
	s := &st.Springs[i]
	j := supplyJSON{
		Train: s.Train, Spring: s.Spring, Mean: number(s.Mean.Value), HalfWidth: number(s.Mean.HalfWidth), Unevenness: number(s.Unevenness),
		Efficiency: number(s.Efficiency.Mean), Turns: turnsOf(s.Turns), Winding: turnsOf(s.Supply.Winding), Notes: s.Notes(),
	}
	if c := st.comparison(i); c != nil {
		j.Notes = append(j.Notes, c.Notes()...)
		j.Predicted = &predictedJSON{RMS: number(c.RMS), ChiSquare: number(c.ChiSquarePerDOF), Ratio: number(c.Ratio)}
		for k := range c.Points {
			p := &c.Points[k]
			j.Predicted.Turns = append(j.Predicted.Turns, pointJSON{p.FuseeTurn, p.Winding, number(p.Predicted), number(p.Residual())})
		}
	} else if st.Refused != nil {
		j.Refused = &st.Refused[i]
	}
	return j
}

// comparison is that of a spring; nil when there is none.
func (st *Study) comparison(i int) *Comparison {
	if st.Compared == nil {
		return nil
	}
	return st.Compared[i]
}

func turnsOf(turns []measure.Turn) []turnJSON {
	list := make([]turnJSON, len(turns))
	for i := range turns {
		t := &turns[i]
		list[i] = turnJSON{t.FuseeTurn, number(t.Mean), number(t.SD), t.N, number(t.HalfWidth), t.Outlier != nil}
	}
	return list
}

func fitOf(e *Explanation) *fitJSON {
	j := &fitJSON{Train: e.Train, Spring: e.Spring, ChiSquare: number(e.ChiSquarePerDOF), RMS: number(e.RMS), Status: e.Status.String(), Notes: append([]string{}, e.Notes()...)}
	for i := range e.Inputs {
		in := &e.Inputs[i]
		j.Values = append(j.Values, valueJSON{in.Key, in.Unit, number(in.Before), number(in.Value), number(in.StandardError), number(in.FromMeter)})
		row := make([]number, len(e.Correlation[i]))
		for k, v := range e.Correlation[i] {
			row[k] = number(v)
		}
		j.Correlation = append(j.Correlation, row)
	}
	return j
}

// CSV writes the turns of every spring, comma-separated with a header (RFC 4180).
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"train", "spring", "winding", "fusee_turn", "n", "mean_nm", "sd_nm", "half_width_95_nm", "predicted_nm", "residual_nm"}}
	for i := range st.Springs {
		s := &st.Springs[i]
		k := 0
		for _, way := range []struct {
			turns   []measure.Turn
			winding bool
		}{{s.Turns, false}, {s.Supply.Winding, true}} {
			for _, t := range way.turns {
				predicted := math.NaN()
				if c := st.comparison(i); c != nil {
					predicted = c.Points[k].Predicted
				}
				k++
				lines = append(lines, []string{s.Train, s.Spring, fmt.Sprint(way.winding), fmt.Sprint(t.FuseeTurn), fmt.Sprint(t.N), text.Cell(t.Mean),
					text.Cell(t.SD), text.Cell(t.HalfWidth), text.Cell(predicted), text.Cell(t.Mean - predicted)})
			}
		}
	}
	return out.WriteAll(lines)
}
