package estimate

import (
	"cmp"
	"math"
	"slices"
)

// emptySlopes is what is handed on when no slope is determined.
func emptySlopes(d prepared) TrimSlopes {
	return TrimSlopes{Common: map[string][]float64{}, Flights: flightNames(d.points), Power: d.power}
}

// trimSlopes averages the flights' slopes at each CG. The averages are independent (no line is laid through
// them), so their covariance is diagonal.
func trimSlopes(asked []number, c component, fitted lineInCG, s Systematics, d prepared) TrimSlopes {
	out := emptySlopes(d)
	out.Degrees = c.degrees
	var variances []float64
	for _, group := range groupByCG(asked) {
		sum, weights := 0.0, 0.0
		for _, n := range group {
			w := 1 / c.variance(n)
			sum += w * n.value
			weights += w
		}
		out.CG = append(out.CG, group[0].cg)
		out.Slope = append(out.Slope, sum/weights)
		variances = append(variances, c.factor/weights)
	}
	out.Covariance = make([][]float64, len(variances))
	for i, v := range variances {
		out.Covariance[i] = make([]float64, len(variances))
		out.Covariance[i][i] = v
	}
	slopeSources(&out, fitted, s)
	return out
}

// slopeSources sets the signed effect of each shared source on each slope.
func slopeSources(t *TrimSlopes, fitted lineInCG, s Systematics) {
	for i, slope := range t.Slope {
		common := s.perLift(slope, -1)
		common[SourceElevatorScale] = slope * s.ElevatorScale
		common = s.withCG(common, fitted.perCG(), t.CG[i]-fitted.centre)
		for _, name := range sourceNames(common) {
			if t.Common[name] == nil {
				t.Common[name] = make([]float64, len(t.Slope))
			}
			t.Common[name][i] = common[name]
		}
	}
	for _, name := range slices.Clone(allSources(t.Common)) {
		if !slices.ContainsFunc(t.Common[name], func(v float64) bool { return v != 0 }) {
			delete(t.Common, name)
		}
	}
}

// ElevatorPerLift gives dδe/dCL [rad per unit CL] at each CG flown as results with intervals.
func ElevatorPerLift(t TrimSlopes) []Result {
	var out []Result
	for i, cg := range t.CG {
		r := Result{Quantity: "elevator_per_lift", Unit: "rad", CG: cg, HasCG: true, Power: t.Power, Method: "mean of the flights' trim slopes at this CG",
			Flights: slices.Clone(t.Flights), Degrees: t.Degrees}
		common := map[string]float64{}
		for _, name := range allSources(t.Common) {
			common[name] = t.Common[name][i]
		}
		out = append(out, thin(weakSlope(fillStudent(r, t.Slope[i], math.Sqrt(t.Covariance[i][i]), common))))
	}
	return out
}

func allSources(common map[string][]float64) []string {
	var names []string
	for name := range common {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// groupByCG sorts numbers by CG (then flight) and cuts them where the CG changes.
func groupByCG(asked []number) [][]number {
	sorted := slices.Clone(asked)
	slices.SortStableFunc(sorted, func(a, b number) int { return cmp.Compare(a.cg, b.cg) })
	var out [][]number
	for _, n := range sorted {
		last := len(out) - 1
		if last < 0 || n.cg-out[last][0].cg > sameCG {
			out = append(out, nil)
			last++
		}
		out[last] = append(out[last], n)
	}
	return out
}
