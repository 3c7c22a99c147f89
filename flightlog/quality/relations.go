package quality

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// Blocks, in cells: short against a roll-in, and long against the lag of satellite navigation (0.1 to 0.3 s, common practice) and
// the gusts that a tube feels and the ground does not.
const (
	quick = 4  // 0.4 s
	brisk = 10 // 1 s
	slow  = 20 // 2 s
)

// levelBank is the bank [rad] up to which the pitch rate is compared with the pitch angle: in a turn most of it lifts the
// nose along the horizon and says nothing of the pitch angle.
const levelBank = 12 * degree

// acrossRelations are those of roll, yaw, heading and track: they need no pitch angle to speak of.
func (e *evidence) acrossRelations() []relation {
	return append(e.rollAndYaw(), e.turnRelations()...)
}

// alongRelations are those of pitch, forward acceleration and heights, in which the bank tells turns apart.
func (e *evidence) alongRelations() []relation {
	return append(append(e.pitching(), e.slopeRelations()...), e.heightRelations()...)
}

// inAir is the usual choice of blocks.
func (e *evidence) inAir(k int) func(int) bool {
	return func(b int) bool { return e.s.inFlight(b, k) }
}

// or is a block's value, or another where it is missing.
func or(v []float64, b int, otherwise float64) float64 {
	if math.IsNaN(v[b]) {
		return otherwise
	}
	return v[b]
}

// speed is the airspeed, or the speed over the ground where there is none that can be trusted.
func (e *evidence) speed(k int) []float64 {
	air, ground := e.mean(flightlog.Airspeed, k), e.mean(flightlog.GroundSpeed, k)
	return combined(len(air), func(b int) float64 { return or(air, b, ground[b]) })
}

// Least spread of an angular rate that says anything, rad/s: a degree a second, above the noise of a cheap gyro over a block.
const leastRate = 0.02

// rollAndYaw: φ̇ = p + (q sin φ + r cos φ) tan θ and ψ̇ = (q sin φ + r cos φ)/cos θ, of which the leading parts are compared, so that
// one wrong channel spoils no other's verdict.
//
// Source: ISO 1151-1 axes; the relations are in every textbook of flight dynamics, such as Etkin, Dynamics of Flight.
func (e *evidence) rollAndYaw() []relation {
	var out []relation
	roll := e.mean(flightlog.RollAngle, quick)
	if e.s.has(flightlog.RollRate, flightlog.RollAngle) {
		out = append(out, relation{a: flightlog.RollRate, b: flightlog.RollAngle, saysA: "roll rate", saysB: "change of the roll angle", tolerance: 3, least: leastRate}.
			relate(softened(e.mean(flightlog.RollRate, quick)), slopes(roll, quick), e.inAir(quick)))
	}
	if e.s.has(flightlog.YawRate, flightlog.Heading) {
		turn := slopes(e.mean(flightlog.Heading, quick), quick)
		for b := range turn {
			turn[b] *= math.Cos(or(roll, b, 0))
		}
		out = append(out, relation{a: flightlog.YawRate, b: flightlog.Heading, saysA: "yaw rate", saysB: "change of the heading", tolerance: 3, least: leastRate}.
			relate(softened(e.mean(flightlog.YawRate, quick)), turn, e.inAir(quick)))
	}
	return out
}

// pitching: θ̇ = q cos φ − r sin φ with the wings nearly level.
func (e *evidence) pitching() []relation {
	if !e.s.has(flightlog.PitchRate, flightlog.PitchAngle) {
		return nil
	}
	roll := e.mean(flightlog.RollAngle, quick)
	banked := e.s.has(flightlog.RollAngle)
	level := func(b int) bool { return e.s.inFlight(b, quick) && (!banked || math.Abs(roll[b]) < levelBank) }
	return []relation{relation{a: flightlog.PitchRate, b: flightlog.PitchAngle, saysA: "pitch rate", saysB: "change of the pitch angle", tolerance: 3, least: leastRate}.
		relate(softened(e.mean(flightlog.PitchRate, quick)), slopes(e.mean(flightlog.PitchAngle, quick), quick), level)}
}

