package choose_test

import (
	"context"
	"fmt"
	"math"
	"strings"

	"evenpull/scenarios"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
)

// Which of three springs that the shop has goes best into the clock?
func ExampleRun() {
	s, err := scenarios.Load("too-weak") // or scenario.ReadFile
	if err != nil {
		fmt.Println(err)
		return
	}
	list, err := stock.ReadCSV(strings.NewReader(`label,width_mm,thickness_mm,length_mm
drawer 3,34,0.40,1700
drawer 5,32,0.39,1650
drawer 9,31,0.42,1600
`), "shop.csv")
	if err != nil {
		fmt.Println(err)
		return
	}
	st, err := choose.Run(context.Background(), s, 0, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if !c.Fits() {
			fmt.Printf("%s does not go in; too wide: %t\n", c.Label, c.Refused.Why == choose.TooWide)
			continue
		}
		fmt.Printf("%d. %s %v, set up %.2f turns\n", c.Rank, c.Label, c.Digest.Verdict.Code, c.Digest.Spring.SetUp)
	}
	// Output:
	// 1. drawer 9 suits, set up 1.17 turns
	// 2. drawer 5 suits, set up 1.33 turns
	// drawer 3 does not go in; too wide: true
}
