package similitude_test

import (
	"fmt"

	"wingproof/aero/similitude"
)

// A quarter-scale model flown at 300 m stands for a 700 kg aircraft at 2400 m; it weighs 5 % too much.
func ExampleNewSheet() {
	full := similitude.FullSize{Mass: 700, WingArea: 10, Speeds: []similitude.Speed{{Name: "cruise", True: 70}}}
	sheet, err := similitude.NewSheet(0.25, full, 300, 2400, &similitude.Weighed{Mass: 14.14})
	if err != nil {
		fmt.Println(err)
		return
	}
	mass, cruise := sheet.Rows[0], sheet.Speeds[0]
	fmt.Printf("target %.2f kg, weighed %.2f kg, departure %+.1f %%\n", mass.Target, *mass.Measured, *mass.Departure)
	fmt.Printf("cruise: model %.2f m/s true, as weighed %.2f m/s\n", cruise.ModelTrue, *cruise.BallastTrue)
	// Output:
	// target 13.47 kg, weighed 14.14 kg, departure +5.0 %
	// cruise: model 35.00 m/s true, as weighed 35.87 m/s
}
