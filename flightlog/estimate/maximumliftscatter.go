package estimate

import (
	"math"
	"slices"

	"wingproof/flightlog/statistic"

	"gonum.org/v1/gonum/stat/distuv"
)

// slowingEffect is what is believed beforehand of how slowing raises the peak of lift: 5 ± 5 % of it for each m/s² of slowing, and as
// much angle of attack as that lift takes, 0.6 ± 0.6 degrees. Slowing at a knot a second raises maximum lift by a few per cent over
// that of a standstill in angle of attack (common practice, no source); the doubt is as large as the effect.
func slowingEffect(angle bool) (effect, sd float64) {
	if angle {
		return 0.01, 0.01
	}
	return 0.05, 0.05
}

// leastSlowingDegrees is the number of decelerations beyond one a flight from which they tell the effect of slowing themselves.
const leastSlowingDegrees = 3

// stallPart is how the peaks of one kind scatter inside flights, and how slowing moves them.
type stallPart struct {
	within           float64 // σ² between the breaks of one flight
	effect, effectSD float64 // of one m/s² of slowing: relative for lift, rad for angle of attack
}

// stallScatter holds the breaks of every configuration and power state of a program.
type stallScatter struct {
	configurations [][]Stall
	lift, alpha    stallPart
}

func (s stallScatter) of(p stallPeak) stallPart {
	if p.angle {
		return s.alpha
	}
	return s.lift
}

// PoolStalls adds the decelerations of every configuration of a program (one slice a configuration, in a fixed order), CG by CG, to the scatter and
// returns it: how much peaks differ by chance, inside flights and between them, and how slowing moves them, is then
// estimated over all of them.
func (s *Scatter) PoolStalls(configurations [][]Stall) *Scatter {
	all := s.stalls.configurations
	for _, stalls := range configurations {
		for _, power := range stallPowers(stalls) {
			kept, _, _ := usableStalls(slices.DeleteFunc(slices.Clone(stalls), func(p Stall) bool { return p.Power != power }))
			all = append(all, stallStations(kept)...)
		}
	}
	s.stalls = scatterOfStalls(all)
	return s
}

func stallPowers(stalls []Stall) []string {
	var out []string
	for _, p := range stalls {
		if !slices.Contains(out, p.Power) {
			out = append(out, p.Power)
		}
	}
	slices.Sort(out)
	return out
}

func scatterOfStalls(configurations [][]Stall) stallScatter {
	return stallScatter{configurations, partOf(configurations, stallLift()), partOf(configurations, stallAngle())}
}

// chooseStallScatter takes the pool's where there is one.
func chooseStallScatter(kept []Stall, pooled *Scatter) stallScatter {
	if pooled != nil && len(pooled.stalls.configurations) > 0 {
		return pooled.stalls
	}
	return scatterOfStalls([][]Stall{kept})
}

// component is the pooled scatter of the flights' means.
func (s stallScatter) component(peak stallPeak) component {
	var asked [][]number
	for _, kept := range s.configurations {
		asked = append(asked, stallNumbers(kept, peak, s.of(peak)))
	}
	_, c := playDownNumbers(asked, s.of(peak).within)
	return c
}

// partOf finds σ² inside flights and the effect of slowing, flights' own levels taken off; breaks that lie far from the others of their
// flight count less. What the flights say of the effect is joined with what is believed beforehand, each weighed by one over its
// variance; few degrees of freedom widen the flights' part as Student's t is wider than the normal.
func partOf(configurations [][]Stall, peak stallPeak) stallPart {
	believed, doubt := slowingEffect(peak.angle)
	out := stallPart{effect: believed, effectSD: doubt}
	var flights []stallFlight
	for _, kept := range configurations {
		flights = append(flights, stallFlights(kept)...)
	}
	sum := sumStalls(flights, peak, out)
	out.within = sum.about(believed)
	if sum.degrees < leastSlowingDegrees || sum.xx == 0 {
		return out
	}
	seen, free := sum.xy/sum.xx, sum.degrees-1
	variance := sum.about(seen) * sum.degrees / free / sum.xx * square(statistic.StudentQuantile(free)/statistic.Normal975)
	if total := variance + square(doubt); total > 0 {
		share := square(doubt) / total
		out.effect, out.effectSD = believed+share*(seen-believed), doubt*math.Sqrt(variance/total)
	}
	out.within = sum.about(out.effect)
	return out
}

// stallSums are sums of squares and products of slowing and peak about flights' means.
type stallSums struct{ xx, xy, yy, degrees float64 }

// about is the variance that an effect leaves.
func (s stallSums) about(effect float64) float64 {
	return math.Max(0, s.yy-effect*(2*s.xy-effect*s.xx)) / math.Max(1, s.degrees)
}

func sumStalls(flights []stallFlight, peak stallPeak, part stallPart) stallSums {
	var out stallSums
	for i, breaks := range weighedStalls(flights, peak, part) {
		broken := flights[i].broken()
		weights, meanX, meanY := 0.0, 0.0, 0.0
		for j, b := range breaks {
			value, _ := peak.of(broken[j])
			weights += b.weight()
			meanX += b.weight() * excess(broken[j])
			meanY += b.weight() * value
		}
		if weights == 0 {
			continue
		}
		meanX, meanY = meanX/weights, meanY/weights
		size := peak.size(meanY / (1 + part.effect*meanX))
		for j, b := range breaks {
			value, _ := peak.of(broken[j])
			dx, dy := (excess(broken[j])-meanX)*size, value-meanY
			out.xx, out.xy, out.yy = out.xx+b.weight()*dx*dx, out.xy+b.weight()*dx*dy, out.yy+b.weight()*dy*dy
		}
		out.degrees += math.Max(0, weights-1)
	}
	return out
}

func normalQuantile(p float64) float64 { return distuv.UnitNormal.Quantile(p) }
