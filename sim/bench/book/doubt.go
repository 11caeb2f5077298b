package book

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"

	"gonum.org/v1/gonum/floats"
)

// What is asked about, as it is hardly ever right (common practice, no source).
const (
	wild     = 6.0   // times the torque of the weights, or one over it
	feather  = 50.0  // g: no train is driven by less
	ounces   = 100.0 // times the torque of the weights: about 28 where ounces stand for grams
	agreeing = 0.03  // share within which readings that vouch for another lie
	tenfold  = 0.2   // share within which one that is off by a power of ten lies then
	off      = 0.08  // share by which a reading differs that may have two digits changed about
	gravity  = 9.80665
)

// doubts asks about torques that are a power of ten off the weights, and about readings out
// of line with all about them.
func (b *Book) doubts(torques, weights []table) {
	for i := range b.Torques {
		t := &torques[i]
		for _, way := range []struct {
			key   string
			lists [][]float64
		}{{"running_down", b.Torques[i].RunningDown}, {"winding_up", b.Torques[i].WindingUp}} {
			t.outOfLine(way.key, way.lists)
		}
	}
	for i := range b.Weights {
		w := &b.Weights[i]
		for k := range b.Torques {
			if q := &b.Torques[k]; q.Train == w.Train {
				torques[k].scale(q, w, &weights[i])
			}
		}
	}
}

// scale asks about torques that the weights of the train make impossible.
func (t *table) scale(q *Torque, w *Weights, weights *table) {
	read, need := median(slices.Concat(q.RunningDown...)), w.torque()
	ratio := read / need
	if ratio < wild && ratio > 1/wild {
		return
	}
	found := fmt.Sprintf("found torques of about %s N·m, %s times the %s N·m by which weights drive the %s train", figure(read), figure(ratio), figure(need), w.Train)
	powers := math.Round(math.Log10(ratio / 1.3)) // a spring gives somewhat more than its train needs
	heaviest := slices.MaxFunc(w.Trials, func(a, b Trial) int { return int(math.Copysign(1, a.MassG-b.MassG)) }).MassG
	switch {
	case heaviest < feather && ratio < ounces:
		weights.Report("trials", "found no weight above "+document.Figure(heaviest)+" g, and torques "+figure(ratio)+" times theirs", "written in oz? mass_oz")
	case heaviest < feather:
		weights.Report("trials", "found no weight above "+document.Figure(heaviest)+" g, and torques "+figure(ratio)+" times theirs", "written in kg? mass_kg")
	case powers == 2:
		t.Report("running_down", found, "written in cN·m? running_down_cnm")
	case powers == 3:
		t.Report("running_down", found, "written in mN·m? running_down_mnm")
	case powers == 1:
		t.Report("running_down", found, "a decimal point one place off, or written in kgf·cm? running_down_kgfcm")
	default:
		t.Report("running_down", found, "want torques in N·m under running_down, masses in g under mass_g, or each under the key of its unit")
	}
}

// torque is what weights tell of the need (N·m), about: that of the lightest that ran, else of
// the heaviest.
func (w *Weights) torque() float64 {
	lightest, heaviest := math.Inf(1), 0.0
	for _, t := range w.Trials {
		if heaviest = max(heaviest, t.MassG); t.Runs == nil || *t.Runs {
			lightest = min(lightest, t.MassG)
		}
	}
	if math.IsInf(lightest, 1) {
		lightest = heaviest
	}
	return lightest / 1e3 * gravity * (w.PulleyRadiusMM + w.CordThicknessMM/2) / 1e3
}

// outOfLine asks about single readings.
func (t *table) outOfLine(key string, lists [][]float64) {
	for i, list := range lists {
		for k, v := range list {
			likely, apart := expected(lists, i, k)
			cure := slip(v, likely, apart)
			if cure == "" {
				continue
			}
			spot, name := key+"."+strconv.Itoa(i)+"."+strconv.Itoa(k), key+"."+strconv.Itoa(i+1)+"."+strconv.Itoa(k)
			if !t.Stands(spot) { // in a file of its own
				spot = strings.NewReplacer("running_down", "file", "winding_up", "winding_file").Replace(key)
			}
			t.ReportAt(spot, name, fmt.Sprintf("found %s, where the readings about it tell %s", document.Figure(v), figure(likely)),
				"want "+cure+`, or "-" where it cannot be read again`)
		}
	}
}

// expected is what the readings about one tell, and how far they differ, as a share: those
// of its turn in other repeats and, where both are there, of the turns before and after it.
// NaN where there are too few.
func expected(lists [][]float64, i, k int) (likely, apart float64) {
	about := at(lists, k, i)
	before, after := at(lists, k-1, -1), at(lists, k+1, -1)
	if len(before) > 0 && len(after) > 0 {
		about = slices.Concat(about, before, after)
	}
	if len(about) < 2 {
		return math.NaN(), math.NaN()
	}
	likely = median(about)
	for n, v := range about {
		about[n] = math.Abs(v/likely - 1)
	}
	slices.Sort(about)
	return likely, about[len(about)-1-len(about)/5] // a slip among five or more is no reason for silence
}

// at are the readings at a place of all lists but one.
func at(lists [][]float64, k, but int) (all []float64) {
	for j, list := range lists {
		if j != but && k >= 0 && k < len(list) && !math.IsNaN(list[k]) {
			all = append(all, list[k])
		}
	}
	return all
}

// slip is the number that a reading is likely to be, written as it was meant; "" where it
// looks right, or nothing tells.
func slip(v, likely, apart float64) string {
	if math.IsNaN(v) || !(likely > 0) || !(apart < tenfold) || math.Abs(v/likely-1) < off {
		return ""
	}
	for _, by := range []float64{10, 0.1, 100, 0.01} {
		if math.Abs(v*by/likely-1) < tenfold {
			return document.Exact(to(v*by, 12))
		}
	}
	if apart > agreeing {
		return ""
	}
	return document.Swapped(document.Exact(v), func(n float64) bool { return math.Abs(n/likely-1) < agreeing })
}

// median is the middle of what was read; NaN where nothing was.
func median(readings []float64) float64 {
	var known []float64
	for _, v := range readings {
		if !math.IsNaN(v) {
			known = append(known, v)
		}
	}
	if len(known) == 0 {
		return math.NaN()
	}
	slices.Sort(known)
	return floats.Sum(known[(len(known)-1)/2:len(known)/2+1]) / float64(len(known)/2+1-(len(known)-1)/2)
}

// figure is a number to three figures.
func figure(v float64) string { return document.Exact(to(v, 3)) }

// to is a number to so many figures.
func to(v float64, figures int) float64 {
	n, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', figures, 64), 64)
	if err != nil {
		return v
	}
	return n
}
