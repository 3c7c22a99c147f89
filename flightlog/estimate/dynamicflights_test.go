package estimate

import "fmt"

// exactLoads are turns at two banks in both of two speeds, and a pull-up, without errors, one flight a CG.
func exactLoads(a aircraft, cgs []float64) []Load {
	var out []Load
	for i, cg := range cgs {
		for _, lift1 := range []float64{0.35, 0.5} {
			for _, n := range []float64{1.4, 1.9} {
				out = append(out, a.load(fmt.Sprintf("F%02d", i), cg, lift1, n, "turn"))
			}
		}
		out = append(out, a.load(fmt.Sprintf("F%02d", i), cg, 0.4, 1.7, pullUp))
	}
	return out
}

func (a aircraft) load(flight string, cg, lift1, n float64, kind string) Load {
	rate := lift1 * a.kappa * (n - 1/n)
	if kind == pullUp {
		rate = lift1 * a.kappa * (n - 1)
	}
	_, elevator := a.pitching(n*lift1, rate, cg)
	return Load{Flight: flight, CG: cg, Kind: kind, LoadFactor: n, Lift: n * lift1, PitchRate: rate, Elevator: elevator, Power: idlePower}
}

// exactSlips are four steady sideslips a flight without errors but a sideslip that is off by one value in each flight.
func exactSlips(a aircraft, cgs []float64) []Slip {
	var out []Slip
	for i, cg := range cgs {
		for _, beta := range []float64{-0.16, -0.08, 0.07, 0.15} {
			rudder, aileron, side := a.slip(beta)
			out = append(out, Slip{Flight: fmt.Sprintf("F%02d", i), CG: cg, Lift: 0.5, Sideslip: beta + 0.02*float64(i), Rudder: rudder,
				Aileron: aileron, SideForce: side, Bank: -side / 0.5, Power: "level"})
		}
	}
	return out
}

// exactStalls are two decelerations a flight, one slow and one fast, without errors.
func exactStalls(a aircraft, cgs []float64) []Stall {
	var out []Stall
	for i, cg := range cgs {
		for _, slowing := range []float64{0.4, 0.9} {
			lift, alpha := a.stall(cg, slowing)
			out = append(out, Stall{Flight: fmt.Sprintf("F%02d", i), CG: cg, Lift: lift, Alpha: alpha, Slowing: slowing, Broke: true, First: firstForeplane, Power: idlePower})
		}
	}
	return out
}
