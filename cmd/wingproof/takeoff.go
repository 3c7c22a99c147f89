package main

import (
	"fmt"
	"math"

	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// takeOffNote says from what speed the elevator lifts the nose wheel, or what the folder lacks to say so.
func takeOffNote(p *program.Program, c condition, s solved) ([]string, error) {
	setup := c.setup
	setup.Grids = false
	r, missing, err := prediction.TakeOff(p, s.airframe, setup)
	if err != nil || len(missing) > 0 {
		return missing, err
	}
	const knot = 1852.0 / 3600 // m/s, exact
	if math.IsInf(r.Speed, 1) {
		return []string{fmt.Sprintf("take-off, full size: with the elevator at its stop (%.0f°) the nose wheel is not lifted at any speed, loading %q", r.Elevator*180/math.Pi, r.Loading)}, nil
	}
	return []string{fmt.Sprintf("take-off, full size: level on the ground, the elevator at its stop (%.0f°) lifts the nose wheel from %.0f kt equivalent on, loading %q (propeller, wheel drag and stall of the foreplane left out: the least that is needed)",
		r.Elevator*180/math.Pi, r.Speed/knot, r.Loading)}, nil
}
