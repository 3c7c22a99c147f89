package demo

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/rehearse"
)

// reality is what is true of one configuration of a programme. Stations are full-size metres aft of datum, as in the aircraft.
type reality struct {
	aircraft rehearse.Aircraft // with the CG at any station
	cgOffset float64           // weighed − true, full-size m

	foreplaneLift func(cg float64) float64 // trimmed lift at which the foreplane lets go; nil: the aircraft's at every CG

	mass     float64 // weighed/true − 1
	airspeed float64 // indicated/true − 1
}

// about is the derivatives about a station at the height of the CG.
func (r reality) about(cg float64) aero.Derivatives {
	return stability.Moved(r.aircraft.Derivatives, cg, r.aircraft.CGZ)
}

// chord is the full-size mean chord.
func (r reality) chord() float64 { return r.aircraft.Derivatives.Reference.MeanChord }

// neutralPoint is where the moment does not change with angle of attack: the derivatives are moved there, so that lift and normal
// force, which differ a little, make none.
func (r reality) neutralPoint() (float64, error) {
	x := r.aircraft.CGX
	for range 20 {
		next, err := stability.NeutralPoint(r.about(x))
		if err != nil || math.Abs(next-x) < 1e-9 {
			return next, err
		}
		x = next
	}
	return x, errors.New("the neutral point does not settle")
}

// trimmedLiftSlope is dCL/dα with the elevator trimming at a CG.
func (r reality) trimmedLiftSlope(cg float64) (float64, error) {
	zero, _, err := stability.Trim(r.about(cg), 0)
	if err != nil {
		return 0, err
	}
	one, _, err := stability.Trim(r.about(cg), 1)
	return 1 / (one - zero), err
}

// kappa is ρ·S·c/(4·m): dimensionless pitch rate for each unit of lift beyond that of straight flight.
func (r reality) kappa(density float64) float64 {
	ref, scale := r.aircraft.Derivatives.Reference, r.aircraft.LengthRatio
	return density * ref.Area * ref.MeanChord * scale * scale * scale / (4 * r.aircraft.Body.Mass)
}

// elevatorPerG is dδe/dn of a pull-up at a CG, from level flight with the lift coefficient lift.
func (r reality) elevatorPerG(cg, lift, density float64) float64 {
	d := r.about(cg)
	e, rate := d.ByControl[stability.Elevator], lift*r.kappa(density)
	det := d.ByAlpha.Lift*e.Pitch - e.Lift*d.ByAlpha.Pitch
	return (-d.ByAlpha.Lift*d.ByPitchRate.Pitch*rate - d.ByAlpha.Pitch*(lift-d.ByPitchRate.Lift*rate)) / det
}

// manoeuvrePoint is the CG at which the elevator for each g, which is all but linear in the CG, vanishes.
func (r reality) manoeuvrePoint(density float64) float64 {
	const lift = 0.4 // cancels
	a, b := r.aircraft.CGX, r.aircraft.CGX+r.chord()
	for range 20 {
		at, before := r.elevatorPerG(b, lift, density), r.elevatorPerG(a, lift, density)
		if at == before {
			break
		}
		a, b = b, b-at*(b-a)/(at-before)
	}
	return b
}

// slip is what a radian of steady sideslip takes at a CG and lift coefficient: mean rudder, aileron, side force and bank.
func (r reality) slip(cg, lift float64) (rudder, aileron, side, bank float64) {
	d := r.about(cg)
	a, n := d.ByControl["aileron"], d.ByControl["rudder"]
	det := n.Yaw*a.Roll - n.Roll*a.Yaw
	rudder = (-d.ByBeta.Yaw*a.Roll + d.ByBeta.Roll*a.Yaw) / det
	aileron = (-n.Yaw*d.ByBeta.Roll + n.Roll*d.ByBeta.Yaw) / det
	side = d.ByBeta.Side + n.Side*rudder + a.Side*aileron
	return rudder, aileron, side, -side / lift
}

