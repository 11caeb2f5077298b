package live

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/study/trying"
)

const (
	testHost = "127.0.0.1:4711"
	testKey  = "the-key-of-these-tests"
)

// deskOf is a desk with the trains of a sample.
func deskOf(t testing.TB, sample string) *Desk {
	t.Helper()
	s, _ := trial.Compile(t, sample)
	text, ok := scenarios.Text(sample)
	if !ok {
		t.Fatal("no such sample")
	}
	d := &Desk{Title: s.Title, File: sample, Text: text}
	for i := range s.Trains {
		b, err := trying.New(s, i)
		if err != nil {
			t.Fatal(err)
		}
		d.Trains = append(d.Trains, NewTrain(b))
	}
	return d
}

func handlerOf(t testing.TB, d *Desk) http.Handler {
	t.Helper()
	h, err := d.handler(testHost, testKey)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// post asks the handler as the page does.
func post(t testing.TB, h http.Handler, path string, q any) *httptest.ResponseRecorder {
	t.Helper()
	body, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest(http.MethodPost, "http://"+testHost+path+"?key="+testKey, bytes.NewReader(body))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", "http://"+testHost)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// BenchmarkRun is what a move of the hand asks: four tracks of 60 points. 4 ms are to be
// enough on two cores.
func BenchmarkRun(b *testing.B) {
	for _, sample := range []string{"eight-day", "strike-pleasant"} {
		d := deskOf(b, sample)
		h, t := handlerOf(b, d), d.Trains[0]
		q := request{Train: t.Name, Set: map[string]float64{t.Key(trying.Thickness): 0.37}, Rules: t.always(), Tracks: t.always(), Draws: some(100), Brief: true}
		b.Run(sample, func(b *testing.B) {
			for b.Loop() {
				if w := post(b, h, "/run", q); w.Code != http.StatusOK {
					b.Fatal(w.Body)
				}
			}
		})
	}
}

func some(draws int) *int { return &draws }
