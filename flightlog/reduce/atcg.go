package reduce

import (
	"wingproof/flightlog"
)

// slopeReach is the reach [s] to either side of the cubics that give angular acceleration, or two samples where that is more: an eighth
// of the short period of a model. Common practice, no source.
const slopeReach = 0.08

// slopeHalf is how many samples a step apart lie within slopeReach.
func slopeHalf(step float64) int { return max(2, int(slopeReach/step+1e-6)) }

// atCG moves specific forces from the inertial unit to the CG, f_cg = f − ω̇×r − ω×(ω×r) with r from the CG to the unit (kinematics
// of a rigid body; Klein & Morelli, Aircraft System Identification, ch. 10). All series stand a step apart.
func atCG(force, rate [3][]float64, r [3]float64, step float64) {
	if r == [3]float64{} {
		return
	}
	var slope [3][]float64
	for k := range 3 {
		slope[k] = cubicSlopes(rate[k], step)
	}
	for i := range force[0] {
		w, d := [3]float64{rate[0][i], rate[1][i], rate[2][i]}, [3]float64{slope[0][i], slope[1][i], slope[2][i]}
		turning, spinning := cross(d, r), cross(w, cross(w, r))
		for k := range 3 {
			force[k][i] -= turning[k] + spinning[k]
		}
	}
}

// cubicSlopes is the slope of the least-squares cubic through the samples within slopeReach of each: of n = 2h+1 samples i = −h … h about it,
// b = (S6·Σi·v − S4·Σi³·v)/(S2·S6 − S4²)/step with Sk = Σi^k (Savitzky & Golay, Anal. Chem. 36, 1964). Near the ends it is that of the nearest
// whole window.
func cubicSlopes(v []float64, step float64) []float64 {
	half := slopeHalf(step)
	var s2, s4, s6 float64
	for i := 1; i <= half; i++ {
		square := float64(i * i)
		s2, s4, s6 = s2+2*square, s4+2*square*square, s6+2*square*square*square
	}
	out := make([]float64, len(v))
	for i := range out {
		at := min(max(i, half), len(v)-1-half)
		if at < half {
			return out // shorter than one window
		}
		var first, third float64
		for k := 1; k <= half; k++ {
			x, d := float64(k), v[at+k]-v[at-k]
			first, third = first+x*d, third+x*x*x*d
		}
		out[i] = (s6*first - s4*third) / (s2*s6 - s4*s4) / step
	}
	return out
}

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// fromCG is a place seen from the CG in body axes, from datum axes (x aft, z up) to X forward, Y right, Z down.
func fromCG(p *flightlog.Place, cg flightlog.Place) [3]float64 {
	if p == nil {
		return [3]float64{}
	}
	return [3]float64{cg.X - p.X, p.Y - cg.Y, cg.Z - p.Z}
}
