package data

import (
	"io"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/show/words"
)

// Record is the document of what was found at the bench; its rows are the turns of
// every spring.
func Record() Document[readings.Study] {
	o := Object[readings.Study]{
		Text("title", "title of the bench file", func(st *readings.Study) string { return st.Book.Title }),
		Text("scenario", "title of the scenario; null without one", func(st *readings.Study) string { return st.Scenario }),
		List("needs", "what each train was found to need", needDocument(), func(st *readings.Study) []weighed { return parts(st, st.Needs) }),
		List("supplies", "what each spring was found to give", supplyDocument(), func(st *readings.Study) []supply { return parts(st, st.Springs) }),
		Sub("fit", "the inputs fitted to the readings of a spring; null when none were", fitDocument(), func(st *readings.Study) *readings.Explanation { return st.Explained }),
		Texts("cautions", "what to mind before a spring is touched", words.RecordCautions),
	}
	lines := append(Object[reading]{
		Text("train", "the train", func(r *reading) string { return r.of.it.Train }),
		Text("spring", "the label of the spring", func(r *reading) string { return r.of.it.Supply.Spring }),
		Flag("winding", "while winding; else running down", func(r *reading) bool { return r.it.Winding }),
	}, Within(readingDocument(), func(r *reading) *readings.Reading { return r.it })...)
	return Document[readings.Study]{o, rows(lines, func(st *readings.Study) []reading {
		return partsOf(parts(st, st.Springs), func(s *supply) []readings.Reading {
			return slices.Concat(st.Readings(s.at, false), st.Readings(s.at, true))
		})
	})}
}

// Bench is the document of a whole bench book: what was found, and what each spring comes
// to. Its rows are those of Record.
func Bench() Document[assign.Record] {
	study := func(r *assign.Record) *readings.Study { return r.Study }
	d := Record()
	return Document[assign.Record]{append(Within(d.Object, study),
		List("judged", "every spring in the train it was read in; empty where nothing can be judged", assignPair(), func(r *assign.Record) (pairs []assign.Pair) {
			for i := range r.Springs {
				if p := r.Read(i); p != nil {
					pairs = append(pairs, *p)
				}
			}
			return pairs
		}),
		List("fitted", "what the readings tell of each spring beside what was measured of it; empty without a scenario", fittedDocument(), func(r *assign.Record) (list []found.Spring) {
			for i := range r.Springs {
				if sp := r.Fitted(i); sp != nil {
					list = append(list, *sp)
				}
			}
			return list
		})), table[assign.Record]{columns: d.table.columns, write: func(w io.Writer, r *assign.Record) error { return d.table.write(w, r.Study) }}}
}

func fittedDocument() Object[found.Spring] {
	return Object[found.Spring]{
		Text("spring", "its label", func(s *found.Spring) string { return s.Label }),
		Text("train", "the train that it was read in", func(s *found.Spring) string { return s.Train }),
		List("values", "the inputs of its strip", Object[found.Told]{
			Text("key", "the key below the train", func(t *found.Told) string { return t.Key }),
			Text("unit", "its unit", func(t *found.Told) string { return t.Unit }),
			Flag("measured", "whether it was measured on the spring; else it is the scenario's, or assumed", func(t *found.Told) bool { return t.Measured }),
			Number("before", "as measured or assumed", "", func(t *found.Told) float64 { return t.Before }),
			Number("value", "with the readings", "", func(t *found.Told) float64 { return t.Value }),
			Number("standard_error", "of it", "", func(t *found.Told) float64 { return t.StandardError }),
			Numbers("interval_95", "95 % interval", "", func(t *found.Told) []float64 { return []float64{t.Interval.Lo, t.Interval.Hi} }),
			Number("narrowed_to", "standard error over what it was before the readings", "", func(t *found.Told) float64 { return t.Narrowed }),
		}, func(s *found.Spring) []found.Told { return s.Told }),
		Number("misfit", "residuals over what scatter explains, root mean square", "", func(s *found.Spring) float64 { return s.Misfit }),
		Texts("notes", "what is worth knowing", words.FoundNotes),
	}
}

// A need and a spring with the study, which has more of them, and a turn that was
// read with its spring.
type (
	weighed = part[readings.Study, measure.Need]
	supply  = part[readings.Study, readings.Spring]
	reading = part[supply, readings.Reading]
)

// explained is a fitted input with the fit.
type explained = part[readings.Explanation, readings.Input]

