package report

import (
	"io"
	"math"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/show/text"
)

type number = text.Number

type runJSON struct {
	Scenario string      `json:"scenario"`
	Note     string      `json:"note,omitempty"`
	Assumed  []string    `json:"assumed"`
	Trains   []trainJSON `json:"trains"`
	Endings  []ending    `json:"runs_down_first"`
	Cautions []string    `json:"cautions"`
}

type trainJSON struct {
	Name         string      `json:"name"`
	Kind         string      `json:"kind"`
	Verdict      verdictJSON `json:"verdict"`
	Spring       springJSON  `json:"spring"`
	Line         lineJSON    `json:"line"`
	TurnsLost    number      `json:"turns_lost"`
	Torque       torqueJSON  `json:"fusee_torque_nm"`
	Least        leastJSON   `json:"least_torque_nm"`
	Reserve      reserveJSON `json:"reserve"`
	Amplitude    spreadJSON  `json:"amplitude_deg"`
	Rate         spreadJSON  `json:"rate_s_per_day"`
	RateSwing    number      `json:"rate_swing_s_per_day"`
	Blow         spreadJSON  `json:"blow_interval_s"`
	Fly          spreadJSON  `json:"fly_rev_per_s"`
	Twelve       spreadJSON  `json:"strike_twelve_s"`
	Strike       *strikeJSON `json:"strike"`
	Wander       number      `json:"wander_s"`
	LetOff       number      `json:"let_off_amplitude_deg"`
	HoursPerTurn number      `json:"hours_per_fusee_turn"`
	Runtime      number      `json:"runtime_h"`
	Arbors       []arborJSON `json:"arbors"`
	Turns        []turnJSON  `json:"turns"`
}

type verdictJSON struct {
	Code    *string  `json:"code"` // null when no need is known
	Reasons []string `json:"reasons"`
	Faults  []string `json:"faults"`
	// LoadsOff is the code it would be with every load off; null without loads.
	LoadsOff *string  `json:"loads_off"`
	Notes    []string `json:"notes"`
}

type springJSON struct {
	Available  number `json:"turns_available"`
	Used       number `json:"turns_used"`
	SetUp      number `json:"set_up_turns"`
	FreeCoils  number `json:"free_coils"`
	Fill       number `json:"fill"`
	PeakStress number `json:"peak_stress_mpa"`
	Stored     number `json:"stored_energy_j"`
	Searle     number `json:"searle"`
	EndFloat   number `json:"end_float_mm"`
	MeanStress number `json:"mean_stress_mpa"`
	Slack      number `json:"slack_turns"`
	Overstrain number `json:"overstrain"`
}

type lineJSON struct {
	OnFusee           number `json:"on_fusee_mm"`
	BarrelTurns       number `json:"barrel_turns"`
	MaxTension        number `json:"max_tension_n"`
	MaxFleet          number `json:"max_fleet_angle_deg"`
	MaxWindingTension number `json:"max_winding_tension_n"`
	Room              number `json:"barrel_room_mm"`
	Spread            number `json:"spread_mm"`
	Lay               number `json:"lay_mm"`
}

type torqueJSON struct {
	Mean       number `json:"mean"`
	Min        number `json:"min"`
	Max        number `json:"max"`
	Unevenness number `json:"unevenness"`
	CV         number `json:"cv"`
}

type leastJSON struct {
	Predicted number `json:"predicted"`
	Measured  number `json:"measured"`
	Used      number `json:"used"`
	LoadsOff  number `json:"loads_off"`
}

// spreadJSON is a quantity over the run.
type spreadJSON = reserveJSON

type reserveJSON struct {
	Mean number `json:"mean"`
	Min  number `json:"min"`
	Max  number `json:"max"`
}

type arborJSON struct {
	Name  string      `json:"name"`
	Speed number      `json:"turns_per_fusee_turn"`
	Torq  reserveJSON `json:"torque_nm"`
}

type turnJSON struct {
	FuseeTurn     number `json:"fusee_turn"`
	Hours         number `json:"hours"`
	SpringTurns   number `json:"spring_turns"`
	SpringTorque  number `json:"spring_torque_nm"`
	LineTension   number `json:"line_tension_n"`
	FuseeTorque   number `json:"fusee_torque_nm"`
	EscapeTorque  number `json:"escape_torque_nm"`
	Amplitude     number `json:"amplitude_deg"`
	Rate          number `json:"rate_s_per_day"`
	FlySpeed      number `json:"fly_rev_per_s"`
	BlowInterval  number `json:"blow_interval_s"`
	StrikeTwelve  number `json:"strike_twelve_s"`
	WindingTorque number `json:"winding_torque_nm"`
	FleetAngle    number `json:"fleet_angle_deg"`
	Reserve       number `json:"reserve"`
}

// JSON writes the machine-readable result, indented, with a newline at its end.
func JSON(w io.Writer, r *Run) error {
	doc := runJSON{Scenario: r.Title, Note: r.Note, Assumed: append([]string{}, r.Assumed...), Trains: []trainJSON{}, Endings: endings(r), Cautions: cautions(r)}
	for i := range r.Trains {
		doc.Trains = append(doc.Trains, trainOf(&r.Trains[i]))
	}
	return text.JSON(w, doc)
}

