package study

import (
	"wingproof/aero"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/identify"
)

// What flights hold beside steady points, as the fits see it. CGs are full-size metres aft of datum.

func stallsOf(flights []Flight) []estimate.Stall {
	var out []estimate.Stall
	for _, f := range flights {
		for _, t := range f.Reduction.Stalls {
			if t.Kept {
				out = append(out, estimate.Stall{Flight: f.Name, CG: f.CG, Lift: t.Lift, LiftSD: t.LiftSD, Alpha: t.Alpha, AlphaSD: t.AlphaSD,
					Slowing: t.Slowing, Reynolds: t.Reynolds, Broke: t.Broke, First: t.First, Power: string(t.Power)})
			}
		}
	}
	return out
}

// loadsOf takes the reference quantities of the model.
func loadsOf(flights []Flight, model aero.Reference) []estimate.Load {
	var out []estimate.Load
	for _, f := range flights {
		for _, t := range f.Reduction.Loads {
			if t.Kept {
				out = append(out, estimate.Load{Flight: f.Name, CG: f.CG, Kind: t.Kind, LoadFactor: t.LoadFactor, LoadFactorSD: t.LoadFactorSD,
					Lift: t.Lift, LiftSD: t.LiftSD, PitchRate: t.PitchRate * model.MeanChord / (2 * t.Airspeed),
					Elevator: t.Elevator, ElevatorSD: t.ElevatorSD, Power: string(t.Power)})
			}
		}
	}
	return out
}

// slipsOf takes the reference quantities of the model.
func slipsOf(flights []Flight, model aero.Reference) []estimate.Slip {
	var out []estimate.Slip
	for _, f := range flights {
		for _, t := range f.Reduction.Slips {
			if t.Kept {
				rate := model.Span / (2 * t.Airspeed)
				out = append(out, estimate.Slip{Flight: f.Name, CG: f.CG, Lift: t.Lift, Sideslip: t.Sideslip, SideslipSD: t.SideslipSD,
					Rudder: t.Rudder, RudderSD: t.RudderSD, Aileron: t.Aileron, AileronSD: t.AileronSD, Bank: t.Bank,
					SideForce: t.SideForce, SideForceSD: t.SideForceSD, RollRate: t.RollRate * rate, YawRate: t.YawRate * rate, Power: string(t.Power)})
			}
		}
	}
	return out
}

// fitsOf lists what the input manoeuvres of flights gave, in the order of the flights.
func fitsOf(flights []Flight) []identify.Fit {
	var out []identify.Fit
	for _, f := range flights {
		out = append(out, f.Dynamics.Fits...)
	}
	return out
}
