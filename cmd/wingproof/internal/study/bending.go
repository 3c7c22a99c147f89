package study

import (
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// Ratio is bending over what a part carries, with its 95 % interval.
type Ratio struct{ Value, Low, High float64 }

// BendingRatios gives, at each station of a built part's table, the predicted bending at limit load over
// what the part carries, with the stated errors of theory (model scale and full size) and of the part.
func (s *Study) BendingRatios(c Configuration, b program.Built) []Ratio {
	sd := math.Hypot(b.SD, fullSizeSD(TheoryErrors(s.Program, c.Airframe.Reference.MeanChord), evidence.RootBendingMoment))
	carried := decideBuilt(b).Allowable
	out := make([]Ratio, len(carried))
	for i, station := range carried {
		value := math.Abs(interpolate(c.BendingAxis, c.Bending, station.Y)) / station.Moment
		out[i] = Ratio{value, value * (1 - normal95*sd), value * (1 + normal95*sd)}
	}
	return out
}

// interpolate reads y at x from a table that rises in xs; it holds the ends.
func interpolate(xs, ys []float64, x float64) float64 {
	if x <= xs[0] {
		return ys[0]
	}
	for i := 1; i < len(xs); i++ {
		if x <= xs[i] {
			t := (x - xs[i-1]) / (xs[i] - xs[i-1])
			return ys[i-1] + t*(ys[i]-ys[i-1])
		}
	}
	return ys[len(ys)-1]
}
