package data

import (
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/fusee/mainspring"
	strip "evenpull/fusee/mainspring/coils"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/study/coils"
)

// The document holds its schema, and has what the strip has in the units of its names.
func TestCoilsJSON(t *testing.T) {
	_, trains := trial.Compile(t, "eight-day")
	solved, err := coils.Follow(t.Context(), &trains[0], coils.Options{Turns: []float64{2, 2.25}, Friction: 0.15, End: mainspring.Braced, Nodes: strip.Fewest})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []*coils.Result{solved, bench.Coils(3)} {
		said := written(t, func(w io.Writer) error { return Coils().JSON(w, Origin{}, r) })
		validate(t, written(t, func(w io.Writer) error { return Coils().Schema(w, "coils") }), said)
		doc := parsed(t, said)
		for name, want := range map[string]any{
			"train": "going", "friction_coefficient": r.Options.Friction, "outer_end": []string{"hooked", "braced"}[r.Options.End], "nodes_per_turn": float64(r.Options.Nodes),
			"rest_turns": r.Loop.Rest, "solid_turns": r.Loop.Solid, "closed_form_turns": r.ClosedSolid, "loop_area_j": r.Loop.Area, "friction_work_j": r.Loop.Rubbed,
		} {
			if got, there := doc[name]; got != want || !there {
				t.Errorf("%s: %v, want %v", name, got, want)
			}
		}
		if n := len(doc["cautions"].([]any)); n != 1 {
			t.Errorf("%d cautions", n)
		}
		turns := items(doc["turns"])
		header, lines := sheet(t, func(w io.Writer) error { return Coils().CSV(w, Origin{}, r) })
		if len(turns) != len(r.Closed) || len(lines) != len(r.Closed) || strings.Contains(strings.Join(header, " "), "shape") {
			t.Fatalf("%d turns, %d lines of %v", len(turns), len(lines), header)
		}
		for i := range r.Loop.Windings {
			w, row := &r.Loop.Windings[i], turns[i].(map[string]any)
			for name, want := range map[string]float64{
				"run_nm":       r.Used[i],
				"spring_turns": w.Free.Turns, "spring_torque_nm": w.Free.Couple, "winding_nm": w.Up.Couple, "running_down_nm": w.Down.Couple, "closed_form_nm": r.Closed[i],
				"closed_form_off": r.Closed[i]/w.Free.Couple - 1, "coil_efficiency": math.Sqrt(w.Down.Couple / w.Up.Couple), "residual": max(w.Free.Left, w.Up.Left, w.Down.Left), "overlap_mm": 1000 * max(w.Free.Overlap, w.Up.Overlap, w.Down.Overlap),
			} {
				if row[name] != want || lines[i][name] != cellOf(want) {
					t.Errorf("%s at %d: %v and %v, want %v", name, i, row[name], lines[i][name], want)
				}
			}
			shape := row["shape"].(map[string]any)
			for name, want := range map[string]struct {
				of []float64
				by float64
			}{"angle_deg": {w.Down.Angle, 180 / math.Pi}, "radius_mm": {w.Down.Radius, 1e3}, "along_mm": {w.Down.Along, 1e3}, "pressure_inner_n_per_mm": {w.Down.Inner, 1e-3}, "pressure_wall_n_per_mm": {w.Down.Wall, 1e-3}} {
				list := items(shape[name])
				if len(list) != len(w.Down.Angle) {
					t.Fatalf("%s has %d points, want %d", name, len(list), len(w.Down.Angle))
				}
				for k := range list {
					if got := list[k].(float64); math.Abs(got-want.of[k]*want.by) > 1e-12*max(1, math.Abs(got)) {
						t.Errorf("%s: %v, want %v", name, got, want.of[k]*want.by)
					}
				}
			}
		}
	}
}
