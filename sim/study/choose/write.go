package choose

import (
	"io"

	"evenpull/fusee/mainspring"
	"evenpull/sim/show/text"
)

type number = text.Number

type studyJSON struct {
	Train      string          `json:"train"`
	Target     number          `json:"target_mean_nm"`
	Reserve    number          `json:"reserve_target"`
	Need       number          `json:"least_torque_nm"`
	EndShake   number          `json:"end_shake_mm"`
	Yield      number          `json:"assumed_yield_mpa"` // null: never sets
	Asked      int             `json:"springs"`
	Stopped    bool            `json:"stopped"`
	Order      *string         `json:"order"`
	Tolerance  *toleranceJSON  `json:"tolerance"`
	Present    presentJSON     `json:"present"`
	Ideal      *idealJSON      `json:"ideal"`
	Ideals     []idealJSON     `json:"ideals"`
	Thumb      thumbJSON       `json:"rule_of_thumb"`
	Candidates []candidateJSON `json:"candidates"`
	Notes      []string        `json:"notes"`
	Cautions   []string        `json:"cautions"`
}

type toleranceJSON struct {
	From number `json:"thickness_from_mm"`
	To   number `json:"thickness_to_mm"`
}

type presentJSON struct {
	Width     number  `json:"width_mm"`
	Thickness number  `json:"thickness_mm"`
	Length    number  `json:"length_mm"`
	SetUp     number  `json:"set_up_turns"`
	Mean      number  `json:"mean_nm"`
	Reserve   number  `json:"reserve_mean"`
	Verdict   *string `json:"verdict"`
}

type thumbJSON struct {
	Exponent number   `json:"exponent"`
	Unset    number   `json:"exponent_without_set"`
	Rule     number   `json:"exponent_of_the_rule"`
	Says     []string `json:"says"`
}

type idealJSON struct {
	Thickness  number         `json:"thickness_mm"`
	Width      number         `json:"width_mm"`
	Length     number         `json:"length_mm"`
	Fill       number         `json:"fill"`
	Thumb      number         `json:"rule_of_thumb_thickness_mm"`
	Spacers    number         `json:"spacers_mm"`
	SetUp      number         `json:"set_up_turns"`
	Left       number         `json:"turns_left"`
	Mean       number         `json:"mean_nm"`
	Reserve    number         `json:"reserve_mean"`
	Least      number         `json:"reserve_min"`
	Unevenness number         `json:"unevenness"`
	Verdict    *string        `json:"verdict"`
	Faults     []string       `json:"faults"`
	Tolerance  *toleranceJSON `json:"tolerance"`
	Order      *string        `json:"order"`
	Fault      *string        `json:"fault"`
}

type candidateJSON struct {
	Label      string   `json:"label"`
	Rank       int      `json:"rank"`
	Verdict    *string  `json:"verdict"`
	Refused    *string  `json:"refused"`
	Loses      *string  `json:"loses"`
	Reasons    []string `json:"reasons"`
	Faults     []string `json:"faults"`
	Width      number   `json:"width_mm"`
	Thickness  number   `json:"thickness_mm"`
	Length     number   `json:"length_mm"`
	CutTo      number   `json:"cut_to_mm"`
	Spacers    number   `json:"spacers_mm"`
	SetUp      number   `json:"set_up_turns"`
	Mean       number   `json:"mean_nm"`
	Reserve    number   `json:"reserve_mean"`
	Least      number   `json:"reserve_min"`
	Unevenness number   `json:"unevenness"`
	Available  number   `json:"turns_available"`
	Left       number   `json:"turns_left"`
	Lost       number   `json:"turns_lost"`
	Stored     number   `json:"stored_energy_j"`
}

