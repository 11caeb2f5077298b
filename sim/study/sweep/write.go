package sweep

import (
	"encoding/csv"
	"io"
	"math"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

type number = text.Number

type studyJSON struct {
	Train    string       `json:"train"`
	Over     string       `json:"over"`
	Unit     string       `json:"unit"`
	Value    number       `json:"value"`
	Against  *string      `json:"against"`
	Unit2    *string      `json:"unit2"`
	Value2   number       `json:"value2"`
	Hold     string       `json:"hold"`
	Exponent number       `json:"exponent"`
	Error    number       `json:"exponent_error"`
	Own      pointJSON    `json:"own"`
	Changes  []changeJSON `json:"verdict_changes"`
	Limits   []limitJSON  `json:"limits"`
	Points   []pointJSON  `json:"points"`
	Cautions []string     `json:"cautions"`
}

type changeJSON struct {
	At    number  `json:"at"`
	Below *string `json:"below"`
	Above *string `json:"above"`
}

type limitJSON struct {
	At    number `json:"at"`
	Side  string `json:"cannot_be_built"`
	Fault string `json:"fault"`
}

type pointJSON struct {
	Value      number      `json:"value"`
	Value2     number      `json:"value2"`
	Fault      *string     `json:"fault"`
	Verdict    *string     `json:"verdict"`
	Faults     []string    `json:"faults"`
	Torque     torqueJSON  `json:"fusee_torque_nm"`
	Need       number      `json:"least_torque_nm"`
	Reserve    reserveJSON `json:"reserve"`
	Available  number      `json:"turns_available"`
	TurnsLost  number      `json:"turns_lost"`
	Runtime    number      `json:"runtime_h"`
	PeakStress number      `json:"peak_stress_mpa"`
	Stored     number      `json:"stored_energy_j"`
	Amplitude  number      `json:"amplitude_deg"`
	Blow       number      `json:"blow_interval_s"`
}

type torqueJSON struct {
	Mean       number `json:"mean"`
	Min        number `json:"min"`
	Max        number `json:"max"`
	Unevenness number `json:"unevenness"`
}

type reserveJSON struct {
	Mean number `json:"mean"`
	Min  number `json:"min"`
	Max  number `json:"max"`
}

// JSON writes the machine-readable study.
func JSON(w io.Writer, st *Study) error {
	doc := studyJSON{
		Train: st.Train.Name, Over: st.Over.Key, Unit: st.Over.Unit, Value: number(st.Over.Value), Value2: text.Null, Hold: st.Hold.String(),
		Exponent: number(st.Exponent.Value), Error: number(st.Exponent.Error), Own: pointOf(&st.Own),
		Changes: []changeJSON{}, Limits: []limitJSON{}, Points: make([]pointJSON, len(st.Points)), Cautions: []string{st.Caution},
	}
	if a := st.Against; a != nil {
		doc.Against, doc.Unit2, doc.Value2 = &a.Key, &a.Unit, number(a.Value)
	}
	for _, c := range st.Changes {
		doc.Changes = append(doc.Changes, changeJSON{number(c.At), text.Code(c.Below), text.Code(c.Above)})
	}
	for _, l := range st.Limits {
		doc.Limits = append(doc.Limits, limitJSON{number(l.At), side(l.Above), l.Fault})
	}
	for i := range st.Points {
		doc.Points[i] = pointOf(&st.Points[i])
	}
	return text.JSON(w, doc)
}

func side(above bool) string {
	if above {
		return "above"
	}
	return "below"
}

func pointOf(p *Point) pointJSON {
	if !p.Built() {
		none := text.Null
		return pointJSON{
			Value: number(p.Value), Value2: number(p.Value2), Fault: &p.Fault, Faults: []string{},
			Torque: torqueJSON{none, none, none, none}, Need: none, Reserve: reserveJSON{none, none, none},
			Available: none, TurnsLost: none, Runtime: none, PeakStress: none, Stored: none, Amplitude: none, Blow: none,
		}
	}
	j := pointJSON{
		Value: number(p.Value), Value2: number(p.Value2), Verdict: text.Code(p.Verdict), Faults: []string{},
		Torque: torqueJSON{number(p.Torque.Mean), number(p.Torque.Min), number(p.Torque.Max), number(p.Torque.Unevenness)},
		Need:   number(p.Need), Reserve: reserveJSON{number(p.Reserve.Mean), number(p.Reserve.Min), number(p.Reserve.Max)},
		Available: number(p.TurnsAvailable), TurnsLost: number(p.TurnsLost), Runtime: number(p.Runtime),
		PeakStress: number(p.PeakStress / 1e6), Stored: number(p.Stored),
		Amplitude: number(words.Degrees(p.Amplitude)), Blow: number(p.BlowInterval),
	}
	for _, f := range p.Faults {
		j.Faults = append(j.Faults, f.Words)
	}
	return j
}

var csvHeader = []string{"value", "value2", "fault", "verdict", "fusee_torque_nm.mean", "fusee_torque_nm.min", "fusee_torque_nm.max",
	"fusee_torque_nm.unevenness", "least_torque_nm", "reserve.mean", "reserve.min", "turns_available", "turns_lost", "runtime_h",
	"peak_stress_mpa", "amplitude_deg", "blow_interval_s"}

// CSV writes the points, comma-separated with a header (RFC 4180). What does not
// apply is empty.
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	if err := out.Write(csvHeader); err != nil {
		return err
	}
	for i := range st.Points {
		p := &st.Points[i]
		line := []string{text.Cell(p.Value), text.Cell(p.Value2), p.Fault, p.Verdict.String()}
		for _, v := range p.figures() {
			line = append(line, text.Cell(v))
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// figures are those of the CSV's columns.
func (p *Point) figures() []float64 {
	all := []float64{p.Torque.Mean, p.Torque.Min, p.Torque.Max, p.Torque.Unevenness, p.Need, p.Reserve.Mean, p.Reserve.Min,
		p.TurnsAvailable, p.TurnsLost, p.Runtime, p.PeakStress / 1e6, words.Degrees(p.Amplitude), p.BlowInterval}
	if !p.Built() {
		for i := range all {
			all[i] = math.NaN()
		}
	}
	return all
}