func needDocument() Object[weighed] {
	return Object[weighed]{
		Text("train", "the train", func(n *weighed) string { return n.it.Train }),
		Number("least_torque_nm", "least torque needed at the winding square", "N·m", func(n *weighed) float64 { return n.it.Bracket.Least }),
		Numbers("between", "what is sure of it, of up-and-down trials its 95 % interval; null where no weight tells an end", "N·m", func(n *weighed) []float64 { return []float64{n.it.Bracket.Between.Lo, n.it.Bracket.Between.Hi} }),
		Number("standard_uncertainty_nm", "its standard uncertainty", "N·m", func(n *weighed) float64 { return n.it.Bracket.Uncertainty }),
		Sub("up_and_down", "the need by an up-and-down sequence of trials; null where they are none", Object[measure.UpDown]{
			Number("step_nm", "step", "N·m", func(u *measure.UpDown) float64 { return u.Step }),
			Number("sd_nm", "standard deviation of the least torque from trial to trial", "N·m", func(u *measure.UpDown) float64 { return u.SD }),
			Flag("coarse", "whether the steps are too wide to tell it, which then is the most it may be", func(u *measure.UpDown) bool { return u.Coarse }),
			Whole("n", "trials of the less frequent outcome, which the figures are made of", func(u *measure.UpDown) int { return u.N }),
		}, func(n *weighed) *measure.UpDown { return n.it.UpDown }),
		Sub("by_ear", "what is liked by ear; null where nothing was judged", Object[measure.Band]{
			Numbers("torque_band_nm", "torques liked at the winding square; null where no band follows", "N·m", func(b *measure.Band) []float64 { return b.Ends() }),
			Numbers("standard_uncertainty_nm", "of its ends; null where a trial itself is the end", "N·m", func(b *measure.Band) []float64 { return b.Uncertainty[:] }),
		}, func(n *weighed) *measure.Band { return n.it.Band }),
		List("trials", "the weights hung", Object[measure.Trial]{
			Number("mass_g", "the weight", "g", func(t *measure.Trial) float64 { return t.Mass * 1e3 }),
			Number("torque_nm", "its torque at the winding square", "N·m", func(t *measure.Trial) float64 { return t.Torque }),
			Flag("runs", "whether the train ran, or struck", func(t *measure.Trial) bool { return t.Runs }),
			Number("blow_interval_s", "interval from blow to blow, of a strike of twelve the mean of its eleven", "s", func(t *measure.Trial) float64 { return t.Interval }),
			Text("judged", "weak, liked or brisk; null where it was not judged by ear", func(t *measure.Trial) string { return t.Judged.String() }),
		}, func(n *weighed) []measure.Trial { return n.it.Trials }),
		Sub("fly_law", "1/interval² = slope × (torque − threshold); null where no blows were timed", Object[measure.Cadence]{
			Number("slope_per_s2_nm", "slope", "1/(s²·N·m)", func(c *measure.Cadence) float64 { return c.Slope }),
			Number("threshold_nm", "threshold", "N·m", func(c *measure.Cadence) float64 { return c.Threshold }),
			Number("r2", "share of the spread that the line takes up", "", func(c *measure.Cadence) float64 { return c.R2 }),
		}, func(n *weighed) *measure.Cadence { return n.it.Cadence }),
		List("wanted", "torques for the intervals wanted, the slowest first", Object[readings.Pace]{
			Number("blow_interval_s", "interval from blow to blow", "s", func(p *readings.Pace) float64 { return p.Interval }),
			Number("torque_nm", "torque for it", "N·m", func(p *readings.Pace) float64 { return p.Torque }),
			Text("how", "interpolated, extrapolated, stops_before or unknown", func(p *readings.Pace) string { return p.How.String() }),
		}, func(n *weighed) []readings.Pace { return n.of.Paces[n.at] }),
		Texts("notes", "what is worth knowing", func(n *weighed) []string { return words.NeedNotes(n.it) }),
	}
}

