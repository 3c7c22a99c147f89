package reconstruct

import "math"

// triangleSample is one instant of the triangle: velocity over the earth, and the horizontal part of the logged flow without crab.
type triangleSample struct {
	time            float64
	north, east     float64
	speed           float64 // horizontal, m/s
	toNorth, toEast float64 // direction, unit
}

// triangleSamples are the instants of satellite speed in flight, at most slowRate.
func triangleSamples(in *input) []triangleSample {
	v, fast := newLine(in.measured[airspeed]), flyingSpeed(in.measured[airspeed])
	if len(v.Time) == 0 {
		return nil
	}
	var angle [3]*line
	for k := range 3 {
		angle[k] = newLine(in.measured[rollAngle+kind(k)])
	}
	climb := in.verticalSpeed()
	north, east := thinned(in.measured[northSpeed], slowRate), thinned(in.measured[eastSpeed], slowRate)
	var out []triangleSample
	for i, t := range north.Time {
		speed := v.at(t)
		if !(speed >= fast) || !v.near(t, 0.5) || !angle[2].near(t, 0.5) {
			continue
		}
		p := triangleSample{time: t, north: north.Value[i], east: east.Value[i]}
		n, e := horizontalFlow(speed, climb.at(t), angle[0].at(t), angle[1].at(t), angle[2].at(t))
		p.speed = math.Hypot(n, e)
		p.toNorth, p.toEast = n/p.speed, e/p.speed
		out = append(out, p)
	}
	return out
}

// horizontalFlow is the horizontal part of the velocity through the air of a model without sideslip: V·R·(cos α, 0, sin α) with
// the α that gives the climb, −sin θ·cos α + cos φ·cos θ·sin α = −climb/V. A banked model does not go where its heading points.
func horizontalFlow(speed, climb, roll, pitch, heading float64) (north, east float64) {
	up := math.Max(-0.7, math.Min(0.7, climb/speed))
	along, across := math.Sin(pitch), math.Max(0.2, math.Cos(roll)*math.Cos(pitch))
	// sin θ·cos α − (cos φ·cos θ)·sin α = up
	alpha := math.Atan2(along, across) - math.Asin(math.Max(-1, math.Min(1, up/math.Hypot(along, across))))
	r := rotationOf(roll, pitch, heading)
	sin, cos := math.Sincos(alpha)
	d := r.earth([3]float64{speed * cos, 0, speed * sin})
	return d[0], d[1]
}

// verticalSpeed is the climb rate, else the slope of the height.
func (in *input) verticalSpeed() *line {
	if c := in.measured[climbRate]; len(c.Time) > 0 {
		return newLine(c)
	}
	return newLine(derivative(in.measured[height], 1))
}

// headingsCovered counts the twelfths of the circle in which the flow points for a second or more, and the largest empty arc.
func headingsCovered(air []triangleSample) (covered, gap float64) {
	const parts = 12
	var seconds [parts]float64
	for i := 1; i < len(air); i++ {
		dt := math.Min(1, air[i].time-air[i-1].time)
		turn := math.Mod(math.Atan2(air[i].toEast, air[i].toNorth)+2*math.Pi, 2*math.Pi)
		seconds[min(parts-1, int(turn/(2*math.Pi)*parts))] += dt
	}
	run, most := 0, 0
	for i := range 2 * parts {
		if seconds[i%parts] >= 1 {
			run = 0
			if i < parts {
				covered += 2 * math.Pi / parts
			}
			continue
		}
		run++
		most = max(most, min(run, parts))
	}
	return covered, float64(most) * 2 * math.Pi / parts
}