// turnRelations: in a turn without much slip g·tan φ = V·ψ̇, and the body's yaw rate is g·sin φ/V; the track turns as the heading does.
//
// Source: Etkin, Dynamics of Flight, steady level turn.
func (e *evidence) turnRelations() []relation {
	var out []relation
	roll, speed, ground := e.mean(flightlog.RollAngle, brisk), e.speed(brisk), e.mean(flightlog.GroundSpeed, brisk)
	heading, track := slopes(e.mean(flightlog.Heading, brisk), brisk), slopes(e.mean(flightlog.GroundTrack, brisk), brisk)
	yaw := softened(e.mean(flightlog.YawRate, brisk))
	add := func(r relation, y, x func(b int) float64) {
		if r.tolerance = 3; e.s.has(r.a, r.b) {
			n := len(roll)
			out = append(out, r.relate(combined(n, y), combined(n, x), e.inAir(brisk)))
		}
	}
	tan := func(b int) float64 { return math.Tan(math.Max(-1.2, math.Min(1.2, roll[b]))) }
	const bank, turn = 0.06, 0.03 // spread of tan φ and of the turn rate [rad/s] that a few turns in a flight give
	add(relation{a: flightlog.RollAngle, b: flightlog.Heading, saysA: "roll angle", saysB: "bank that the change of the heading asks for", least: bank}, tan,
		func(b int) float64 { return heading[b] * speed[b] / standardGravity })
	add(relation{a: flightlog.RollAngle, b: flightlog.YawRate, saysA: "roll angle", saysB: "bank that the yaw rate asks for", least: bank},
		func(b int) float64 { return math.Sin(roll[b]) }, func(b int) float64 { return yaw[b] * speed[b] / standardGravity })
	add(relation{a: flightlog.RollAngle, b: flightlog.GroundTrack, saysA: "roll angle", saysB: "bank that the turning ground track asks for", least: bank}, tan,
		func(b int) float64 { return track[b] * or(ground, b, speed[b]) / standardGravity })
	add(relation{a: flightlog.Heading, b: flightlog.GroundTrack, saysA: "change of the heading", saysB: "change of the ground track", least: turn},
		func(b int) float64 { return heading[b] }, func(b int) float64 { return track[b] })
	add(relation{a: flightlog.YawRate, b: flightlog.GroundTrack, saysA: "yaw rate", saysB: "change of the ground track", least: turn},
		func(b int) float64 { return yaw[b] }, func(b int) float64 { return track[b] })
	return out
}

// climbs lists the channels that tell a vertical speed, with that speed in blocks.
func (e *evidence) climbs(k int) (qs []flightlog.Quantity, vertical [][]float64) {
	perPascal := -1 / (atmosphere.SeaLevelDensity * standardGravity) // m of height; density enters no sign
	for _, q := range []flightlog.Quantity{flightlog.Altitude, flightlog.StaticPressure, flightlog.ClimbRate} {
		if !e.s.has(q) {
			continue
		}
		v := e.mean(q, k)
		switch q {
		case flightlog.Altitude:
			v = slopes(v, k)
		case flightlog.StaticPressure:
			v = slopes(v, k)
			for b := range v {
				v[b] *= perPascal
			}
		}
		qs, vertical = append(qs, q), append(vertical, v)
	}
	return qs, vertical
}

// climbWords are what climbs looks at.
func climbWords(q flightlog.Quantity) string {
	switch q {
	case flightlog.Altitude:
		return "change of the altitude"
	case flightlog.StaticPressure:
		return "height that the change of the static pressure shows"
	}
	return "climb rate"
}

