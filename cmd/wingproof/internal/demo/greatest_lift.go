package demo

import (
	"wingproof/aero/stability"
)

// liftTruth is the greatest lift coefficient of the model in trim at a CG.
type liftTruth struct {
	CG     float64 `json:"cg_m"` // full-size metres aft of datum
	Lift   float64 `json:"lift_coefficient"`
	AtStop bool    `json:"ends_at_elevator_stop"` // the elevator has no travel left; else the foreplane lets go
}

// foreplaneLift is the trimmed lift coefficient at which the foreplane lets go with the CG at a station, whether the elevator reaches so
// far or not.
func (t configurationTruth) foreplaneLift(cg float64) float64 {
	forward, aft := t.letsGo[0], t.letsGo[len(t.letsGo)-1]
	return forward.Lift + (aft.Lift-forward.Lift)/(aft.CG-forward.CG)*(cg-forward.CG)
}

// greatestLift is the least of what the foreplane and the travel of the elevator allow.
func (t configurationTruth) greatestLift(cg float64) liftTruth {
	greatest := liftTruth{CG: cg, Lift: t.foreplaneLift(cg)}
	d := stability.Moved(t.derivatives, cg, t.derivatives.MomentZ)
	_, none, err := stability.Trim(d, 0)
	if err != nil {
		return greatest
	}
	_, one, err := stability.Trim(d, 1) // the elevator in trim is linear in lift
	if err != nil || one <= none {
		return greatest
	}
	if lift := (t.stop - none) / (one - none); lift < greatest.Lift {
		greatest.Lift, greatest.AtStop = lift, true
	}
	return greatest
}
