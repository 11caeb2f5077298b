package live

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"slices"
	"strconv"

	"evenpull/sim"
	"evenpull/sim/show/data"
	"evenpull/sim/show/drawing"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sure"
	"evenpull/sim/study/trying"
	"evenpull/sim/vary"
)

// number is null in JSON where it does not apply.
type number float64

// MarshalJSON writes it.
func (n number) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(n)) || math.IsInf(float64(n), 0) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, float64(n), 'g', -1, 64), nil
}

// points are lists of numbers, written at once: an answer has a thousand.
type points [][]float64

// MarshalJSON writes them; what does not apply is null.
func (p points) MarshalJSON() ([]byte, error) {
	b := make([]byte, 0, 16*len(p)+2)
	b = append(b, '[')
	for i, list := range p {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, '[')
		for k, v := range list {
			if k > 0 {
				b = append(b, ',')
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				b = append(b, "null"...)
				continue
			}
			b = strconv.AppendFloat(b, v, 'g', -1, 64)
		}
		b = append(b, ']')
	}
	return append(b, ']'), nil
}

// request is what the page asks. What is left out is what a run is: the first train, all draws,
// the tracks of the rules that are always there.
type request struct {
	Train  string             `json:"train"`
	Set    map[string]float64 `json:"set"`
	Hold   string             `json:"hold"`
	Fill   *float64           `json:"fill"`
	Even   bool               `json:"even"`
	Rules  []string           `json:"rules"`
	Tracks []string           `json:"tracks"`
	Draws  *int               `json:"draws"` // nil: all
	Brief  bool               `json:"brief"` // the JSON of the run is left out
	Name   string             `json:"name"`  // of the file to keep
}

// ask is the same for the bench.
func (q *request) ask() *trying.Ask {
	a := &trying.Ask{Set: q.Set, Fill: math.NaN(), Even: q.Even, Rules: q.Rules, Tracks: q.Tracks, Draws: sure.Draws}
	if q.Draws != nil {
		a.Draws = *q.Draws
	}
	if q.Hold == vary.Fill.String() {
		a.Hold = vary.Fill
	}
	if q.Fill != nil {
		a.Fill = *q.Fill
	}
	return a
}

// answer is what a trial comes to, in words and points.
type answer struct {
	of  *trying.Answer
	run []byte // the JSON of a run, under "run"; null where it cannot be built

	Fault  string              `json:"fault"`
	Says   says                `json:"says"`
	Words  []line              `json:"words"`
	Need   number              `json:"need_nm"`
	Liked  []number            `json:"liked_nm"`
	Bands  []band              `json:"bands"`
	Turns  turns               `json:"turns"`
	Curve  points              `json:"curve"`
	Blows  points              `json:"blows"`
	Spare  spare               `json:"spare"`
	Barrel *barrel             `json:"barrel"`
	Values map[string]number   `json:"values"`
	Rules  map[string]rule     `json:"rules"`
	EvenAt number              `json:"even_at"`
	Even   string              `json:"even_words"`
	Tracks map[string][]tinted `json:"tracks"`
	Sure   bool                `json:"sure"`
}

type says struct {
	Verdict string   `json:"verdict"`
	Word    string   `json:"word"`
	Fact    string   `json:"fact"`
	Trouble []string `json:"trouble"`
}

type line struct {
	Words string `json:"words"`
	Value string `json:"value"`
}

type band struct {
	From    number `json:"from_nm"`
	To      number `json:"to_nm"`
	Verdict string `json:"verdict"`
}

type turns struct {
	Lost    number `json:"lost"`
	StopsAt number `json:"stops_at"`
	Of      number `json:"of"`
}

type spare struct {
	Turns  number `json:"turns"`
	Wanted number `json:"wanted"`
	Words  string `json:"words"`
}

type barrel struct {
	Inside  number `json:"inside_mm"`
	Outside number `json:"outside_mm"`
	Arbor   number `json:"arbor_mm"`
	Strip   number `json:"strip_mm"`
	Down    points `json:"down"`
	Wound   points `json:"wound"`
	Fill    number `json:"fill"`
}

// tinted is a part of a rule with one verdict; null where it cannot be built.
type tinted struct {
	From    number  `json:"from"`
	To      number  `json:"to"`
	Verdict *string `json:"verdict"`
	Why     string  `json:"why"`
}