// slopeRelations: the forward axis feels gravity along it and the change of airspeed, f_x = g·sin θ + dV/dt, which is g·ḣ/V + dV/dt but
// for the angle of attack; and the nose points up where the path does, since the angle of attack changes less than the
// path (climbs and glides). Where the path bends hard, as in the pull-up out of a dive, neither holds: the forward axis lies at an angle of attack
// to the path and feels its bending.
func (e *evidence) slopeRelations() []relation {
	var out []relation
	n := e.s.n / brisk
	const hard = 2 * standardGravity // the steepest turn of a test sheet, at 60° of bank
	down := e.mean(flightlog.DownAcceleration, brisk)
	gently := func(b int) bool { return e.s.inFlight(b, brisk) && math.Abs(or(down, b, 0)) < hard }
	force, pitch := softened(e.mean(flightlog.ForwardAcceleration, brisk)), softened(e.mean(flightlog.PitchAngle, brisk))
	gain := slopes(e.mean(flightlog.Airspeed, brisk), brisk)
	const least = 0.5 // m/s²: three degrees of slope
	along := combined(n, func(b int) float64 { return standardGravity * math.Sin(pitch[b]) })
	ahead := combined(n, func(b int) float64 { return force[b] - or(gain, b, 0) })
	faster := func(slope []float64) []float64 {
		return combined(n, func(b int) float64 { return slope[b] + or(gain, b, 0) })
	}
	if e.s.has(flightlog.ForwardAcceleration, flightlog.PitchAngle) {
		out = append(out, relation{a: flightlog.ForwardAcceleration, b: flightlog.PitchAngle, saysA: "forward acceleration", saysB: "gravity along the pitch angle", least: least}.
			relate(force, faster(along), gently),
			relation{a: flightlog.ForwardAcceleration, b: flightlog.PitchAngle, saysA: "forward acceleration", saysB: "gravity along the pitch angle", tolerance: 3, sizeOnly: true, least: least}.
				relate(ahead, along, gently))
	}
	speed := e.speed(brisk)
	qs, vertical := e.climbs(brisk)
	for i, q := range qs {
		slope := combined(n, func(b int) float64 { return standardGravity * math.Max(-1, math.Min(1, vertical[i][b]/speed[b])) })
		if e.s.has(flightlog.ForwardAcceleration) {
			out = append(out, relation{a: flightlog.ForwardAcceleration, b: q, saysA: "forward acceleration", saysB: climbWords(q), least: least}.relate(force, faster(slope), gently))
		}
		if e.s.has(flightlog.PitchAngle) {
			out = append(out, relation{a: flightlog.PitchAngle, b: q, saysA: "pitch angle", saysB: climbWords(q), tolerance: 5, least: least}.relate(along, slope, gently))
		}
	}
	return out
}

// scaleHeight is R·T/g of standard air at sea level, ISO 2533: height = −scaleHeight·ln(p/p₀) within 8 % in any weather.
const scaleHeight = atmosphere.GasConstant * atmosphere.SeaLevelTemperature / standardGravity

// heightRelations: static pressure falls with height by ρ·g, about 12 Pa a metre, and the climb rate is the change of height.
func (e *evidence) heightRelations() []relation {
	var out []relation
	n := e.s.n / slow
	pressure := e.mean(flightlog.StaticPressure, slow)
	byPressure := combined(n, func(b int) float64 { return -scaleHeight * math.Log(pressure[b]/atmosphere.SeaLevelPressure) })
	height, climb := e.mean(flightlog.Altitude, slow), e.mean(flightlog.ClimbRate, slow)
	all := func(int) bool { return true }
	const tolerance = 1.5          // air at −40 °C and at 50 °C differ by 1.3 from each other
	const metres, speed = 5.0, 0.5 // m, m/s: what a flight that climbs at all gives
	if e.s.has(flightlog.Altitude, flightlog.StaticPressure) {
		out = append(out, relation{a: flightlog.Altitude, b: flightlog.StaticPressure, saysA: "altitude", saysB: "height that the static pressure shows", tolerance: tolerance, least: metres}.
			relate(height, byPressure, all))
	}
	if e.s.has(flightlog.ClimbRate, flightlog.Altitude) {
		out = append(out, relation{a: flightlog.ClimbRate, b: flightlog.Altitude, saysA: "climb rate", saysB: "change of the altitude", tolerance: tolerance, least: speed}.
			relate(softened(climb), slopes(height, slow), all))
	}
	if e.s.has(flightlog.ClimbRate, flightlog.StaticPressure) {
		out = append(out, relation{a: flightlog.ClimbRate, b: flightlog.StaticPressure, saysA: "climb rate", saysB: "climb that the static pressure shows", tolerance: tolerance, least: speed}.
			relate(softened(climb), slopes(byPressure, slow), all))
	}
	return out
}
