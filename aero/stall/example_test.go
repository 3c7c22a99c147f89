package stall_test

import (
	"fmt"

	"gonum.org/v1/gonum/mat"

	"wingproof/aero/stall"
)

// One foreplane strip and one wing strip. The foreplane lets go at 5α = 1; from there on it sheds no more
// downwash, and the wing gets to its maximum sooner than its attached slope says (1.2/4 rad, 17.19°).
func ExampleFind() {
	order, err := stall.Find(stall.Case{
		Name: "aft CG, full nose-up elevator, full size, clean",
		Strips: []stall.Strip{
			{Surface: "foreplane", Part: stall.Foreplane, Along: 0.5, Area: 1},
			{Surface: "wing", Part: stall.Wing, Along: 0.5, Area: 4},
		},
		Attached: func(alpha float64) []float64 { return []float64{5 * alpha, 4 * alpha} },
		MaxLift:  func(float64) []float64 { return []float64{1, 1.2} },
		Response: mat.NewDense(2, 2, []float64{4, 0.2, -1, 4}),
		AlphaMin: 0, AlphaMax: 0.4,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("foreplane", order.Foreplane)
	fmt.Println("wing     ", order.Wing)
	fmt.Println("margin   ", order.Margin)
	// Output:
	// foreplane 11.46°
	// wing      15.82°
	// margin    4.37°
}

// Where the range ends before the wing has reached its maximum, the margin is a bound.
func ExampleBracket() {
	order, err := stall.Find(stall.Case{
		Name: "short range",
		Strips: []stall.Strip{
			{Surface: "foreplane", Part: stall.Foreplane, Along: 0.5, Area: 1},
			{Surface: "wing", Part: stall.Wing, Along: 0.5, Area: 4},
		},
		Attached: func(alpha float64) []float64 { return []float64{5 * alpha, 4 * alpha} },
		MaxLift:  func(float64) []float64 { return []float64{1, 1.2} },
		AlphaMin: 0, AlphaMax: 0.28,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	_, known := order.Margin.Value()
	fmt.Println(known, order.Margin)
	// Output:
	// false at least 4.58°
}

func ExampleHold() {
	held, err := stall.Hold([]float64{1.25, 1.0}, []float64{1, 1.2}, mat.NewDense(2, 2, []float64{4, 0.2, -1, 4}))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("lift %.4f turn %.4f\n", held.Lift, held.Turn)
	// Output:
	// lift [1.0000 1.0625] turn [-0.0625 0.0000]
}
