package decide_test

import (
	"fmt"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
)

// Two winglets are discussed, and a fairing must not cost too much drag. It holds for both winglets, so the
// fairing may start; the winglet itself waits for somebody to choose.
func ExampleJudge() {
	choices := []decide.Choice{{Name: "winglet", Baseline: "small", Levels: []string{"small", "tall"}}}
	problem := decide.Problem{Seed: 1, Choices: choices, Errors: decide.DefaultErrors(1.2, choices)}
	for level, drag := range map[string]float64{"small": 0.0200, "tall": 0.0205} {
		problem.Predictions = append(problem.Predictions, decide.Prediction{
			Levels: map[string]string{"winglet": level}, Values: map[string]float64{evidence.ZeroLiftDrag: drag},
		})
	}
	most := 0.035
	problem.Limits = []decide.Limit{{Name: "drag", Quantity: evidence.ZeroLiftDrag, AtMost: &most, Evidence: "analysis"}}
	problem.Parts = []decide.Part{
		{Name: "fairing", Stage: "drawn", ShapedByStated: true, MustPass: []string{"drag"}, MustPassStated: true},
		{Name: "tip mould", Stage: "plug", BuiltTo: map[string]string{"winglet": "tall"}, ShapedBy: []string{"winglet"}, ShapedByStated: true, MustPassStated: true},
	}
	verdict, err := decide.Judge(problem)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range verdict.Board {
		fmt.Printf("%s: %s, %s\n  %s\n", row.Part, row.Status, row.Action, row.Reasons[0])
	}
	// Output:
	// fairing: frozen, start
	//   drag holds with every winglet still possible (over 99.9 % sure)
	// tip mould: pending, stop and ask
	//   waits for the winglet: small and tall are both still possible
}
