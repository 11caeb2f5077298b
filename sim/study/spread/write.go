package spread

import (
	"encoding/csv"
	"io"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/show/text"
)

type number = text.Number

type studyJSON struct {
	Train    string                `json:"train"`
	Runs     int                   `json:"runs"`
	Asked    int                   `json:"runs_asked"`
	Stopped  bool                  `json:"stopped"`
	Seed     int64                 `json:"seed"`
	Hold     string                `json:"hold"`
	Failed   int                   `json:"failed"`
	Failures []failureJSON         `json:"failures"`
	Inputs   []inputJSON           `json:"inputs"`
	DeltaSD  number                `json:"delta_sd"`
	Results  map[string]resultJSON `json:"results"`
	Verdicts map[string]number     `json:"verdicts"`
	Cautions []string              `json:"cautions"`
}

type failureJSON struct {
	Key  string `json:"key"`
	Why  string `json:"why"`
	Runs int    `json:"runs"`
}

type inputJSON struct {
	Key       string `json:"key"`
	Unit      string `json:"unit"`
	Value     number `json:"value"`
	PlusMinus number `json:"plus_minus"`
	Shape     string `json:"shape"`
	Share     number `json:"share_of_variance"`
}

type resultJSON struct {
	Own      number `json:"own"`
	N        int    `json:"n"`
	Mean     number `json:"mean"`
	SD       number `json:"sd"`
	Min      number `json:"min"`
	P05      number `json:"p05"`
	P25      number `json:"p25"`
	P50      number `json:"p50"`
	P75      number `json:"p75"`
	P95      number `json:"p95"`
	Max      number `json:"max"`
	Fineness number `json:"percentile_error"`
}

// JSON writes the machine-readable study. The shares of the verdicts are of the
// runs that could be built; "unjudged" stands for no verdict.
func JSON(w io.Writer, st *Study) error {
	doc := studyJSON{
		Train: st.Train.Name, Runs: st.Runs, Asked: st.Asked, Stopped: st.Stopped(), Seed: st.Seed, Hold: st.Hold.String(),
		Failed: st.Failed, Failures: []failureJSON{}, DeltaSD: number(st.DeltaSD),
		Results: map[string]resultJSON{}, Verdicts: map[string]number{}, Cautions: []string{st.Caution},
	}
	for _, f := range st.Failures {
		doc.Failures = append(doc.Failures, failureJSON(f))
	}
	for _, in := range st.Inputs {
		doc.Inputs = append(doc.Inputs, inputJSON{in.Key, in.Unit, number(in.Value), number(in.PlusMinus), in.Shape, number(in.Share)})
	}
	for i := range st.Results {
		d := &st.Results[i]
		lo, hi := d.Range()
		q := func(p float64) number { return number(d.Quantile(p)) }
		doc.Results[d.Of.Name] = resultJSON{number(d.Own), d.N(), number(d.Mean()), number(d.SD()), number(lo),
			q(0.05), q(0.25), q(0.5), q(0.75), q(0.95), number(hi), number(d.Fineness())}
	}
	for c, n := range st.Verdicts {
		doc.Verdicts[codeName(c)] = number(float64(n) / float64(st.Built()))
	}
	return text.JSON(w, doc)
}

func codeName(c rules.Code) string {
	if c == rules.Unjudged {
		return "unjudged"
	}
	return c.String()
}

// CSV writes a line for every result, comma-separated with a header (RFC 4180).
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"result", "own", "n", "mean", "sd", "min", "p05", "p25", "p50", "p75", "p95", "max", "percentile_error"}}
	for i := range st.Results {
		d := &st.Results[i]
		lo, hi := d.Range()
		line := []string{d.Of.Name, text.Cell(d.Own), text.Cell(float64(d.N()))}
		for _, v := range []float64{d.Mean(), d.SD(), lo, d.Quantile(0.05), d.Quantile(0.25), d.Quantile(0.5), d.Quantile(0.75), d.Quantile(0.95), hi, d.Fineness()} {
			line = append(line, text.Cell(v))
		}
		lines = append(lines, line)
	}
	return out.WriteAll(lines)
}

// ownShare is the share of the runs that have the verdict of the scenario as it
// is; NaN when none could be built.
func (st *Study) ownShare() float64 {
	if st.Built() == 0 {
		return math.NaN()
	}
	return float64(st.Verdicts[st.Own]) / float64(st.Built())
}