func trainOf(r *sim.Result) trainJSON {
	t := trainJSON{
		Name: r.Train.Name, Kind: r.Train.Kind.String(),
		Verdict:      verdictJSON{Reasons: r.Reasons(), Faults: r.Faults(), Code: text.Code(r.Verdict.Code), LoadsOff: text.Code(r.Verdict.LoadsOff), Notes: r.Notes()},
		Spring:       springOf(&r.Spring),
		Line:         lineOf(&r.Line),
		TurnsLost:    number(r.TurnsLost),
		Torque:       torqueJSON{number(r.Torque.Mean), number(r.Torque.Min), number(r.Torque.Max), number(r.Torque.Unevenness), number(r.Torque.CV)},
		Least:        leastJSON{number(r.Need.Predicted), number(r.Need.Measured), number(r.Need.Used), number(r.Need.LoadsOff)},
		Reserve:      reserveJSON{number(r.Reserve(r.Torque.Mean)), number(r.Reserve(r.Torque.Min)), number(r.Reserve(r.Torque.Max))},
		HoursPerTurn: number(r.HoursPerTurn), Runtime: number(r.Runtime),
		Arbors: arborsOf(r), Turns: make([]turnJSON, len(r.Rows)),
	}
	w := &r.Swing
	t.Amplitude = spreadOf(w.Amplitude, sim.Degrees(1))
	t.Rate = spreadOf(w.Rate, secondsPerDay)
	t.RateSwing = number((w.Rate.Max - w.Rate.Min) * secondsPerDay)
	k := &r.Cadence
	t.Blow, t.Fly, t.Twelve = spreadOf(k.Interval, 1), spreadOf(k.Fly, 1), spreadOf(k.Twelve, 1)
	t.Strike = strikeOf(r)
	t.Wander, t.LetOff = number(w.Wander), number(sim.Degrees(w.LetOff))
	for i := range r.Rows {
		t.Turns[i] = turnOf(r, &r.Rows[i])
	}
	return t
}

const secondsPerDay = escapement.SecondsPerDay

func spreadOf(s sim.Spread, unit float64) spreadJSON {
	return spreadJSON{number(s.Mean * unit), number(s.Min * unit), number(s.Max * unit)}
}

func springOf(s *sim.Spring) springJSON {
	return springJSON{
		Available: number(s.Available), Used: number(s.Used), SetUp: number(s.SetUp),
		FreeCoils: number(s.FreeCoils), Fill: number(s.Fill), PeakStress: number(s.PeakStress / 1e6),
		Stored: number(s.Stored), Searle: number(s.Searle), EndFloat: number(s.EndFloat * 1e3),
		MeanStress: number(s.MeanStress / 1e6), Slack: number(s.Slack), Overstrain: number(s.Overstrain),
	}
}

func lineOf(l *sim.Line) lineJSON {
	j := lineJSON{
		OnFusee: number(l.OnFusee * 1e3), BarrelTurns: number(l.BarrelTurns),
		MaxTension: number(l.MaxTension), MaxFleet: text.Null, MaxWindingTension: number(l.MaxWindingTension),
		Room: number(l.Room * 1e3), Spread: number(l.Spread * 1e3), Lay: number(l.Lay * 1e3),
	}
	if l.FleetKnown {
		j.MaxFleet = number(l.MaxFleet.Degrees())
	}
	return j
}

func arborsOf(r *sim.Result) []arborJSON {
	arbors := make([]arborJSON, len(r.Train.Arbors))
	for i, name := range r.Train.Arbors {
		a := ArborOf(r, i)
		arbors[i] = arborJSON{Name: name, Speed: number(a.Speed), Torq: reserveJSON{number(a.Mean), number(a.Min), number(a.Max)}}
	}
	return arbors
}

func turnOf(r *sim.Result, row *sim.Row) turnJSON {
	t := turnJSON{
		FuseeTurn: number(row.FuseeTurn), Hours: number(row.Hours),
		SpringTurns: number(row.SpringTurns), SpringTorque: number(row.SpringTorque),
		LineTension: number(row.LineTension), FuseeTorque: number(row.FuseeTorque),
		EscapeTorque: text.Null, Amplitude: text.Null, Rate: text.Null, FlySpeed: text.Null, BlowInterval: text.Null, StrikeTwelve: text.Null,
		WindingTorque: number(row.WindingTorque),
		FleetAngle:    number(degrees(row.Fleet)),
		Reserve:       number(r.Reserve(row.FuseeTorque)),
	}
	if r.Train.Escapes {
		t.EscapeTorque = number(row.LastTorque)
		t.Amplitude, t.Rate = number(sim.Degrees(row.Amplitude)), number(row.Rate*secondsPerDay)
	}
	if r.Train.Strikes {
		t.BlowInterval, t.FlySpeed, t.StrikeTwelve = number(row.BlowInterval), number(row.FlySpeed), number(row.Twelve)
	}
	return t
}

func degrees(tangent float64) float64 { return sim.Degrees(math.Atan(tangent)) }