// try tries what is asked.
func (d *Desk) try(ctx context.Context, t *Train, q *request) (*answer, error) {
	if q.Tracks == nil {
		q.Tracks = t.always()
	}
	got, err := t.Try(ctx, q.ask())
	if err != nil {
		return nil, err
	}
	a := &answer{of: got, run: []byte("null"), Need: number(math.NaN()), EvenAt: number(math.NaN()), Sure: got.Whole,
		Words: []line{}, Bands: []band{}, Curve: points{}, Blows: points{}, Values: map[string]number{}, Rules: map[string]rule{}, Tracks: map[string][]tinted{}}
	none := number(math.NaN())
	a.Says.Trouble, a.Turns, a.Spare = []string{}, turns{none, none, none}, spare{none, none, "–"}
	for key, v := range got.Values {
		a.Values[key] = number(v)
	}
	for key := range got.Rules {
		a.Rules[key] = t.rule(got, key)
	}
	for key, list := range got.Tracks {
		a.Tracks[key] = t.track(list)
	}
	if got.Fault != nil {
		a.Fault = "It cannot be built: " + words.TryingFault(t.Found, t.Name, got.Fault) + "."
		return a, nil
	}
	if a.Even = words.TryingEven(got.Even); got.Even != nil {
		a.EvenAt = number(got.Even.Spring.SetUp)
	}
	if !q.Brief {
		if a.run, err = d.written(t, got); err != nil {
			return nil, err
		}
	}
	a.tell()
	return a, nil
}

// written is the JSON of the run of a trial.
func (d *Desk) written(t *Train, got *trying.Answer) ([]byte, error) {
	from := d.Origin
	from.Set = slices.Clone(from.Set)
	for _, key := range t.Changed(got) {
		if now, err := got.Trial.Value(key); err == nil {
			from.Set = append(from.Set, key+"="+strconv.FormatFloat(*now, 'g', -1, 64))
		}
	}
	if got.Result().Verdict.Sureness.Draws > 0 {
		from.Seed = new(int64(trying.Seed))
	}
	var b bytes.Buffer
	err := data.Run().JSON(&b, from, got.Clock)
	return b.Bytes(), err
}

func (t *Train) track(list []trying.Stretch) []tinted {
	all := make([]tinted, len(list))
	for i, s := range list {
		all[i] = tinted{From: number(s.From), To: number(s.To), Why: words.TryingFault(t.Found, t.Name, s.Fault)}
		if word := s.Code.String(); s.Fault == nil && word != "" {
			all[i].Verdict = &word
		}
	}
	return all
}

// JSON is the answer with the run as it is written.
func (a *answer) JSON() ([]byte, error) {
	rest, err := json.Marshal(a)
	if err != nil {
		return nil, err
	}
	return slices.Concat([]byte(`{"run":`), a.run, []byte(","), rest[1:]), nil
}

// tell fills in what the run tells.
func (a *answer) tell() {
	r := a.of.Result()
	d := &r.Digest
	a.Says.Verdict, a.Says.Fact = words.Trying(d)
	a.Says.Word, a.Says.Trouble = words.Verdict(d.Verdict.Code), words.Faults(d)
	for _, l := range words.TryingFigures(r) {
		a.Words = append(a.Words, line{l[0], l[1]})
	}
	a.Need = number(d.Need.Used)
	if liked := d.Standard.Liked; !liked.IsEmpty() {
		a.Liked = []number{number(liked.Lo), number(liked.Hi)}
	}
	for _, x := range d.Standard.Ranges() {
		a.Bands = append(a.Bands, band{number(x.Lo), number(x.Hi), x.Code.String()})
	}
	a.Turns = turns{number(d.TurnsLost), number(d.StopsAt), number(d.Turns)}
	left, told := words.TryingSpare(d)
	a.Spare = spare{number(left), number(d.Advice.TurnsToSpare), told}
	a.draw(r)
}

// draw gives the points of curve, blows and coils.
func (a *answer) draw(r *sim.Result) {
	for i := range r.Rows {
		row := &r.Rows[i]
		p := []float64{row.FuseeTurn, row.FuseeTorque, math.NaN(), math.NaN()}
		if a.of.Low != nil {
			p[2], p[3] = a.of.Low[i], a.of.Up[i]
		}
		a.Curve = append(a.Curve, p)
		if r.Strikes && !math.IsNaN(row.BlowInterval) {
			a.Blows = append(a.Blows, []float64{row.FuseeTurn, row.BlowInterval})
		}
	}
	const mm = 1e3
	drive, s := &r.Train.Drive, &r.Spring
	wound := min(s.SetUp+s.Used, s.Available)
	a.Barrel = &barrel{Inside: number(2 * mm * drive.Housing.Inside), Outside: number(2 * mm * drive.Barrel.Radius), Arbor: number(2 * mm * drive.Housing.Arbor),
		Strip: number(mm * drive.Spring.Thickness), Down: coils(r, s.SetUp), Wound: coils(r, wound), Fill: number(s.Fill)}
}

// coils are points along the strip, mm, to the hundredth: as many as an eye needs.
func coils(r *sim.Result, turns float64) (list points) {
	const every = 2
	all := drawing.Strip(r, turns)
	for i, p := range all {
		if i%every == 0 || i == len(all)-1 {
			list = append(list, []float64{hundredth(p.X), hundredth(p.Y)})
		}
	}
	return list
}

func hundredth(m float64) float64 { return math.Round(m*1e5) / 1e2 }