func supplyDocument() Object[supply] {
	compared := func(s *supply) *readings.Comparison { return s.of.Compared[s.at] }
	return Object[supply]{
		Text("train", "the train that it was read in", func(s *supply) string { return s.it.Train }),
		Text("spring", "its label", func(s *supply) string { return s.it.Supply.Spring }),
		Sub("fusee_torque_nm", "torque at the winding square, running down", Object[supply]{
			Number("mean", "mean over the turns", "N·m", func(s *supply) float64 { return s.it.Mean.Value }),
			Number("min", "least turn", "N·m", func(s *supply) float64 { return s.it.Min }),
			Number("max", "greatest turn", "N·m", func(s *supply) float64 { return s.it.Max }),
			Number("unevenness", "(greatest − least)/mean", "", func(s *supply) float64 { return s.it.Unevenness }),
		}, self),
		Number("unevenness_of_scatter", "the unevenness that scatter alone would show; null where it is not known", "", func(s *supply) float64 { return s.it.ByScatter }),
		Number("half_width_95_nm", "half the 95 % interval of the mean", "N·m", func(s *supply) float64 { return s.it.Mean.HalfWidth }),
		Number("between_run_downs", "standard deviation of run-downs as wholes, as a share of their mean, over all that one meter read", "", func(s *supply) float64 { return s.it.Mean.Between }),
		Whole("degrees_of_freedom", "of it", func(s *supply) int { return s.it.Mean.Freedom }),
		Number("efficiency", "share of the torque that passes one way; null where winding was not read", "", func(s *supply) float64 { return s.it.Efficiency.Mean }),
		List("turns", "running down", readingDocument(), func(s *supply) []readings.Reading { return s.of.Readings(s.at, false) }),
		List("winding", "while winding", readingDocument(), func(s *supply) []readings.Reading { return s.of.Readings(s.at, true) }),
		Sub("predicted", "the readings beside the prediction; null without one", Object[readings.Comparison]{
			Number("rms_nm", "residuals, root mean square", "N·m", func(c *readings.Comparison) float64 { return c.RMS }),
			Number("chi2_per_dof", "χ² per degree of freedom", "", func(c *readings.Comparison) float64 { return c.ChiSquarePerDOF }),
			Number("measured_over_predicted", "measured over predicted in the mean", "", func(c *readings.Comparison) float64 { return c.Ratio }),
			Number("meter", "standard uncertainty of the meter, as a share of a reading", "", func(c *readings.Comparison) float64 { return c.Meter }),
		}, compared),
		Sub("least_torque_nm", "the need that the readings are judged by; null without a scenario", Object[readings.Comparison]{
			Number("used", "least torque needed: by weights or, where they tell none, by the scenario", "N·m", func(c *readings.Comparison) float64 { return c.Reserve.Need }),
		}, compared),
		Sub("reserve", "measured over that need; null without a scenario", Object[readings.Comparison]{
			Number("mean", "mean reserve", "", func(c *readings.Comparison) float64 { return c.Reserve.Mean }),
			Number("min", "least reserve", "", func(c *readings.Comparison) float64 { return c.Reserve.Min }),
		}, compared),
		Text("not_predicted", "why there is no prediction; null where there is one, or no scenario", func(s *supply) string { return words.Why(s.of.Refused[s.at]) }),
		Texts("notes", "what is worth knowing", func(s *supply) []string { return words.ReadNotes(s.of, s.at) }),
	}
}

func readingDocument() Object[readings.Reading] {
	return Object[readings.Reading]{
		Number("fusee_turn", "fusee turn paid out", "turns", func(r *readings.Reading) float64 { return r.FuseeTurn }),
		Whole("n", "readings", func(r *readings.Reading) int { return r.N }),
		Number("mean_nm", "their mean", "N·m", func(r *readings.Reading) float64 { return r.Mean }),
		Number("sd_nm", "standard deviation of one", "N·m", func(r *readings.Reading) float64 { return r.SD }),
		Number("half_width_95_nm", "half the 95 % interval of the mean", "N·m", func(r *readings.Reading) float64 { return r.HalfWidth }),
		Number("outlier_nm", "a reading further off than chance explains; null when there is none", "N·m", func(r *readings.Reading) float64 { return r.Outlying() }),
		Number("predicted_nm", "torque predicted", "N·m", func(r *readings.Reading) float64 { return r.Predicted }),
		Number("residual_nm", "measured less predicted", "N·m", (*readings.Reading).Residual),
	}
}