// JSON writes the machine-readable study. A spring that cannot be fitted has the
// verdict "refused"; where nothing can be said of it the figures are null.
func JSON(w io.Writer, st *Study) error {
	p := &st.Present
	doc := studyJSON{
		Train: st.Train.Name, Target: number(st.Target.Mean), Reserve: number(st.Target.Reserve), Need: number(st.Target.Need), EndShake: number(st.EndShake),
		Yield: text.Null, Asked: st.Asked, Stopped: st.Stopped(), Order: orNull(st.Order()), Tolerance: st.Tolerance.json(),
		Present: presentJSON{number(p.Width), number(p.Thickness), number(p.Length), number(p.SetUp), number(p.Mean), number(p.Reserve), text.Code(p.Verdict)},
		Ideals:  []idealJSON{}, Candidates: make([]candidateJSON, len(st.Candidates)), Notes: st.Notes, Cautions: st.Cautions,
		Thumb: thumbJSON{number(p.Exponent), number(p.Unset), 3, st.thumb()},
	}
	if steel := &st.shop.steel; steel.Form == mainspring.Set {
		doc.Yield = number(steel.Yield / mpa)
	}
	for i := range st.Ideals {
		doc.Ideals = append(doc.Ideals, st.Ideals[i].json())
	}
	if len(doc.Ideals) > 0 {
		doc.Ideal = &doc.Ideals[0]
	}
	for i := range st.Candidates {
		doc.Candidates[i] = st.Candidates[i].json()
	}
	return text.JSON(w, doc)
}

func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func (t Tolerance) json() *toleranceJSON {
	if !t.Known() {
		return nil
	}
	return &toleranceJSON{number(t.From), number(t.To)}
}

func (id *Ideal) json() idealJSON {
	j := idealJSON{
		Thickness: number(id.Thickness), Width: number(id.Width), Length: number(id.Length), Fill: number(id.Fill), Thumb: number(id.Thumb), Spacers: number(id.Spacers), SetUp: number(id.SetUp), Left: number(id.Left),
		Mean: number(id.Mean), Reserve: number(id.Reserve.Mean), Least: number(id.Reserve.Min), Unevenness: number(id.Unevenness),
		Verdict: text.Code(id.Verdict), Faults: id.Faults, Tolerance: id.Tolerance.json(), Order: orNull(id.Order()), Fault: orNull(id.Fault),
	}
	if j.Faults == nil {
		j.Faults = []string{}
	}
	return j
}

const refused = "refused"

// word is the verdict for programs.
func (c *Candidate) word() string {
	if c.Refused != "" {
		return refused
	}
	return c.Verdict.String()
}

// figures are those that apply to a fitted spring, NaN of one that is not.
func (c *Candidate) figures() [10]float64 {
	all := [10]float64{c.CutTo, c.SetUp, c.Mean, c.Reserve.Mean, c.Reserve.Min, c.Unevenness, c.Available, c.Left, c.Lost, c.Stored}
	if !c.Fitted {
		for i := range all {
			all[i] = float64(text.Null)
		}
	}
	return all
}

func (c *Candidate) json() candidateJSON {
	f := c.figures()
	j := candidateJSON{
		Label: c.Label, Rank: c.Rank, Verdict: orNull(c.word()), Refused: orNull(c.Refused), Loses: orNull(c.Loses), Reasons: c.Reasons, Faults: c.Faults,
		Width: number(c.WidthMM), Thickness: number(c.ThicknessMM), Length: number(c.LengthMM), Spacers: number(c.Spacers),
		CutTo: number(f[0]), SetUp: number(f[1]), Mean: number(f[2]), Reserve: number(f[3]), Least: number(f[4]), Unevenness: number(f[5]),
		Available: number(f[6]), Left: number(f[7]), Lost: number(f[8]), Stored: number(f[9]),
	}
	if c.Refused != "" {
		j.Reasons = []string{c.Refused}
	}
	if j.Reasons == nil {
		j.Reasons = []string{}
	}
	if j.Faults == nil {
		j.Faults = []string{}
	}
	return j
}
