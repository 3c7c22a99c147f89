package report

import (
	"fmt"
	"math"
	"strings"

	"wingproof/aero/weighing"
	"wingproof/cmd/wingproof/internal/evidence"
)

// WeighedWords names a result of a weighing as the shop says it.
func WeighedWords(q weighing.Quantity) string {
	switch q {
	case weighing.CGX:
		return "CG aft of datum"
	case weighing.CGY:
		return "CG right of centre"
	case weighing.CGZ:
		return "CG above datum"
	case weighing.Ix, weighing.Iy, weighing.Iz:
		return inertiaWords("I" + string(q[1]))
	case weighing.Ixz:
		return "product of inertia, Ixz"
	}
	return string(q)
}

// isLength tells whether a result is written in millimetres.
func isLength(q weighing.Quantity) bool {
	return q == weighing.CGX || q == weighing.CGY || q == weighing.CGZ
}

// inUnit writes a result with its unit: kg, mm on the model, kg·m².
func inUnit(q weighing.Quantity, si float64, decimals int) string {
	switch {
	case isLength(q):
		return number(1000*si, decimals) + " mm"
	case q == weighing.Mass:
		return number(si, decimals) + " kg"
	}
	return number(si, decimals) + " kg·m²"
}

// decimalsWeighed shows the error to two figures in the unit of the result.
func decimalsWeighed(n weighing.Number) int {
	half := evidence.Normal95 * n.SD
	if isLength(n.Quantity) {
		half *= 1000
	}
	if !(half > 0) {
		return 3
	}
	return max(0, min(6, 1-int(math.Floor(math.Log10(half)))))
}

func intervalWeighed(n weighing.Number) string {
	d := decimalsWeighed(n)
	value, unit, _ := strings.Cut(inUnit(n.Quantity, n.Value, d), " ")
	half, _, _ := strings.Cut(inUnit(n.Quantity, evidence.Normal95*n.SD, d), " ")
	return value + " ± " + half + " " + unit
}

// SourceWords names an input by the cell of the sheet that it stands in, and the point or run.
func SourceWords(s weighing.Source) string {
	cell := map[weighing.Kind]string{
		weighing.Load: "reading_g", weighing.Tare: "tare_g", weighing.StationX: "x_mm", weighing.StationY: "y_mm", weighing.StationZ: "z_mm", weighing.Angle: "angle_deg",
		weighing.Spacing: "spacing_mm", weighing.Length: "length_mm", weighing.PivotDistance: "pivot_mm", weighing.PivotX: "x_mm of the axis", weighing.PivotZ: "z_mm of the axis",
		weighing.Period: "time_s", weighing.Amplitude: "amplitude_deg", weighing.HangerMass: "hanger_g", weighing.HangerDepth: "hanger_cg_mm", weighing.HangerPeriod: "time_s of the hanger",
		weighing.LocalGravity: "gravity of the place", weighing.AirEstimate: "estimate of the air that swings along",
	}[s.Kind]
	if s.Of == "" {
		return cell
	}
	return cell + ", " + s.Of
}

// mostToBetter is how many readings may be asked for at once; more than that is another bench.
const mostToBetter = 3

// halving says what would halve the error of a result.
func (c Weigh) halving(n weighing.Number) string {
	inputs, factor := n.Halving()
	first := n.Parts[0]
	begin := first
	for _, p := range n.Parts {
		if p.Source.Kind != weighing.AirEstimate && p.Source.Kind != weighing.LocalGravity {
			begin = p
			break
		}
	}
	switch {
	case inputs == nil && first.Source.Kind == weighing.AirEstimate:
		return "no reading: the air's share is an estimate"
	case inputs == nil && first.Source.Kind == weighing.LocalGravity:
		return "no reading of the bench: look up the gravity of the place"
	case inputs == nil || len(inputs) > mostToBetter:
		return "many readings; begin with " + c.better(n, begin, 0.5)
	}
	var words []string
	for _, p := range inputs {
		words = append(words, c.better(n, p, factor))
	}
	return strings.Join(words, "; ")
}

// better says how one reading's error comes down by a factor.
func (c Weigh) better(n weighing.Number, p weighing.Part, factor float64) string {
	name, now, then := plain(SourceWords(p.Source)), p.InputSD, factor*p.InputSD
	switch p.Source.Kind {
	case weighing.Period, weighing.HangerPeriod:
		return fmt.Sprintf("%s: %s times as many periods at one go", name, number(1/factor, 1))
	case weighing.Load, weighing.Tare, weighing.HangerMass:
		return fmt.Sprintf("%s to %s g (now %s)", name, figures(1000*then, 2), figures(1000*now, 2))
	case weighing.Angle, weighing.Amplitude:
		return fmt.Sprintf("%s to %s° (now %s)", name, figures(then*180/math.Pi, 2), figures(now*180/math.Pi, 2))
	}
	words := fmt.Sprintf("%s to %s mm (now %s)", name, figures(1000*then, 2), figures(1000*now, 2))
	pivot := p.Source.Kind == weighing.PivotDistance || p.Source.Kind == weighing.PivotX || p.Source.Kind == weighing.PivotZ
	if mass, ok := c.Result.Number(weighing.Mass); ok && pivot && n.Value > 0 && mass.Value > 0 && n.Quantity != weighing.Ixz {
		words += fmt.Sprintf(", or put the axis about %s mm from the CG, where that distance hardly matters", number(1000*math.Sqrt(n.Value/mass.Value), 0))
	}
	return words
}