func fitDocument() Object[readings.Explanation] {
	return Object[readings.Explanation]{
		Text("train", "the train", func(e *readings.Explanation) string { return e.Train }),
		Text("spring", "the label of the spring", func(e *readings.Explanation) string { return e.Spring }),
		List("values", "the inputs", Object[explained]{
			Text("key", "the KEY", func(in *explained) string { return in.it.Key }),
			Text("unit", "its unit", func(in *explained) string { return in.it.Unit }),
			Number("before", "value in the scenario", "", func(in *explained) float64 { return in.it.Before }),
			Number("value", "value that explains the readings", "", func(in *explained) float64 { return in.it.Value }),
			Number("standard_error", "of it; null where the readings leave it open or it lies on its bound", "", func(in *explained) float64 { return in.it.StandardError }),
			Number("standard_error_from_meter", "the part of the meter, bound and step", "", func(in *explained) float64 { return in.it.FromMeter }),
			Numbers("interval_95", "95 % interval; null likewise", "", func(in *explained) []float64 { return []float64{in.it.Interval.Lo, in.it.Interval.Hi} }),
			Whole("degrees_of_freedom", "of the standard error but for the meter's part", func(in *explained) int { return in.of.Freedom }),
		}, func(e *readings.Explanation) []explained { return parts(e, e.Inputs) }),
		Flag("from_run_downs", "whether the errors know how far run-downs differ as wholes; else they are by the residuals alone, and too small", func(e *readings.Explanation) bool { return e.FromRuns }),
		Matrix("covariance", "of the errors of the inputs, the meter's part included, in their units", "", func(e *readings.Explanation) [][]float64 { return e.Covariance }),
		Matrix("correlation", "of the errors of the inputs with each other", "", func(e *readings.Explanation) [][]float64 { return e.Correlation }),
		Number("chi2_per_dof", "χ² per degree of freedom of what is left", "", func(e *readings.Explanation) float64 { return e.ChiSquarePerDOF }),
		Number("rms_nm", "residuals left, root mean square", "N·m", func(e *readings.Explanation) float64 { return e.RMS }),
		Text("status", "how the fit ended", func(e *readings.Explanation) string { return e.Status.String() }),
		Texts("notes", "what is worth knowing", words.FitNotes),
	}
}

// Assign is the document of which spring goes to which train; its rows are the
// pairs.
func Assign() Document[assign.Study] {
	pairs := func(st *assign.Study) []assign.Pair { return st.Pairs }
	choice := func(name, meaning string, of func(*assign.Study) []int) Member[assign.Study] {
		return List(name, meaning, Object[assign.Pair]{
			Text("spring", "the label of the spring", func(p *assign.Pair) string { return p.Label }),
			Text("train", "the train", func(p *assign.Pair) string { return p.Train }),
			Flag("suits", "whether it suits without a fault", (*assign.Pair).Sound),
		}, func(st *assign.Study) []assign.Pair { return st.PairsOf(of(st)) })
	}
	return Document[assign.Study]{Object[assign.Study]{
		Text("title", "title of the bench file", func(st *assign.Study) string { return st.Title }),
		List("pairs", "every spring in every train", assignPair(), pairs),
		choice("best", "the choice that suits best", func(st *assign.Study) []int { return st.Best }),
		choice("second", "the best of the other choices; empty when there is none", func(st *assign.Study) []int { return st.Second }),
		Number("sure", "share of the draws in which the best choice is the best; null where none were made", "", func(st *assign.Study) float64 { return st.Sure }),
		Sub("settles", "the one reading that would make the choice surest; null where it is sure enough, or none would", Object[assign.Reading]{
			Text("what", "torque, weights or solid_turns", func(r *assign.Reading) string { return r.What.String() }),
			Text("spring", "the label of the spring to be read; null for weights", func(r *assign.Reading) string { return r.Spring }),
			Text("train", "the train", func(r *assign.Reading) string { return r.Train }),
			Number("sure", "how sure the choice would be, were it known exactly", "", func(r *assign.Reading) float64 { return r.Sure }),
		}, func(st *assign.Study) *assign.Reading { return st.Settled() }),
		Texts("notes", "what is worth knowing beside the choice", words.AssignNotes),
		Texts("cautions", "what to mind before barrels are moved", words.AssignCautions),
	}, rows(assignPair(), pairs)}
}

// assignPair is a pair. The spring's figures in the run would have the name of its
// label in JSON: there they are spring_in_train.
func assignPair() Object[assign.Pair] {
	o := withRun(func(p *assign.Pair) *sim.Digest { return &p.Digest },
		Text("spring", "the label of the spring", func(p *assign.Pair) string { return p.Label }),
		Text("train", "the train", func(p *assign.Pair) string { return p.Train }),
		Text("read_in", "the train that the spring was read in", func(p *assign.Pair) string { return p.ReadIn }),
		Flag("carried_over", "whether the readings were carried over from it", (*assign.Pair).Carried),
		Text("not_judged", "why it is not judged; null where it is", func(p *assign.Pair) string { return words.Why(p.Why) }),
		Number("off_middle", "mean torque over the middle of what suits, less 1", "", func(p *assign.Pair) float64 { return p.Off }),
		Flag("best", "whether it is in the best choice", func(p *assign.Pair) bool { return p.Chosen }))
	for i := range o[1:] {
		if m := &o[i+1]; m.name == "spring" {
			m.name = "spring_in_train"
		}
	}
	return o
}