// effective are the derivatives about a station that motion without derivatives by the rate of angle of attack shows: with
// α̇c/2V = q̂ − κ·(CL_α·α + CL_δe·δe + CL_q·q̂), Cm_α̇ adds −κ·CL_α·Cm_α̇ to Cm_α, −κ·CL_δe·Cm_α̇ to Cm_δe and (1 − κ·CL_q)·Cm_α̇ to Cm_q.
func (r reality) effective(cg, height, density float64) aero.Derivatives {
	d := stability.Moved(r.aircraft.Derivatives, cg, height)
	by, k := r.aircraft.AlphaRate.Pitch, r.kappa(density)
	d.ByAlpha.Pitch -= by * k * d.ByAlpha.Lift
	e := d.ByControl[stability.Elevator]
	e.Pitch -= by * k * e.Lift
	d.ByControl[stability.Elevator] = e // Moved has made a map of its own
	d.ByPitchRate.Pitch += by * (1 - k*d.ByPitchRate.Lift)
	return d
}

// derivatives lists what inputs should find, by quantity: longitudinal about one station, lateral about another, rudders of both together.
func (r reality) derivatives(along, across, height, density float64) map[string]float64 {
	out := longitudinalOf(r.effective(along, height, density))
	out[identify.PitchByAlphaRate] = r.aircraft.AlphaRate.Pitch
	for quantity, value := range lateralOf(stability.Moved(r.aircraft.Derivatives, across, height)) {
		switch quantity {
		case identify.RudderPower, identify.SideForceByRudder, identify.RollByRudder:
			value *= 2
		}
		out[quantity] = value
	}
	return out
}

// modes are the natural motions at a CG, true airspeed and density, thrust constant.
func (r reality) modes(cg, speed, density float64) (stability.Modes, error) {
	d := r.about(cg)
	scale := r.aircraft.LengthRatio
	d.Reference.Area *= scale * scale
	d.Reference.Span *= scale
	d.Reference.MeanChord *= scale
	lift := 2 * r.aircraft.Body.Mass * atmosphere.Gravity / (density * speed * speed * d.Reference.Area)
	p := r.aircraft.Polar
	d, err := stability.Trimmed(d, lift, p.Min+p.Factor*(lift-p.LiftAtMin)*(lift-p.LiftAtMin))
	if err != nil {
		return stability.Modes{}, err
	}
	d.ByAlpha.Drag = 2 * p.Factor * (lift - p.LiftAtMin) * d.ByAlpha.Lift
	d.ByPitchRate.Drag = 2 * p.Factor * (lift - p.LiftAtMin) * d.ByPitchRate.Lift
	return stability.FindModes(d, r.aircraft.Body, stability.Condition{Density: density, Speed: speed, AlphaRate: r.aircraft.AlphaRate})
}

// slowingOfTruth is the rate at which maximum lift is stated, m/s².
const slowingOfTruth = 0.5

// highestLift is the highest lift coefficient of a deceleration of 0.5 m/s² in still air at a CG, throttle closed and the hand exact, and the angle of
// attack there: rehearse.Aircraft.HighestLift at the rate at which maximum lift is stated.
func (r reality) highestLift(cg float64) (lift, alpha float64, err error) {
	ac := r.aircraft
	ac.CGX = cg
	if r.foreplaneLift != nil {
		ac.MaxLift = r.foreplaneLift(cg)
	}
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	log, err := rehearse.Fly(ac, []rehearse.Card{
		{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135},
		{Kind: rehearse.Deceleration, Speed: 1.4 * stall, Duration: 40, Size: slowingOfTruth},
	}, rehearse.Weather{}, rehearse.Instruments{FastRate: 100, AirRate: 100, SatelliteRate: 100}, rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		return 0, 0, fmt.Errorf("highest lift: %w", err)
	}
	s := log.Stretches[1]
	for i, t := range log.Time {
		if t >= s.From && t <= s.To && log.Truth.Lift[i] > lift {
			lift, alpha = log.Truth.Lift[i], log.Truth.Alpha[i]
		}
	}
	return lift, alpha, nil
}
