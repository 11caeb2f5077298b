package page

import (
	"strings"

	"evenpull/sim/bench/assign"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"
)

// bench is what a bench book says: train by train, what of it went into the scenario, which
// barrel belongs where, and every spring's readings.
func (d *Document) bench(b *dossier.Bench) {
	var blocks []Block
	if len(b.Taken) > 0 {
		blocks = append(blocks, Block{Heading: "In place of what the scenario says"}, list(words.FromBench(b.Taken)))
	}
	blocks = append(blocks, Block{Heading: "What was found"})
	for _, a := range words.Answers(&assign.Record{Study: b.Readings, Judged: b.Assign}) {
		if len(b.Taken) == 0 || len(a.Gives) > 0 { // else it was told above
			blocks = append(blocks, paragraph("", a.Needs))
		}
		blocks = append(blocks, Block{List: append(items("", "", a.Gives...), items("", "Note:", a.Notes...)...)})
	}
	if b.Assign != nil {
		said := append(items("fault", "Fault:", words.AssignFaults(b.Assign)...), items("", "Note:", words.AssignNotes(b.Assign)...)...)
		blocks = append(blocks, Block{Heading: "Which barrel belongs to which train"})
		if words.Assigned(b.Assign) == "" { // else it is in the answer
			blocks = append(blocks, paragraph("", words.AssignHead(b.Assign)))
		}
		blocks = append(blocks, Block{List: said},
			table("Every spring in every train", 2, text.Pairs(b.Assign)))
	}
	st := b.Readings
	var row []Block
	for i, of := range chart.Readings(st) {
		caption := "Blows timed at the bench"
		if i < len(st.Springs) {
			caption = words.SupplyHead(st.Springs[i].Supply)
		}
		row = append(row, draw(d, "bench-readings-"+words.Turns(float64(i+1)), caption, "Measured with 95 % intervals, beside what is predicted: "+caption, chart.Read, of))
	}
	blocks = append(blocks, Block{Heading: "Readings beside the prediction"}, Block{Row: row})
	for i := range st.Needs {
		n := &st.Needs[i]
		blocks = append(blocks, Block{Row: []Block{table("Trials with weights of the "+n.Train+" train", 1, text.Trials(n)),
			{List: append(items("", "", words.Paces(st.Paces[i])...), items("", "Note:", words.NeedNotes(n)...)...)}}})
	}
	if e := st.Explained; e != nil {
		blocks = append(blocks, Block{Heading: words.FitHead(e)}, list(append(words.FitSays(e), words.FitNotes(e)...)), table("Inputs fitted to the readings", 2, text.Fitted(e)))
	}
	d.add("bench", strings.TrimSuffix("Bench record: "+b.Book.Title, ": "), blocks...)
}
