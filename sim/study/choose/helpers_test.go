package choose

import (
	"context"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
)

var nan = math.NaN()

// asIs asks for nothing beyond the defaults.
var asIs = Options{Reserve: nan, EndShake: nan}

func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func study(t testing.TB, s *scenario.Scenario, number int, list *stock.Stock, o Options) *Study {
	t.Helper()
	st, err := Run(context.Background(), s, number, list, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// drawer is the sample stock list.
func drawer(t testing.TB) *stock.Stock {
	t.Helper()
	text, _ := scenarios.StockText(scenarios.DefaultStock)
	list, err := stock.Read(strings.NewReader(text), scenarios.DefaultStock)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func sampleStudy(t testing.TB) *Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	return study(t, s, 0, drawer(t), asIs)
}

// listOf is a stock list of springs: width, thickness, length each, all of which
// may be cut.
func listOf(sizes ...[3]float64) *stock.Stock {
	list := &stock.Stock{EndShakeMM: stock.EndShakeMM, Source: "list"}
	for i, v := range sizes {
		list.Springs = append(list.Springs, stock.Spring{Label: string(rune('a' + i)), WidthMM: v[0], ThicknessMM: v[1], LengthMM: v[2],
			YieldMPa: nan, ModulusGPa: nan, MayBeCut: true})
	}
	return list
}
